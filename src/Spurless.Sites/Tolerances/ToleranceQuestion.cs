using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Tolerance;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Tolerances;

/// <summary>How far does a circuit's response spread when it is built, and which part does most of it?</summary>
public sealed record ToleranceQuestion
{
    /// <summary>Specimens where nothing is said: shares are then good to about 1 %.</summary>
    public const int UsualSamples = ToleranceRequest.UsualSamples;

    /// <summary>Specimens where somebody waits for a picture: shares are then good to about 2 %.</summary>
    public const int QuickSamples = 2_000;

    /// <summary>Least specimens: a share of one in twenty has to be met.</summary>
    public const int LeastSamples = 20;

    /// <summary>Most specimens.</summary>
    public const int MostSamples = 10_000_000;

    /// <summary>Most points of a sweep.</summary>
    public const int MostPoints = 10_001;

    /// <summary>The circuit, all values known.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>Tolerance of the parts that state none; null leaves them at their values.</summary>
    public OtherTolerance? Others { get; init; }

    /// <summary>Number of specimens.</summary>
    public int Samples { get; init; } = UsualSamples;

    /// <summary>Seed: the same one gives the same result on any number of threads.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Where to look; null for the pass-band and the requirement's surroundings.</summary>
    public FrequencyChoice? Frequencies { get; init; }

    /// <summary>Whether the frequencies are those that plots need; those of <see cref="Frequencies"/> are then added.</summary>
    public bool ForPlots { get; init; }

    /// <summary>What the circuit must do; null for nothing.</summary>
    public Requirement? Requirement { get; init; }

    /// <summary>Lowest temperature in degrees Celsius; each specimen has one within the range.</summary>
    public double LowestC { get; init; } = ToleranceRequest.ReferenceC;

    /// <summary>Highest temperature in degrees Celsius.</summary>
    public double HighestC { get; init; } = ToleranceRequest.ReferenceC;

    /// <summary>Whether it is also tried out which part to make tunable, and what one per cent of each value moves.</summary>
    public bool Advise { get; init; } = true;

    /// <summary>The files that circuit and requirement were read from.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}
