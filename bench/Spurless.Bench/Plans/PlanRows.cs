using System.Globalization;
using Spurless.Bench.Studies;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Bench.Plans;

/// <summary>Quiet channels: a whole band weighed at once, against a study of each channel.</summary>
public static class PlanRows
{
    private const string Subject = "Plan";
    private const int Channels = 2_000;
    private const int Studied = 20;
    private const long RasterHz = 12_500;
    private const long FromHz = 140_000_000;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(4);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(
            Subject, "2,000 channels, 100 emitters, orders 2 to 7, vs a study of each", "<= 0.5 s", static _ => Band(together: null)),
        new BenchRow(Subject, "the same with four channels side by side", "<= 2 s", static _ => Band(together: 4)),
    ];

    private static BenchResult Band(int? together)
    {
        LoadedSite site = StudyRows.Load(StudySite.Text(100, 1).Replace(
            "search:",
            "  - { name: ours, frequency: 146.0000 MHz, emission: 11K2F3E, level: -35 dBm, follows: receiver 1 }\nsearch:",
            StringComparison.Ordinal));
        PlanQuestion question = new()
        {
            Site = site,
            FromHz = FromHz,
            ToHz = FromHz + ((Channels - 1) * RasterHz),
            RasterHz = RasterHz,
            Options = new StudyOptions { Orders = (2, 7), Signals = 3 },
            Count = together,
        };
        PlanAnswer answer = PlanService.Ask(question).Answer!;
        double ours = Timing.Best(() => PlanService.Ask(question), Budget);
        if (together is not null)
        {
            PlanTogether set = answer.Together!;
            string proved = set.IsBest ? "the best set" : "not proved";
            return new BenchResult(
                Timing.Text(ours), "", "", ours <= 2,
                string.Create(CultureInfo.InvariantCulture, $"{set.Score.Harmful} harmful; {proved}"));
        }

        // A study of each channel, extrapolated from some.
        double plain = Timing.Best(
            () =>
            {
                for (int i = 0; i < Studied; i++)
                {
                    PlanChannel channel = answer.Offered[i * answer.Offered.Count / Studied];
                    StudyResult study =
                        StudyService.Run(MovedSite.Of(site, 0, channel.FrequencyHz, null), question.Options);
                    if (study.Receivers[0].Products.Count(static p => p.Verdict == Verdict.Harmful && p.Mechanism == Mechanism.Receiver)
                        != channel.Harmful)
                    {
                        throw new InvalidOperationException($"the plan of {channel.FrequencyHz} Hz is not its study");
                    }
                }
            },
            Budget) * answer.Offered.Count / Studied;
        return new BenchResult(
            Timing.Text(ours),
            Timing.Text(plain),
            string.Create(CultureInfo.InvariantCulture, $"{plain / ours:0} x"),
            ours <= 0.5,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{answer.Offered.Count:#,0} offered, {answer.Offered.Sum(static c => c.Harmful):#,0} harmful; studies extrapolated"));
    }
}
