namespace Spurless.Circuits.Tolerance;

/// <summary>Three percentiles of a quantity.</summary>
/// <param name="P5">5 % of the samples lie at or below it.</param>
/// <param name="P50">The median.</param>
/// <param name="P95">95 % of the samples lie at or below it.</param>
public readonly record struct Percentiles(double P5, double P50, double P95);

/// <summary>How far the response spreads at one frequency.</summary>
/// <param name="FrequencyHz">Frequency in hertz.</param>
/// <param name="NominalS21Db">|S21| in dB at the nominal values.</param>
/// <param name="NominalS11Db">|S11| in dB at the nominal values.</param>
/// <param name="S21Db">|S21| in dB.</param>
/// <param name="S11Db">|S11| in dB.</param>
public sealed record ToleranceBand(double FrequencyHz, double NominalS21Db, double NominalS11Db, Percentiles S21Db, Percentiles S11Db);

/// <summary>What a part's tolerance contributes to the spread of |S21| in dB.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="Share">Its share of the variance that single parts explain in the samples, 0 to 1.</param>
/// <param name="LinearShare">The same by linear theory from the adjoint sensitivities at the nominal values, as a cross-check for small
/// tolerances.</param>
public sealed record ToleranceShare(string Part, double Share, double LinearShare);

/// <summary>What tolerances do to a circuit.</summary>
public sealed record ToleranceResult
{
    /// <summary>The question.</summary>
    public required ToleranceRequest Request { get; init; }

    /// <summary>Number of samples.</summary>
    public required int Samples { get; init; }

    /// <summary>Share of the samples that keep within the mask, 0 to 1; null without a mask.</summary>
    public required double? Yield { get; init; }

    /// <summary>95 % interval of the yield from the number of samples (Wilson's; from memory); null without a mask.</summary>
    public required (double Low, double High)? YieldInterval { get; init; }

    /// <summary>The bands in the order of the frequencies asked for.</summary>
    public required IReadOnlyList<ToleranceBand> Bands { get; init; }

    /// <summary>Parts with a tolerance, greatest share first, ties by name.</summary>
    public required IReadOnlyList<ToleranceShare> Ranking { get; init; }

    /// <summary>
    /// The part whose spread does most: the first candidate for a trimmer; null where nothing spreads. <see cref="TuningStudy"/> tries it
    /// out.
    /// </summary>
    public string? MostWorthTuning => Ranking.Count > 0 && Ranking[0].Share > 0 ? Ranking[0].Part : null;

    /// <summary>
    /// The band that matters most: nearest to the middle of what must pass by the mask, without one where least is lost as drawn; null
    /// without bands.
    /// </summary>
    public ToleranceBand? Main => Request.Mask.FirstOrDefault(static m => m.MostLossDb is not null) is { } pass
        ? Bands.MinBy(b => Math.Abs(b.FrequencyHz - ((pass.FromHz + pass.ToHz) / 2)))
        : Bands.MaxBy(static b => b.NominalS21Db);

    /// <summary>Parts that have no tolerance and were held at their values: an assumption of the result.</summary>
    public required IReadOnlyList<string> HeldParts { get; init; }
}
