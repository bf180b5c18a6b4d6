using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Chains;

/// <summary>A circuit or a sweep that a site file names, ready to be used.</summary>
/// <param name="Name">As the tables name it.</param>
/// <param name="TwoPort">Its S-parameters.</param>
/// <param name="Remarks">What there is to say about it: a measured passive part that is not passive ...</param>
public sealed record Network(string Name, ITwoPort TwoPort, IReadOnlyList<ReceiverAssumption> Remarks)
{
    /// <summary>Whether it is a computed circuit whose file states no leakage, so that its rejection has no end.</summary>
    public bool LeakageUnstated { get; init; }

    /// <summary>The circuit that it was computed from; null for a sweep.</summary>
    public Circuit? Circuit { get; init; }
}
