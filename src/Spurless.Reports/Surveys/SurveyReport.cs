using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Reports.Html;
using Spurless.Reports.Lists;
using Spurless.Signals.Spectra;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Surveys;

/// <summary>The report of a survey: one self-contained page.</summary>
public static class SurveyReport
{
    private const int Most = 500;

    /// <summary>A doubt that so many emitters share is told once.</summary>
    private const int Shared = 3;

    /// <summary>Renders the report.</summary>
    /// <param name="answer">What the survey found.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(SurveyAnswer answer, ReportContext context)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<ListTable> tables = [];
        HashSet<LineDoubt> shared =
        [
            .. answer.Emitters.Select(static e => e.Doubtful).OfType<LineDoubt>().GroupBy(static d => d)
                .Where(static g => g.Count() >= Shared && LineDoubtWords.Remedy(g.Key) is not null).Select(static g => g.Key),
        ];
        if (answer.Emitters.Count > 0)
        {
            tables.Add(new ListTable(
                "Emitters, the strongest first",
                [
                    new("MHz", true), new("dBm", true), new("± dB", true), new("kHz wide", true), new("on", true), new("raster kHz", true),
                    new("remark"),
                ],
                [.. answer.Emitters.Take(Most).Select(e => Row(e, shared))],
                answer.Emitters.Count > Most ? $"The strongest {Most} of {answer.Emitters.Count}; --format csv has all." : null));
        }

        if (answer.MadeInside.Count > 0)
        {
            tables.Add(new ListTable(
                "Made in the instrument",
                [new("MHz", true), new("dBm", true), new("fell by dB", true)],
                [
                    .. answer.MadeInside.Take(Most).Select(static l => (IReadOnlyList<string>)
                    [
                        MegahertzText.Of(l.Line.FrequencyHz, 4),
                        Figures.Db(l.Line.LevelDbm, Typography.Fine),
                        (l.IsBound ? "at least " : "") + Text(l.FellDb, "0.0"),
                    ]),
                ]));
        }

        return ListReport.RenderAsync(
            new ListView
            {
                Kind = "survey",
                Title = "What the spectrum shows",
                Lead = SurveyWriter.Conclusion(answer).Replace(" -", " −", StringComparison.Ordinal),
                Tables = tables,
                Notes =
                [
                    new ListNotes(
                        "To be said",
                        [
                            .. shared.Select(static d => $"Of several: {LineDoubtWords.Of(d)}."),
                            .. SurveyRemarkWords.Of(answer.Remarks).Select(static r => StudyWords.Capital(r) + "."),
                        ]),
                ],
                Method = "docs/method/spectra.md",
            },
            context);
    }

    private static IReadOnlyList<string> Row(SurveyedEmitter emitter, HashSet<LineDoubt> shared)
    {
        SpectrumLine line = emitter.Line;
        return
        [
            Figures.MegahertzExact(emitter.CarrierHz),
            emitter.LevelDbm is { } level ? Figures.Db(level, Typography.Fine) : "not known",
            Text(line.SigmaDb, "0.0"),
            line.BandwidthHz > 0 ? Text(line.BandwidthHz / 1000, "0.0") : "narrow",
            line.OnShare < 1 ? Figures.Percent(line.OnShare) : "always",
            line.Raster is { } fit ? Text(fit.RasterHz / 1000.0, "0.###") : "none fits",
            SurveyWriter.Remark(
                emitter,
                emitter.Doubtful is { } doubt && shared.Contains(doubt)
                    ? LineDoubtWords.Reason(doubt) + ", see below"
                    : LineDoubtWords.Of(emitter.Doubtful)),
        ];
    }

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
