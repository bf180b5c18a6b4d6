using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Chains;

/// <summary>A circuit or a measured two-port in the chain, seen in 50 ohm.</summary>
/// <param name="Name">The stage as the tables name it.</param>
/// <param name="Source">Its S-parameters.</param>
/// <param name="IsFilter">Whether it counts as 'the filter'; the selectivity of a receiver does not.</param>
internal sealed record Filter(string Name, ITwoPort Source, bool IsFilter) : IPassiveStage
{
    private static readonly Complex FiftyOhm = new(50, 0);

    /// <summary>Whether the source is a computed circuit whose file states no leakage.</summary>
    public bool LeakageUnstated { get; init; }

    public bool Covers(double frequencyHz) => frequencyHz >= Source.LowestHz && frequencyHz <= Source.HighestHz;

    public ScatteringMatrix At(double frequencyHz)
    {
        ScatteringMatrix own = Source.At(frequencyHz);

        // Only an active two-port can fail to have S-parameters in 50 ohm; in a chain of passive ones it counts as a through.
        return TwoPortAlgebra.Renormalise(own, Source.Reference1, Source.Reference2, FiftyOhm, FiftyOhm) ?? ScatteringMatrix.Through;
    }
}
