using System.Globalization;
using Spurless.Drawing.Maps;
using Spurless.Drawing.Words;
using Spurless.Reports.Html;
using Spurless.Reports.Lists;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Registers;

/// <summary>The report of the licensed transmitters round a site: one self-contained page with the map.</summary>
public static class NearReport
{
    private const int Most = 500;
    private const int OnTheMap = 150;
    private const int MapSize = 460;

    /// <summary>Renders the report.</summary>
    /// <param name="answer">The transmitters.</param>
    /// <param name="also">Tables behind theirs: what was joined.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(NearAnswer answer, IReadOnlyList<ListTable> also, ReportContext context)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(also);
        List<ListTable> tables = [];
        if (answer.Emitters.Count > 0)
        {
            tables.Add(new ListTable(
                "Transmitters, the strongest first",
                [
                    new("dBm", true), new("± dB", true), new("km", true), new("bearing", true), new("transmitter"), new("service"),
                    new("emission"),
                ],
                [.. answer.Emitters.Take(Most).Select(Row)],
                answer.Emitters.Count > Most ? $"The strongest {Most} of {answer.Emitters.Count}; --format csv has all." : null));
        }

        return ListReport.RenderAsync(
            new ListView
            {
                Kind = "licensed transmitters",
                Title = $"What is licensed round {answer.Site}",
                Lead = NearWriter.Answer(answer).Replace(" -", " −", StringComparison.Ordinal),
                Map = answer.Emitters.Count > 0 ? Map(answer) : null,
                Tables = [.. tables, .. also],
                Notes =
                [
                    new ListNotes(
                        "Assumed",
                        [
                            $"Levels are predicted at the antenna connector of {answer.Receiver}: a measured one beats them.",
                            .. NearWriter.Assumed(answer).Select(static a => a + "."),
                        ]),
                ],
                Method = "docs/method/registers.md",
            },
            context);
    }

    private static AroundScene Map(NearAnswer answer) => new(
        [
            .. answer.Emitters.Take(OnTheMap).Select(static e => new AroundMark(
                e.Name, ServiceOfRecord.Of(e.Record), e.BearingDegrees, e.DistanceM, e.LevelDbm, e.InSite, Picked: false)),
        ],
        MapSize);

    private static IReadOnlyList<string> Row(NearEmitter emitter) =>
    [
        emitter.LevelDbm is { } level ? Figures.Db(level, Typography.Fine) : "not known",
        emitter.SigmaDb?.ToString("0", CultureInfo.InvariantCulture) ?? "",
        (emitter.DistanceM / 1000).ToString("0.00", CultureInfo.InvariantCulture),
        (Math.Round(emitter.BearingDegrees) % 360).ToString("0", CultureInfo.InvariantCulture),
        emitter.Name + (emitter.InSite ? " (in the site file)" : ""),
        ServiceOfRecord.Word(ServiceOfRecord.Of(emitter.Record)),
        emitter.Record.Emission ?? "",
    ];
}
