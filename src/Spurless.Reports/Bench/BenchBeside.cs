using Spurless.Circuits.Measured;

namespace Spurless.Reports.Bench;

/// <summary>Another circuit or sweep, laid beside the circuit on the bench.</summary>
public sealed class BenchBeside
{
    internal BenchBeside(string name, BenchCurve? curve, MeasuredTwoPort? sweep) => (Name, Curve, Sweep) = (name, curve, sweep);

    /// <summary>Its file's name.</summary>
    public string Name { get; }

    /// <summary>The sweep; null for a circuit.</summary>
    public MeasuredTwoPort? Sweep { get; }

    /// <summary>The circuit's response; null for a sweep.</summary>
    internal BenchCurve? Curve { get; }
}

/// <summary>How one network differs from another.</summary>
/// <param name="Name">The one that is laid beside.</param>
/// <param name="Sweep">The sweep that it is held against; null where that is the circuit on the bench.</param>
/// <param name="LossDb">Its loss over the other's, in dB.</param>
/// <param name="AtHz">Where, in hertz.</param>
/// <param name="CentreHz">The middle of its pass-band over the other's, in hertz; 0 where that cannot be told.</param>
/// <param name="WidthHz">Its width at 3 dB over the other's, in hertz; null where a side lies outside what is shown.</param>
public sealed record BesideDifference(string Name, string? Sweep, double LossDb, double AtHz, double CentreHz, double? WidthHz);
