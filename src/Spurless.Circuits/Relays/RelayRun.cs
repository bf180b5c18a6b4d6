namespace Spurless.Circuits.Relays;

/// <summary>One moment of a run, for its picture.</summary>
/// <param name="AtS">Time in seconds.</param>
/// <param name="PeakV">Amplitude on the line in volts.</param>
/// <param name="SmoothingV">Smoothing voltage in volts.</param>
/// <param name="BaseA">Base current of the last stage in amperes.</param>
/// <param name="CoilA">Coil current in amperes.</param>
public readonly record struct RelayMoment(double AtS, double PeakV, double SmoothingV, double BaseA, double CoilA);

/// <summary>The contacts change.</summary>
/// <param name="AtS">When, in seconds.</param>
/// <param name="Over">Whether they come over, past the filter; else they go back.</param>
public readonly record struct ContactChange(double AtS, bool Over);

/// <summary>What a relay did while something was sent.</summary>
public sealed record RelayRun
{
    /// <summary>Changes of the contacts in time.</summary>
    public required IReadOnlyList<ContactChange> Changes { get; init; }

    /// <summary>When they first came over, in seconds; null where they did not.</summary>
    public double? FirstOverS => Changes.Count > 0 ? Changes[0].AtS : null;

    /// <summary>How often they went back.</summary>
    public int WentBack => Changes.Count(static c => !c.Over);

    /// <summary>
    /// The longest time for which the coil's current stood under that which holds, once the contacts had been over and until it held again,
    /// in seconds; 0 where it always held. What was under at the end of the run is not counted.
    /// </summary>
    public required double LongestUnderS { get; init; }

    /// <summary>
    /// How long a transmitter at its greatest amplitude would have had to work into the filter for the same energy, in seconds.
    /// </summary>
    public required double IntoFilterS { get; init; }

    /// <summary>The moments asked for; empty where none were.</summary>
    public required IReadOnlyList<RelayMoment> Moments { get; init; }
}
