using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Locating;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Tests.Whole;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Locating;

/// <summary>The log drawn over its time: as much stroke as there was time on the air, moments at their times, ticks that differ.</summary>
public sealed class LogFigureTests
{
    private static readonly DateTimeOffset _start = new(2031, 3, 4, 19, 0, 0, TimeSpan.Zero);

    private static readonly Lazy<LocateAnswer> _heard = new(static () =>
    {
        DiagnosticBag findings = new();
        SourceFile file = SourceFile.Read(DemoSites.PathOf("quernmoss-heard.site.yaml"), FileKind.Site, findings)!;
        return LocateService.Ask(new LocateQuestion { Site = SiteLoader.Load(file, out _)! }).Answer!;
    });

    private static LocatedReceiver Small => Answered.Locate.Value.Receivers.Single(static r => r.HasEvidence);

    private static string[] Names => [.. Small.Findings.Carriers.Select(static c => c.Emitter)];

    // Rows at random seconds, each emitter on, off or not looked at.
    private static readonly Gen<ObservationLog> _log =
        from steps in Gen.Int[1, 900].Array[2, 30]
        from states in Gen.OneOf<bool?>(true, false, null).Array[Names.Length].Array[steps.Length + 1]
        select new ObservationLog(
            "made.log.csv",
            Names,
            [
                .. states.Select((seen, i) => new ObservationRow(_start.AddSeconds(steps.Take(i).Sum()), seen, i + 2)),
            ]);

    [Theory]
    [InlineData(728)]
    [InlineData(358)]
    public void Strokes_are_as_long_as_their_emitters_were_on(int width) => _log.Sample(
        log =>
        {
            using BunitContext context = new();
            IRenderedComponent<LogFigure> figure = Draw(context, log, width);
            double left = width < 500 ? 18 : 150, across = width - left - 20;
            double span = (log.Rows[^1].Time - log.Rows[0].Time).TotalSeconds, drawn = 0, wanted = 0;
            int least = 0;
            foreach (IElement stroke in figure.FindAll("path.on"))
            {
                (double from, double to) = Ends(stroke);
                Assert.InRange(from, left - 0.06, left + across + 0.06);
                drawn += (to - from) / across;
                least++;
            }

            for (int e = 0; e < log.Names.Count; e++)
            {
                for (int r = 0; r + 1 < log.Rows.Count; r++)
                {
                    wanted += log.Rows[r].On[e] == true ? (log.Rows[r + 1].Time - log.Rows[r].Time).TotalSeconds / span : 0;
                }
            }

            // A stroke has a least length, so that it is seen; figures are drawn to a tenth.
            Assert.InRange(drawn, wanted - (least * 0.1 / across), wanted + (least * (0.004 + (0.1 / across))));
        },
        iter: 20);

    // A log of a minute, of an hour, of an evening, of days: no two ticks say the same, and each says its own time.
    [Theory]
    [InlineData(20)]
    [InlineData(59)]
    [InlineData(240)]
    [InlineData(3_599)]
    [InlineData(3_600)]
    [InlineData(10_800)]
    [InlineData(86_399)]
    [InlineData(86_400)]
    [InlineData(500_000)]
    public void Ticks_differ_and_say_their_own_time(int seconds)
    {
        foreach (int width in (int[])[728, 358])
        {
            using BunitContext context = new();
            ObservationLog log = new("made.log.csv", Names, [Row(0, true, 2), Row(seconds, false, 3)]);
            IElement[] ticks = [.. Draw(context, log, width).FindAll("text[text-anchor]")];
            string[] said = [.. ticks.Select(static t => t.TextContent)];
            Assert.InRange(said.Length, 3, 5);
            Assert.Equal(said, said.Distinct());
            for (int i = 0; i < said.Length; i++)
            {
                DateTimeOffset at = _start.AddSeconds((double)seconds * i / (said.Length - 1));
                string[] parts = said[i].Split(' ');
                Assert.StartsWith(parts[^1], at.ToString("HH:mm:ss", CultureInfo.InvariantCulture), StringComparison.Ordinal);
                Assert.Equal(parts.Length == 2 ? at.ToString("MM-dd", CultureInfo.InvariantCulture) : said[i], parts[0]);
            }

            // Six units a letter at most: nothing sticks out, and none lies on its neighbour.
            double last = 0;
            foreach (IElement tick in ticks)
            {
                double x = double.Parse(tick.GetAttribute("x")!, CultureInfo.InvariantCulture), half = 3 * tick.TextContent.Length;
                x = tick.GetAttribute("text-anchor") switch { "start" => x + half, "end" => x - half, _ => x };
                Assert.InRange(x - half, last, width);
                last = x + half;
            }

            Assert.InRange(last, 0, width);
        }
    }

    // A letter with its accent, or of two signs, is whole or not there.
    [Theory]
    [InlineData("\U0001D538")]
    [InlineData("e\u0301")]
    public void A_long_name_is_cut_between_its_letters(string letter)
    {
        string name = string.Concat(Enumerable.Repeat(letter, 30));
        LocatedReceiver located = Small with
        {
            Findings = Small.Findings with { Carriers = [.. Small.Findings.Carriers.Select(c => c with { Emitter = name })] },
        };
        using BunitContext context = new();
        IRenderedComponent<LogFigure> figure = context.Render<LogFigure>(p => p.Add(static f => f.Located, located)
            .Add(static f => f.Log, new ObservationLog("made.log.csv", [name],
                [new(_start, [true], 2), new(_start.AddHours(1), [null], 3)]))
            .Add(static f => f.Id, "l"));

        Assert.Contains(string.Concat(Enumerable.Repeat(letter, 24)), figure.FindAll("text").Select(static t => t.TextContent));
    }

    // The demo's evening: every moment that decides is a lettered hairline at its time, in the order of its letter, and the words say it.
    [Fact]
    public void Moments_that_decide_stand_at_their_times_with_their_letters()
    {
        LocatedReceiver located = _heard.Value.Receivers.Single(static r => r.HasEvidence);
        ObservationLog log = located.Logged.Rows.OfType<(ObservationLog Log, ObservationRow Row)>().First().Log;
        using BunitContext context = new();
        IRenderedComponent<LogFigure> figure = context.Render<LogFigure>(p => p.Add(static f => f.Located, located)
            .Add(static f => f.Log, log).Add(static f => f.Id, "l"));
        string words = LogFigure.Moments(located, log);
        IElement[] lines = [.. figure.FindAll("path.limit")];

        Assert.NotEmpty(lines);
        Assert.Equal(located.Deciding.Count, lines.Length);
        Assert.StartsWith("Moments that decide: a ", words, StringComparison.Ordinal);
        double span = (log.Rows[^1].Time - log.Rows[0].Time).TotalSeconds;
        foreach ((IElement line, int r) in lines.Zip(located.Deciding))
        {
            ObservationRow row = located.Logged.Rows[r]!.Value.Row;
            double at = double.Parse(line.GetAttribute("d")![1..].Split(' ')[0], CultureInfo.InvariantCulture);
            Assert.Equal(150 + ((728 - 170) * (row.Time - log.Rows[0].Time).TotalSeconds / span), at, 0.051);
            Assert.Contains(row.Time.ToString("HH:mm", CultureInfo.InvariantCulture), words, StringComparison.Ordinal);
        }

        WrittenText.Figures(words);

        // Solid marks are moments at which it was heard, hollow ones at which somebody listened and did not hear it.
        int receiver = log.Names.ToList().IndexOf(located.Findings.Name);
        Assert.Equal(
            located.Logged.Rows.Count(r => r is { } at && at.Row.On[receiver] == true), figure.FindAll("path.harm").Count);
        Assert.Equal(
            located.Logged.Rows.Count(r => r is { } at && at.Row.On[receiver] == false), figure.FindAll("path.quiet").Count);
    }

    [Fact]
    public void A_log_without_rows_draws_nothing_and_breaks_nothing()
    {
        using BunitContext context = new();
        IRenderedComponent<LogFigure> figure = Draw(context, new ObservationLog("made.log.csv", Names, []), 728);
        Assert.Empty(figure.FindAll("path.on"));
        Assert.DoesNotContain("NaN", figure.Markup, StringComparison.Ordinal);
    }

    private static ObservationRow Row(int seconds, bool on, int line) =>
        new(_start.AddSeconds(seconds), [.. Names.Select(_ => (bool?)on)], line);

    private static IRenderedComponent<LogFigure> Draw(BunitContext context, ObservationLog log, int width) => context.Render<LogFigure>(p =>
        p.Add(static f => f.Located, Small).Add(static f => f.Log, log).Add(static f => f.Id, "l").Add(static f => f.Width, width));

    private static (double From, double To) Ends(IElement stroke)
    {
        string[] d = stroke.GetAttribute("d")![1..].Split([' ', 'H']);
        return (double.Parse(d[0], CultureInfo.InvariantCulture), double.Parse(d[^1], CultureInfo.InvariantCulture));
    }
}
