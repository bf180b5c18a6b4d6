using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Plans;

/// <summary>A plan against a plain study of every channel.</summary>
public sealed class PlanServiceTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 30)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_counts_on_every_channel_what_a_plain_study_there_counts(int seed)
    {
        LoadedSite site = Load(MadeSites.Of(seed));
        Random random = new(seed);
        long? shift = Own(site) == 1 && random.Next(3) == 0 ? random.Next(-80, 80) * 25_000L : null;
        if (shift is { } small && Math.Abs(small) < 50_000)
        {
            shift = -600_000;
        }

        PlanQuestion question = new()
        {
            Site = site,
            FromHz = 145_000_000 - (12_500 * random.Next(5)),
            ToHz = 145_000_000 + (12_500 * random.Next(5, 20)),
            RasterHz = 12_500,
            ShiftHz = shift,
        };
        PlanAnswer answer = PlanService.Ask(question, null, Cancel).Answer!;
        Assert.Equal(answer.Channels, answer.Offered.Count + answer.NotOffered.Count);
        foreach (PlanChannel channel in answer.Offered)
        {
            StudyResult study = StudyService.Run(MovedSite.Of(site, 0, channel.FrequencyHz, shift), new StudyOptions(), null, Cancel);
            Same(channel, study);
            foreach (ReceiverFindings other in study.Receivers.Skip(1))
            {
                Same(channel.Elsewhere.FirstOrDefault(e => e.Receiver == other.Name), other, site);
            }
        }
    }

    [Fact]
    public void Ask_the_demo_counts_what_a_plain_study_counts()
    {
        LoadedSite site = Load(DemoSites.PathOf("quernmoss.site.yaml"));
        PlanAnswer answer = Demo(site);
        foreach (PlanChannel channel in answer.Offered)
        {
            Same(channel, StudyService.Run(MovedSite.Of(site, 0, channel.FrequencyHz, null), new StudyOptions(), null, Cancel));
        }

        // By hand: 800 kHz in steps of 12.5 kHz with both edges, and nothing stands in the band but our own transmitter, which moves.
        Assert.Equal(65, answer.Channels);
        Assert.Empty(answer.NotOffered);

        // The channel it stands on is the demo's complaint: six harmful mixtures, one of them made in a transmitter.
        Assert.Equal(145_050_000, answer.PresentHz);
        Assert.Equal(5, answer.Present!.Harmful);

        // What stands 600 kHz apart, as our transmitter from the receiver, lands everywhere: by the frequencies in the site file.
        Assert.Contains(answer.WithTheShift, static p => Words(p.Terms) == "-1*highways base 1*repeater output 1*waterworks base");
        Assert.All(answer.Offered, static c => Assert.True(c.Harmful > 0));
        Assert.Contains(Ask(site, 145_000_000, 145_800_000, -1_000_000).Offered, static c => c.IsQuiet);
    }

    [Fact]
    public void Ask_lists_by_harmful_marginal_worst_level_and_frequency()
    {
        PlanAnswer answer = Demo(Load(DemoSites.PathOf("quernmoss.site.yaml")));
        (int, int, double, long)[] keys =
        [
            .. answer.Offered.Select(static c =>
                (c.Harmful, c.Marginal, c.WorstOverNoiseDb ?? double.NegativeInfinity, c.FrequencyHz)),
        ];
        Assert.Equal(keys.Order(), keys);
    }

    [Fact]
    public void Ask_never_offers_a_channel_on_which_something_stands_or_its_pair()
    {
        LoadedSite site = Load(Site);
        PlanAnswer answer = Ask(site, 145_000_000, 145_400_000, -600_000);

        // In reach of 12.5 kHz: a on 145.1 with 16 kHz of bandwidth takes its neighbours too; b, 600 kHz under 145.3, takes the pair.
        Dictionary<long, PlanTaken> taken = answer.NotOffered.ToDictionary(static t => t.FrequencyHz);
        Assert.Equal(
            [145_087_500, 145_100_000, 145_112_500, 145_300_000, 145_400_000], taken.Keys.Order());
        Assert.All(
            (long[])[145_087_500, 145_100_000, 145_112_500],
            f => Assert.Equal((PlanReason.Emitter, "a"), (taken[f].Reason, taken[f].By)));
        Assert.Equal((PlanReason.EmitterOnTransmit, "b"), (taken[145_300_000].Reason, taken[145_300_000].By));
        Assert.Equal((PlanReason.Receiver, "link"), (taken[145_400_000].Reason, taken[145_400_000].By));
        Assert.Equal(["a", "link"], answer.Marks.Select(static m => m.Name));
    }

    [Fact]
    public void Ask_leaves_out_what_the_band_plan_keeps_for_others()
    {
        DiagnosticBag findings = new();
        BandPlan plan = BandPlanReader.Read(
            "from,to,use\n145.0 MHz,145.05 MHz,forbidden\n144.5 MHz,144.6 MHz,receive only\n145.2 MHz,145.25 MHz,any\n"u8, "plan.csv",
            findings)!;
        Assert.Empty(findings.InOrder());
        PlanAnswer answer = PlanService.Ask(
            new PlanQuestion
            {
                Site = Load(Site),
                FromHz = 145_000_000,
                ToHz = 145_400_000,
                RasterHz = 12_500,
                ShiftHz = -600_000,
                BandPlan = plan,
            },
            null,
            Cancel).Answer!;

        // 145.0 to 145.05 are the first five: the last reaches into it by half its width. 144.5 to 144.6 is 600 kHz under 145.1 to 145.2,
        // where one may not transmit; the channels at its edges reach into it.
        Assert.Equal(
            Enumerable.Range(0, 5).Select(static i => 145_000_000L + (i * 12_500)),
            answer.NotOffered.Where(static t => t.Reason == PlanReason.BandPlan).Select(static t => t.FrequencyHz));
        Assert.Equal(
            [145_125_000L, 145_137_500, 145_150_000, 145_162_500, 145_175_000, 145_187_500, 145_200_000],
            answer.NotOffered.Where(static t => t.Reason == PlanReason.BandPlanOnTransmit).Select(static t => t.FrequencyHz));
    }

    [Theory]
    [InlineData(0, 145_400_000, 12_500, null, null, null, nameof(PlanQuestion.FromHz))]
    [InlineData(145_400_000, 145_000_000, 12_500, null, null, null, nameof(PlanQuestion.FromHz))]
    [InlineData(145_000_000, 145_400_000, 0, null, null, null, nameof(PlanQuestion.RasterHz))]
    [InlineData(145_000_000, 145_401_000, 12_500, null, null, null, nameof(PlanQuestion.RasterHz))]
    [InlineData(145_000_000, 445_000_000, 1_000, null, null, null, nameof(PlanQuestion.FromHz))]
    [InlineData(145_000_000, 145_400_000, 12_500, -146_000_000L, null, null, nameof(PlanQuestion.ShiftHz))]
    [InlineData(145_000_000, 145_400_000, 12_500, 5_000L, null, null, nameof(PlanQuestion.ShiftHz))]
    [InlineData(145_000_000, 145_400_000, 12_500, -600_000L, "link", null, nameof(PlanQuestion.ShiftHz))]
    [InlineData(145_000_000, 145_400_000, 12_500, null, "lnik", null, nameof(PlanQuestion.Receiver))]
    [InlineData(145_000_000, 145_400_000, 12_500, null, null, 0, nameof(PlanQuestion.Count))]
    public void Ask_what_makes_no_sense_is_refused_with_what_to_write(
        long from, long to, long raster, long? shift, string? receiver, int? count, string subject)
    {
        Outcome<PlanAnswer> outcome = PlanService.Ask(
            new PlanQuestion
            {
                Site = Load(Site),
                FromHz = from,
                ToHz = to,
                RasterHz = raster,
                ShiftHz = shift,
                Receiver = receiver,
                Count = count,
            },
            null,
            Cancel);
        Assert.Null(outcome.Answer);
        Assert.Equal(subject, outcome.Refusal!.Subject);
        Assert.NotEmpty(outcome.Refusal.Remedy);
    }

    [Fact]
    public void Ask_with_everything_taken_offers_nothing()
    {
        PlanAnswer answer = Ask(Load(Site), 145_100_000, 145_100_000, null);
        Assert.Empty(answer.Offered);
        Assert.Single(answer.NotOffered);
        Assert.Empty(answer.Looks);
    }

    [Fact]
    public void Ask_is_cancelled_at_once() => Assert.ThrowsAny<OperationCanceledException>(() => PlanService.Ask(
        new PlanQuestion { Site = Load(Site), FromHz = 145_000_000, ToHz = 145_400_000, RasterHz = 12_500 },
        null,
        new CancellationToken(canceled: true)));

    internal const string Site = """
        spurless: 1
        site: made for a test
        receivers:
          - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }
          - { name: link, frequency: 145.4 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }
        emitters:
          - { name: a, frequency: 145.1 MHz, emission: 16K0F3E, level: -40 dBm }
          - { name: b, frequency: 144.7 MHz, emission: 11K2F3E, level: -40 dBm }
          - { name: own, frequency: 145.65 MHz, emission: 11K2F3E, level: -40 dBm, follows: input }
        search: { orders: 2-5, signals: 3 }

        """;

    internal static LoadedSite Load(string pathOrText)
    {
        LoadedSite? site = pathOrText.Contains('\n', StringComparison.Ordinal)
            ? SiteLoader.Load(pathOrText, "x.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings)
            : SiteLoader.Load(pathOrText, out findings);
        Assert.True(site is not null, string.Join('\n', findings));
        return site;
    }

    private static PlanAnswer Ask(LoadedSite site, long from, long to, long? shift) => PlanService.Ask(
        new PlanQuestion { Site = site, FromHz = from, ToHz = to, RasterHz = 12_500, ShiftHz = shift }, null, Cancel).Answer!;

    private static PlanAnswer Demo(LoadedSite site) => Ask(site, 145_000_000, 145_800_000, null);

    private static int Own(LoadedSite site) => site.Document.Emitters.Count(static e => e.Follows is not null);

    private static void Same(PlanChannel channel, StudyResult study)
    {
        ReceiverFindings there = study.Receivers[0];
        ProductFinding[] made = [.. there.Products.Where(static p => p.Mechanism == Mechanism.Receiver)];
        ProductFinding[] known = [.. made.Where(static p => p.OverNoiseDb is not null)];
        Assert.Equal(made.Count(static p => p.Verdict == Verdict.Harmful), channel.Harmful);
        Assert.Equal(made.Count(static p => p.Verdict == Verdict.Marginal), channel.Marginal);
        Assert.Equal(made.Length - known.Length, channel.Unknown);
        Assert.Equal(known.Length == 0 ? null : known.Max(static p => p.OverNoiseDb), channel.WorstOverNoiseDb);
        long? nearest = known.Length == 0 ? null : known.Min(static p => Math.Abs(p.OffsetHz));
        Assert.Equal(nearest, channel.Nearest is { } near ? Math.Abs(near.FrequencyHz - channel.FrequencyHz) : null);
        if (channel.Worst is { } worst)
        {
            ProductFinding same = known.Single(p => Words(p.Terms) == Words(worst.Terms));
            Assert.Equal((same.OverNoiseDb!.Value, same.FrequencyHz, same.Order), (worst.OverNoiseDb, worst.FrequencyHz, worst.Order));
        }

        if (made.Length == there.Products.Count && !channel.SumIsBound && !there.SumIsBound)
        {
            Assert.Equal(there.SumOverNoiseDb is null, channel.SumOverNoiseDb is null);
            Assert.Equal(there.SumOverNoiseDb ?? 0, channel.SumOverNoiseDb ?? 0, 1e-6);
        }
    }

    private static void Same(PlanElsewhere? elsewhere, ReceiverFindings other, LoadedSite site)
    {
        HashSet<string> own = [.. site.Document.Emitters.Where(static e => e.Follows == "input").Select(static e => e.Name)];
        ProductFinding[] made =
        [
            .. other.Products.Where(p => p.Mechanism == Mechanism.Receiver && p.Terms.Any(t => own.Contains(t.Name))),
        ];
        Assert.Equal(made.Length == 0, elsewhere is null);
        Assert.Equal(made.Count(static p => p.Verdict == Verdict.Harmful), elsewhere?.Harmful ?? 0);
        Assert.Equal(made.Count(static p => p.Verdict == Verdict.Marginal), elsewhere?.Marginal ?? 0);
        Assert.Equal(made.Count(static p => p.OverNoiseDb is null), elsewhere?.Unknown ?? 0);
        Assert.Equal(made.Max(static p => p.OverNoiseDb), elsewhere?.WorstOverNoiseDb);
    }

    private static string Words(IEnumerable<Term> terms) => string.Join(' ', terms.Select(static t => $"{t.Coefficient}*{t.Name}"));
}
