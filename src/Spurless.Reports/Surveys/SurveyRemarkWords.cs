using System.Globalization;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Surveys;

/// <summary>What has to be said of a survey, a sentence each, without capital and full stop.</summary>
public static class SurveyRemarkWords
{
    /// <summary>For the command and its reports, which name the options that mend it.</summary>
    public static IReadOnlyList<string> Of(IEnumerable<SurveyRemark> remarks) => [.. remarks.Select(static r => Of(r, byCommand: true))];

    /// <summary>
    /// For the page, which asks for files alone: what it does not ask for is said to be uncounted.
    /// </summary>
    public static IReadOnlyList<string> OnPage(IEnumerable<SurveyRemark> remarks) =>
        [.. remarks.Select(static r => Of(r, byCommand: false))];

    private static string Of(SurveyRemark remark, bool byCommand) => remark switch
    {
        SurveyRemark.NoiseAbovePadded r => string.Create(
            CultureInfo.InvariantCulture,
            $"the noise of {r.File} is {r.RiseDb:0.0} dB higher than behind the pad: "
                + $"the instrument is overloaded, or the noise comes in by the antenna"),
        SurveyRemark.NoiseMoves r => string.Create(
            CultureInfo.InvariantCulture,
            $"the noise of {r.File} moves by {r.RangeDb:0.0} dB from sweep to sweep: "
                + $"the instrument was overloaded in some of them, or its setting was changed"),
        SurveyRemark.SpacingCounted => byCommand
            ? "the noise bandwidth of the bins was not given (--resolution), so their spacing is counted"
            : "the noise bandwidth of the bins is not known here, so their spacing is counted",
        SurveyRemark.InterceptTold r => Told(r),
        SurveyRemark.NothingTellsApart => "nothing tells apart what the instrument itself made: "
            + (byCommand
                ? "take a second sweep behind a pad (--padded, --pad), or give its --intercept"
                : "compare a second sweep behind a pad by the command survey before you trust weak lines beside strong ones"),
        SurveyRemark.PadTellsOf r => $"the sweep behind the pad tells of {r.File} only"
            + (r.ElsewhereMarked ? "; elsewhere what the instrument would make at the intercept is marked" : ""),
        SurveyRemark.MaximaHeld => "maxima were held: levels read high, noise by some 10 dB and noise-like signals with it",
        SurveyRemark.AtInstrument => byCommand
            ? "levels are those at the instrument: give --chain or --gain for what lies between it and the antenna connector"
            : "levels are those at the instrument: what lies between it and the antenna connector is not counted here",
        SurveyRemark.ChainTooShort r =>
            $"the figures of {string.Join(" and ", r.Parts)} do not cover the sweeps: beyond them the last one is counted",
        SurveyRemark.RecordedRows r => string.Create(
            CultureInfo.InvariantCulture,
            $"the bins of {r.File} have a noise bandwidth of {r.ResolutionHz:0} Hz, its "
                + $"{r.Rows} rows are {1000 * r.SecondsEach:0} ms long: a shorter burst reads weaker than it is"),
        SurveyRemark.FullScaleUnknown r => byCommand
            ? $"what the full scale of {r.File} is in dBm was not given (--full-scale), so its levels are not known, "
                + "only how far they lie under full scale"
            : $"what the full scale of {r.File} is in dBm is not known here, so its levels are not known either, "
                + "only how far they lie under full scale",
        SurveyRemark.Clipped r => string.Create(
            CultureInfo.InvariantCulture,
            $"of the samples of {r.File} {100 * r.Share:0.###} % stand at full scale: the receiver was overloaded, "
                + $"levels are too low and some lines its own; record with less gain"),
        _ => throw new ArgumentOutOfRangeException(nameof(remark)),
    };

    private static string Told(SurveyRemark.InterceptTold told)
    {
        string marked = told.ByPad ? "" : "; lines that it would make at that are marked: a sweep behind a pad proves or clears them";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"the instrument's third-order intercept, told by {told.Lines} of {(told.ByPad ? "its own lines" : "the lines")}: "
                + $"{told.Dbm:0.0} dBm, give or take {told.SpreadDb:0.0} dB{marked}");
    }
}
