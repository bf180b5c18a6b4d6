using Spurless.Circuits.Measured;

namespace Spurless.Sites.Chains;

/// <summary>What was assumed of a receiver or its chain for want of a figure: in words, or a remark on a sweep that it names.</summary>
public sealed record ReceiverAssumption
{
    private ReceiverAssumption()
    {
    }

    /// <summary>The assumption in words, a sentence without a full stop; null for a remark.</summary>
    public string? Told { get; private init; }

    /// <summary>The sweep's file as the site file names it; null without a remark.</summary>
    public string? File { get; private init; }

    /// <summary>The remark on it.</summary>
    public NetworkRemark? Remark { get; private init; }

    /// <summary>An assumption in words.</summary>
    public static ReceiverAssumption InWords(string told) => new() { Told = told };

    /// <summary>A remark on a sweep.</summary>
    public static ReceiverAssumption OfSweep(string file, NetworkRemark remark) => new() { File = file, Remark = remark };
}
