using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Chains;

/// <summary>A stage of the receive chain that only lets through: a feedline, an attenuator, a filter.</summary>
internal interface IPassiveStage
{
    /// <summary>The stage as the tables name it.</summary>
    string Name { get; }

    /// <summary>Whether the stage is a circuit or a measured two-port: what a study takes out for its 'without the filter'.</summary>
    bool IsFilter { get; }

    /// <summary>S-parameters in 50 ohm, port 1 towards the antenna, at a frequency in hertz.</summary>
    ScatteringMatrix At(double frequencyHz);

    /// <summary>Whether the stage is known at a frequency in hertz; where it is not, it counts as letting everything through.</summary>
    bool Covers(double frequencyHz);
}
