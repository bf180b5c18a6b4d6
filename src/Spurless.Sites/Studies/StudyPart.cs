using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>Which products are asked for.</summary>
/// <param name="receiver">Index of the receiver among those studied.</param>
/// <param name="product">A product that reaches its report floor.</param>
internal delegate bool ProductChoice(int receiver, in ProductRecord product);

/// <summary>By how much an emitter is weaker at a receiver than the site says.</summary>
/// <param name="CarrierDb">Its carrier, as by a filter in front of the receiver that passes the channel, in dB.</param>
/// <param name="ChannelDb">What it radiates on the receiver's channel, in dB.</param>
internal readonly record struct SignalFall(double CarrierDb, double ChannelDb);

/// <summary>A study of some of a site's receivers and of some of their products, with emitters weaker than the site says.</summary>
internal sealed record StudyPart
{
    /// <summary>Indices of the receivers.</summary>
    public required IReadOnlyList<int> Receivers { get; init; }

    /// <summary>Which products count; null for all. A receiver's index is that within <see cref="Receivers"/>.</summary>
    public ProductChoice? Choice { get; init; }

    /// <summary>How much weaker an emitter is at a receiver, both by name; null for nothing.</summary>
    public Func<string, string, SignalFall>? Fall { get; init; }
}
