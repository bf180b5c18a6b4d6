namespace Spurless.Circuits.Tolerance;

/// <summary>One line of a mask that every sample is held against.</summary>
/// <param name="FromHz">Lower edge in hertz.</param>
/// <param name="ToHz">Upper edge in hertz; equal to the lower for a single frequency.</param>
/// <param name="MostLossDb">Greatest insertion loss allowed in dB; null for none.</param>
/// <param name="LeastLossDb">Least insertion loss demanded in dB; null for none.</param>
/// <param name="LeastReturnLossDb">Least return loss demanded at port 1 in dB; null for none.</param>
public sealed record MaskLine(
    double FromHz, double ToHz, double? MostLossDb = null, double? LeastLossDb = null, double? LeastReturnLossDb = null)
{
    /// <summary>Points at which a span is looked at, edges included.</summary>
    public const int PointsOfSpan = 21;

    /// <summary>The frequencies at which the line is checked.</summary>
    public IEnumerable<double> Frequencies() => ToHz <= FromHz
        ? [FromHz]
        : Enumerable.Range(0, PointsOfSpan).Select(i => FromHz + ((ToHz - FromHz) * i / (PointsOfSpan - 1)));
}

/// <summary>A question for <see cref="ToleranceAnalysis"/>.</summary>
public sealed record ToleranceRequest
{
    /// <summary>Temperature in degrees Celsius at which the parts have their nominal values.</summary>
    public const double ReferenceC = 20;

    /// <summary>Samples where nothing is said: percentiles of a spread are then good to about 1 % of the samples.</summary>
    public const int UsualSamples = 10_000;

    /// <summary>Number of samples, at least 20.</summary>
    public int Samples { get; init; } = UsualSamples;

    /// <summary>Seed: the same one gives the same result on any number of threads.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Frequencies in hertz of the bands, above 0.</summary>
    public required IReadOnlyList<double> FrequenciesHz { get; init; }

    /// <summary>Mask for the yield; empty for none.</summary>
    public IReadOnlyList<MaskLine> Mask { get; init; } = [];

    /// <summary>Lowest temperature in degrees Celsius; every sample has one temperature within the range, evenly spread.</summary>
    public double LowestC { get; init; } = ReferenceC;

    /// <summary>Highest temperature in degrees Celsius.</summary>
    public double HighestC { get; init; } = ReferenceC;

    /// <summary>Threads; 0 for as many as there are processors.</summary>
    public int Threads { get; init; }
}
