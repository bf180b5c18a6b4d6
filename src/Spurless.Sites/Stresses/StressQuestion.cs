using Spurless.Circuits.Parts;
using Spurless.Circuits.Stress;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Stresses;

/// <summary>Does a circuit bear a transmitter's power, and which part gives first?</summary>
public sealed record StressQuestion
{
    /// <summary>Power of a transmitter of which nothing is known, in watts: a mobile station's.</summary>
    public const double UsualPowerW = 25;

    /// <summary>The circuit, all values known.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>Power available from the transmitter in watts, above 0.</summary>
    public double PowerW { get; init; } = UsualPowerW;

    /// <summary>The frequency transmitted on in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>What is connected to port 2.</summary>
    public StressLoad Load { get; init; } = StressLoad.Matched;

    /// <summary>The files that the circuit was read from.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}
