using Spurless.Radio.Quantities;
using Spurless.Signals.Spectra;

namespace Spurless.Sites.Surveys;

/// <summary>What emitters a spectrum shows.</summary>
public sealed record SurveyQuestion
{
    /// <summary>The sweeps and SigMF recordings, one or several bands, by name.</summary>
    public required IReadOnlyList<string> Sweeps { get; init; }

    /// <summary>What is read for the name <c>-</c>, once; null where no such name stands there.</summary>
    public TextReader? Input { get; init; }

    /// <summary>A second sweep of the same band behind a pad, or null.</summary>
    public string? Padded { get; init; }

    /// <summary>That pad in dB.</summary>
    public double PadDb { get; init; }

    /// <summary>Columns of tables with other heads; null for the usual ones.</summary>
    public SweepColumns? Columns { get; init; }

    /// <summary>Equivalent noise bandwidth of the bins in hertz; null for their spacing.</summary>
    public double? ResolutionHz { get; init; }

    /// <summary>
    /// Gain from the antenna connector to the instrument by frequency in dB (a cable's loss is negative), taken out of every level; empty
    /// for none.
    /// </summary>
    public IReadOnlyList<DecibelsAt> Gain { get; init; } = [];

    /// <summary>Further parts between antenna connector and instrument.</summary>
    public SurveyChain Chain { get; init; } = SurveyChain.None;

    /// <summary>All that lies between antenna connector and instrument.</summary>
    public SurveyChain Through => SurveyChain.Of(Gain).With(Chain);

    /// <summary>
    /// The level at the input that just reaches a recording's full scale, in dBm; null where it is not known, and then the levels of
    /// recordings are not.
    /// </summary>
    public double? FullScaleDbm { get; init; }

    /// <summary>The instrument's third-order intercept at its input in dBm, or null where it is not known.</summary>
    public double? InstrumentInterceptDbm { get; init; }

    /// <summary>Whether the trace is the maximum of many sweeps, which reads high.</summary>
    public bool MaximumHeld { get; init; }
}

/// <summary>An emitter that a survey found.</summary>
/// <param name="Line">The line, its level referred to the antenna connector.</param>
/// <param name="Doubtful">Why the instrument may have made it; null where nothing says so.</param>
public sealed record SurveyedEmitter(SpectrumLine Line, LineDoubt? Doubtful)
{
    /// <summary>Whether its line's level counts from a recording's full scale, not from a milliwatt.</summary>
    public bool IsRelative { get; init; }

    /// <summary>Mean power while on at the antenna connector in dBm; null where only its distance from full scale is known.</summary>
    public double? LevelDbm => IsRelative ? null : Line.LevelDbm;

    /// <summary>
    /// Its frequency in a site file: the channel where one fits, else the centre of its power, to as many figures as are known.
    /// </summary>
    public long CarrierHz
    {
        get
        {
            if (Line.Raster is { } fit)
            {
                return fit.ChannelHz;
            }

            double step = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(1, Line.FrequencySigmaHz))));
            return (long)(Math.Round(Line.FrequencyHz / step) * step);
        }
    }
}

/// <summary>What a survey found.</summary>
/// <param name="Emitters">Emitters, strongest first.</param>
/// <param name="MadeInside">Lines that the instrument made, by falling level.</param>
/// <param name="FloorDbm">Mean noise of each sweep in dBm, at the antenna connector.</param>
/// <param name="ResolutionHz">Noise bandwidth of the bins that was counted with, per sweep.</param>
/// <param name="Remarks">What has to be said: overload, assumptions.</param>
public sealed record SurveyAnswer(
    IReadOnlyList<SurveyedEmitter> Emitters,
    IReadOnlyList<InstrumentLine> MadeInside,
    IReadOnlyList<double> FloorDbm,
    IReadOnlyList<double> ResolutionHz,
    IReadOnlyList<SurveyRemark> Remarks)
{
    /// <summary>The instrument's third-order intercept at its input in dBm, stated or told by lines; null where not known.</summary>
    public double? InterceptDbm { get; init; }

    /// <summary>Whether it was told by lines.</summary>
    public bool InterceptFitted { get; init; }

    /// <summary>Which of the floors count from full scale.</summary>
    public IReadOnlyList<bool> FloorsRelative { get; init; } = [];
}
