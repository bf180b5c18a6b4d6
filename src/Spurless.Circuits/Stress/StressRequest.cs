using System.Numerics;

namespace Spurless.Circuits.Stress;

/// <summary>What is connected to port 2 while a circuit is transmitted through.</summary>
public sealed record StressLoad
{
    private StressLoad()
    {
    }

    /// <summary>A load equal to the port impedance.</summary>
    public static StressLoad Matched { get; } = new();

    /// <summary>Impedance in ohms, real part not negative; null unless stated.</summary>
    public Complex? ImpedanceOhm { get; private init; }

    /// <summary>Standing wave ratio whose phase is not known, at least 1; null unless stated.</summary>
    public double? StandingWaveRatio { get; private init; }

    /// <summary>A load of any impedance.</summary>
    /// <param name="ohm">Impedance in ohms, real part not negative.</param>
    public static StressLoad Impedance(Complex ohm)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(ohm.Real, nameof(ohm));
        return new() { ImpedanceOhm = ohm };
    }

    /// <summary>A load of a standing wave ratio in the port impedance, at whatever phase is worst for each part.</summary>
    /// <param name="ratio">Standing wave ratio, at least 1, finite.</param>
    public static StressLoad Swr(double ratio)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(ratio, 1);
        return double.IsFinite(ratio)
            ? new() { StandingWaveRatio = ratio }
            : throw new ArgumentOutOfRangeException(nameof(ratio), "A standing wave ratio is a finite number.");
    }
}

/// <summary>A question for <see cref="StressAnalysis"/>.</summary>
/// <param name="PowerW">Power available from the transmitter in watts, above 0.</param>
/// <param name="FrequencyHz">Frequency in hertz, above 0.</param>
/// <param name="Load">What is on port 2.</param>
public sealed record StressRequest(double PowerW, double FrequencyHz, StressLoad Load);
