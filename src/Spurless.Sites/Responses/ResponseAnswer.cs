using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.TwoPorts;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Responses;

/// <summary>What a network does over frequency, and to the carriers of a site.</summary>
public sealed record ResponseAnswer
{
    /// <summary>The figures.</summary>
    public required ResponseResult Result { get; init; }

    /// <summary>The network itself, for its curves between the points.</summary>
    public required ITwoPort Network { get; init; }

    /// <summary>The circuit, for its schematic; null for a measured file.</summary>
    public required Circuit? Circuit { get; init; }

    /// <summary>A receiver of a site, for the losses at its channel and its carriers; null where it was not asked for.</summary>
    public ReceiverFindings? Receiver { get; init; }

    /// <summary>What the network takes from each emitter of the site, in the site file's order; empty without a site.</summary>
    public IReadOnlyList<CarrierLoss> Losses { get; init; } = [];

    /// <summary>The files read.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}
