using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using CsCheck;
using Spurless.Reports.Recordings;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;

namespace Spurless.Reports.Tests.Recordings;

/// <summary>
/// What was on the air, drawn in real time: marks at their seconds, ticks that tell one moment from the next, times in UTC.
/// </summary>
public sealed class ListenFigureTests
{
    private const double Left = 150, Wide = 812 - 150 - 8;

    private static readonly Gen<Heard> _heard =
        from duration in Gen.OneOf<double>(Gen.Double[0.4, 6], Gen.Double[6, 20_000])
        from starts in Gen.Select(Gen.Double[0, 0.9], Gen.Double[0.01, 0.5], Gen.OneOf(
            SignalKind.Pocsag, SignalKind.Voice, SignalKind.Carrier)).Array[0, 6]
        from hours in Gen.Int[-11, 13].Nullable(0.5)
        select new Heard(
            duration,
            hours is { } h ? new DateTimeOffset(2031, 3, 11, 12, 0, 0, TimeSpan.FromHours(h)) : null,
            false,
            0,
            4_800,
            [
                .. starts.Select(s => new Transmission
                {
                    StartS = s.Item1 * duration,
                    EndS = Math.Min(duration, (s.Item1 + s.Item2) * duration),
                    Kinds =
                    [
                        new Finding
                        {
                            Kind = s.Item3, StartS = s.Item1 * duration, EndS = Math.Min(duration, (s.Item1 + s.Item2) * duration),
                            Confidence = 0.9, SymbolRateBd = 1_200, Evidence = new Evidence(),
                        },
                    ],
                }),
            ],
            null);

    [Fact]
    public void Marks_stand_at_their_seconds_and_none_is_lost() => _heard.Sample(
        static heard =>
        {
            IElement[] marks = [.. Render(heard).QuerySelectorAll("rect.mark")];
            Finding[] kinds = [.. heard.Transmissions.SelectMany(static t => t.Kinds)];
            Assert.Equal(kinds.Length, marks.Length);
            foreach (IElement mark in marks)
            {
                double from = (Read(mark, "x") - Left) / Wide * heard.DurationS, long0 = Read(mark, "width") / Wide * heard.DurationS;
                double pixel = heard.DurationS / Wide;
                Assert.Contains(kinds, k => Math.Abs(k.StartS - from) < 0.06 * pixel
                    && Math.Abs(Math.Max(k.EndS - k.StartS, 0.002 * heard.DurationS) - long0) < 0.06 * pixel);
            }
        },
        iter: 60);

    [Fact]
    public void Ticks_are_few_in_order_and_no_two_say_the_same() => _heard.Sample(
        static heard =>
        {
            (double At, string Says)[] ticks = [.. Render(heard).QuerySelectorAll("text.mid").Select(static t =>
                (Read(t, "x"), t.TextContent))];
            Assert.InRange(ticks.Length, 1, 10);
            Assert.Equal(ticks.Length, ticks.Select(static t => t.Says).Distinct().Count());
            foreach ((double at, string says) in ticks)
            {
                double seconds = (at - Left) / Wide * heard.DurationS;
                double said;
                if (heard.Start is { } start)
                {
                    // By the clock in UTC, as the report's head and table have it.
                    TimeSpan clock = TimeSpan.Parse(says, CultureInfo.InvariantCulture) - start.ToUniversalTime().TimeOfDay;
                    said = clock.TotalSeconds < -0.01 ? clock.TotalSeconds + 86_400 : clock.TotalSeconds;
                }
                else
                {
                    string[] parts = says.Split(':');
                    said = parts.Length == 2
                        ? (60 * double.Parse(parts[0], CultureInfo.InvariantCulture)) + double.Parse(parts[1], CultureInfo.InvariantCulture)
                        : double.Parse(says, CultureInfo.InvariantCulture);
                }

                Assert.Equal(seconds, said, (0.06 * heard.DurationS / Wide) + 0.0051);
            }
        },
        iter: 100);

    [Fact]
    public void Words_of_the_figure_are_the_answer() => _heard.Sample(
        static heard => Assert.Equal(ListenWords.Answer(heard), Render(heard).QuerySelector("desc")!.TextContent), iter: 20);

    [Fact]
    public void Edges_of_the_picture_say_the_recordings_band()
    {
        Heard heard = _heard.Single() with
        {
            IsBand = true,
            LowHz = 145.0e6,
            HighHz = 145.25e6,
            Transmissions = [],
            Picture = new Spectrogram(2, 2, [0, 255, 9, 90]),
        };
        string[] ends = [.. Render(heard).QuerySelectorAll("text.end").Select(static t => t.TextContent)];
        Assert.Equal(["145.250 MHz", "145.000 MHz"], ends);
        Assert.StartsWith("data:image/png;base64,", Render(heard).QuerySelector("image")!.GetAttribute("href"), StringComparison.Ordinal);
        Assert.Null(Render(heard with { Picture = null }).QuerySelector("image"));
    }

    private static double Read(IElement of, string name) => double.Parse(of.GetAttribute(name)!, CultureInfo.InvariantCulture);

    private static IElement Render(Heard heard)
    {
        BunitContext context = new();
        return context.Render<ListenFigure>(p => p.Add(static f => f.Heard, heard).Add(static f => f.Id, "l")).Find("svg");
    }
}
