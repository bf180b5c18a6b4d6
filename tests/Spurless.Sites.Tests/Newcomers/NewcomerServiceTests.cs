using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Newcomers;

/// <summary>What is new is the study of one file that holds both sites, less the studies of each by itself.</summary>
public class NewcomerServiceTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 60)];

    /// <summary>Mixtures with their levels, and causes that concern one emitter: equal, row for row and digit for digit.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_any_pair_is_the_joint_study_less_the_separate_ones(int seed)
    {
        MadePair pair = new(seed);
        NewcomerAnswer answer = Ask(pair);
        StudyResult joint = Study(pair.Joint);
        ReceiverFindings[] apart = [.. Study(pair.Site).Receivers, .. pair.Alone is { } own ? Study(own).Receivers : []];
        Assert.Equal(joint.Receivers.Select(static r => r.Name), answer.Receivers.Select(static r => r.Findings.Name));
        for (int r = 0; r < apart.Length; r++)
        {
            NewcomerReceiver found = answer.Receivers[r];
            Assert.Equal(found.Findings.Name.StartsWith('n'), found.OfNewcomer);
            HashSet<string> before = [.. apart[r].Products.Select(Row)];
            Assert.Equal(
                joint.Receivers[r].Products.Select(Row).Where(p => !before.Contains(p)), found.Findings.Products.Select(Row));
            HashSet<string> causes = [.. apart[r].OtherCauses.Where(IsOfOne).Select(Row)];
            Assert.Equal(
                joint.Receivers[r].OtherCauses.Where(IsOfOne).Select(Row).Where(c => !causes.Contains(c)),
                found.Causes.Select(static c => c.Cause).Where(IsOfOne).Select(Row));
            Assert.Equal(
                !found.Findings.Products.Any(static p => p.Verdict == Verdict.Harmful)
                    && !found.Causes.Any(static c => c.Cause.Verdict == Verdict.Harmful),
                found.Passes);
        }
    }

    /// <summary>Sums over all carriers: as a whole where they are worse than before, else the other side's share, by powers.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_sum_over_carriers_is_whole_or_the_share_of_the_other_side(int seed)
    {
        MadePair pair = new(seed);
        NewcomerAnswer answer = Ask(pair);
        StudyResult joint = Study(pair.Joint);
        ReceiverFindings[] apart = [.. Study(pair.Site).Receivers, .. pair.Alone is { } own ? Study(own).Receivers : []];
        for (int r = 0; r < apart.Length; r++)
        {
            foreach (NewCause sum in answer.Receivers[r].Causes.Where(static c => c.Sum is not null))
            {
                OtherCause? all = joint.Receivers[r].OtherCauses.FirstOrDefault(c => IsSame(c, sum.Cause));
                OtherCause? before = apart[r].OtherCauses.FirstOrDefault(c => IsSame(c, sum.Cause));
                if (sum.Sum == SumOf.All)
                {
                    Assert.Equal(Row(all!), Row(sum.Cause));
                    Assert.True(before is null || before.Verdict != all!.Verdict);
                    continue;
                }

                // Not harmful where it was not before, and the powers of both sides make the whole.
                Assert.True(all!.Verdict != Verdict.Harmful || before!.Verdict == Verdict.Harmful);
                if (sum.Cause.LevelDbm is { } share && before!.LevelDbm is { } rest)
                {
                    Assert.Equal(all.LevelDbm!.Value, 10 * Math.Log10(Power(share) + Power(rest)), 1e-6);
                }
            }
        }
    }

    /// <summary>With what a receiver needs put in, nothing new on it is harmful; with 1 dB less of any one, something is.</summary>
    [Fact]
    public void Ask_needs_are_enough_and_not_a_decibel_more()
    {
        int tried = 0;
        HashSet<NewcomerNeedKind> kinds = [];
        for (int seed = 1; seed <= 60; seed++)
        {
            NewcomerAnswer answer = Ask(new MadePair(seed));
            JointStudy study = new(answer.Question.Sites, new StudyOptions(), null, TestContext.Current.CancellationToken);
            for (int r = 0; r < answer.Receivers.Count; r++)
            {
                IReadOnlyList<NewcomerNeed> needs = answer.Receivers[r].Needs;
                Assert.Equal(answer.Receivers[r].Passes, needs.Count == 0);
                if (needs.Count > 0)
                {
                    Assert.True(study.One(r, All(needs, null)).Passes, $"seed {seed}, {answer.Receivers[r].Findings.Name}: not enough");
                    Assert.All(needs, n => Assert.False(study.One(r, All(needs, n)).Passes, $"seed {seed}: {n.Kind} is too much"));
                }

                tried += needs.Count;
                kinds.UnionWith(needs.Select(static n => n.Kind));
            }
        }

        Assert.True(tried > 60, $"{tried}");
        Assert.Equal(4, kinds.Count);
    }

    /// <summary>The isolator that is asked for, written into the file, makes the receiver pass: the same by the other way in.</summary>
    [Fact]
    public void Ask_isolator_written_into_the_file_is_enough()
    {
        const string site = """
            spurless: 1
            site: invented
            receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: 40 dBm }]
            emitters: [{ name: b, frequency: 171.55 MHz, bandwidth: 0 kHz, power: 5 W, level: -63 dBm }]
            """;
        // 2 x 158.3 - 171.55 = 145.05 MHz, made in the newcomer: b arrives there with 37 - 45 = -8 dBm, is turned round with 12 dB to
        // -20 dBm, and arrives over the newcomer's own path, 33 + 40 dB: -93 dBm, over -128.94 dBm of noise by 36 dB.
        string newcomer = """
            spurless: 1
            site: newcomer
            emitters:
              - name: a
                frequency: 158.3 MHz
                bandwidth: 0 kHz
                power: 2 W
                level: -40 dBm
                turn_round_loss: 12 dB
                coupling: { b: 45 dB }
            """;
        NewcomerReceiver found = Assert.Single(Ask(site, newcomer).Receivers);
        ProductFinding product = Assert.Single(found.Findings.Products, static p => p.Verdict == Verdict.Harmful);
        Assert.Equal((Mechanism.Transmitter, "a"), (product.Mechanism, product.MadeIn));
        NewcomerNeed need = Assert.Single(found.Needs);
        Assert.Equal((NewcomerNeedKind.Isolator, false), (need.Kind, need.AtSite));
        Assert.Equal("a", Assert.Single(need.Emitters));
        Assert.Equal(36, product.OverNoiseDb!.Value, 0.5);
        Assert.Equal(product.OverNoiseDb.Value, need.Db!.Value, 0.1);
        Assert.True(Ask(site, With(newcomer, need.Db.Value)).Passes);
        Assert.False(Ask(site, With(newcomer, need.Db.Value - 1)).Passes);
    }

    /// <summary>
    /// The other way round: what the newcomer puts into a transmitter of the site. 10 m apart on one mast: 28 + 40 lg(10 / 1.7476) = 58.3
    /// dB; 37 dBm less that, turned round with 12 dB, are -33.3 dBm, which arrive 33 + 31 dB weaker: -97.3 dBm, 31.6 dB over -128.94 dBm.
    /// </summary>
    [Fact]
    public void Ask_newcomer_mixing_in_a_transmitter_of_the_site_is_new_and_cured_there()
    {
        const string site = """
            spurless: 1
            site: invented
            receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: 40 dBm }]
            emitters:
              - name: a
                frequency: 158.3 MHz
                bandwidth: 0 kHz
                power: 2 W
                level: -31 dBm
                turn_round_loss: 12 dB
                antenna: { height: 30 m }
                path: { same structure: { vertical: 3 m, horizontal: 0 m } }
            """;
        const string newcomer = """
            spurless: 1
            site: newcomer
            emitters:
              - name: b
                frequency: 171.55 MHz
                bandwidth: 0 kHz
                power: 5 W
                level: -63 dBm
                antenna: { height: 20 m }
                path: { same structure: { vertical: 13 m, horizontal: 0 m } }
            """;
        NewcomerReceiver found = Assert.Single(Ask(site, newcomer).Receivers);
        ProductFinding product = Assert.Single(found.Findings.Products, static p => p.Verdict == Verdict.Harmful);
        Assert.Equal((Mechanism.Transmitter, "a"), (product.Mechanism, product.MadeIn));
        Assert.Equal(31.6, product.OverNoiseDb!.Value, 0.3);
        NewcomerNeed need = Assert.Single(found.Needs);
        Assert.Equal((NewcomerNeedKind.Isolator, "a", true), (need.Kind, Assert.Single(need.Emitters), need.AtSite));
        Assert.Equal(product.OverNoiseDb.Value, need.Db!.Value, 0.1);
    }

    /// <summary>
    /// Three carriers, two of them the newcomer's: 2 n1 - s lands with the first alone, so that the second, which only a weaker product
    /// needs, is let off.
    /// </summary>
    [Fact]
    public void Ask_each_carrier_has_its_own_least_attenuation()
    {
        const string site = """
            spurless: 1
            site: invented
            receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]
            emitters: [{ name: s, frequency: 145.25 MHz, bandwidth: 0 kHz, level: -30 dBm }]
            search: { orders: 2-3 }
            """;
        const string newcomer = """
            spurless: 1
            site: newcomer
            emitters:
              - { name: n1, frequency: 145.15 MHz, bandwidth: 0 kHz, level: -30 dBm }
              - { name: n2, frequency: 145.35 MHz, bandwidth: 0 kHz, level: -50 dBm }
            """;
        // 2 n1 - s: -90 + 16 = -74 dBm, 54.9 dB over the noise: half of that off n1. 2 s - n2 lies at 145.15, n1 + s - n2 at 145.05 MHz:
        // -110 + 16 + 6 = -88 dBm, 40.9 dB over: n1 takes 27.5 of it, 13.5 are left for n2.
        NewcomerReceiver found = Assert.Single(Ask(site, newcomer).Receivers);
        Assert.Equal(2, found.Needs.Count);
        Assert.Equal(27.5, found.Needs.Single(static n => n.Emitters[0] == "n1").Db!.Value, 0.11);
        Assert.Equal(13.5, found.Needs.Single(static n => n.Emitters[0] == "n2").Db!.Value, 0.11);
    }

    [Fact]
    public void Ask_emitter_on_the_channel_needs_another_path_and_no_filter()
    {
        const string site = """
            spurless: 1
            site: invented
            receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm }]
            """;
        const string newcomer = """
            spurless: 1
            site: newcomer
            emitters: [{ name: a, frequency: 145.05 MHz, bandwidth: 0 kHz, level: -100 dBm }]
            """;
        NewcomerReceiver found = Assert.Single(Ask(site, newcomer).Receivers);
        Assert.Equal(CauseKind.Direct, Assert.Single(found.Causes).Cause.Finding.Cause);
        NewcomerNeed need = Assert.Single(found.Needs);
        Assert.Equal(NewcomerNeedKind.PathLoss, need.Kind);
        // -100 dBm over k T0 8 kHz + 6 dB = -128.94 dBm: 28.94 dB, the next tenth over it.
        Assert.Equal(29.0, need.Db!.Value, 1e-9);
    }

    [Fact]
    public void Ask_newcomer_without_an_emitter_leaves_the_site_as_it_is()
    {
        const string newcomer = """
            spurless: 1
            site: newcomer
            receivers: [{ name: n, frequency: 145.10 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]
            """;
        NewcomerAnswer answer = Ask(new MadePair(3).Site, newcomer);
        Assert.All(answer.Receivers.Where(static r => !r.OfNewcomer), static r =>
        {
            Assert.Empty(r.Findings.Products);
            Assert.Empty(r.Causes);
            Assert.True(r.Passes);
            Assert.Null(r.WorstOverNoiseDb);
        });
        Assert.True(answer.Receivers[^1].OfNewcomer);
    }

    [Fact]
    public void Ask_stopped_ends()
    {
        using CancellationTokenSource stopped = new();
        stopped.Cancel();
        NewcomerQuestion question = new() { Sites = Read(new MadePair(1)) };
        Assert.ThrowsAny<OperationCanceledException>(() => NewcomerService.Ask(question, null, stopped.Token));
    }

    private static Treatment All(IReadOnlyList<NewcomerNeed> needs, NewcomerNeed? less) => needs.Aggregate(
        Treatment.None, (all, n) => all.With(n.Kind, n.Emitters, n.Db!.Value - (n == less ? 1 : 0)));

    private static string With(string newcomer, double isolatorDb) => newcomer.Replace(
        "power: 2 W", FormattableString.Invariant($"power: 2 W\n    isolator: {isolatorDb:0.0} dB"), StringComparison.Ordinal);

    private static double Power(double dbm) => Math.Pow(10, dbm / 10);

    private static bool IsSame(OtherCause one, OtherCause other) => one.Cause == other.Cause && one.Stage == other.Stage;

    // Concerns named emitters: no sum over all, no line of what is possible, and no 'and so many more' that counts the site's own.
    private static bool IsOfOne(OtherCause cause) => cause.Finding.Cause is not (CauseKind.Blocking or CauseKind.ReciprocalMixing
        or CauseKind.Outside or CauseKind.ProductOnResponse);

    private static string Row(ProductFinding p) =>
        $"{string.Join(' ', p.Terms.Select(static t => $"{t.Coefficient}*{t.Name}"))} {p.Mechanism} {p.MadeIn} "
            + FormattableString.Invariant($"{p.InChannelLevelDbm:R} {p.SigmaDb:R} {p.Verdict}");

    private static string Row(OtherCause c) =>
        FormattableString.Invariant($"{c.Cause} {c.Emitter} {c.Finding.Modulated} {c.Stage} {c.Finding.Response?.FrequencyHz} ")
            + FormattableString.Invariant($"{c.LevelDbm:R} {c.AtMostDbm:R} {c.Verdict}");

    private static NewcomerAnswer Ask(MadePair pair) => Ask(pair.Site, pair.Newcomer);

    private static NewcomerAnswer Ask(string site, string newcomer) => NewcomerService.Ask(
        new NewcomerQuestion { Sites = Read(site, newcomer) }, null, TestContext.Current.CancellationToken).Answer!;

    private static NewcomerSites Read(MadePair pair) => Read(pair.Site, pair.Newcomer);

    private static NewcomerSites Read(string site, string newcomer)
    {
        DiagnosticBag findings = new();
        return NewcomerReader.Read(
            SourceFile.OfText("s.site.yaml", site, new StubFiles()), SourceFile.OfText("n.site.yaml", newcomer, new StubFiles()), findings)
            ?? throw new InvalidOperationException(string.Join('\n', findings.InOrder()) + "\n" + newcomer);
    }

    private static StudyResult Study(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "s.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.True(site is not null, string.Join('\n', findings) + "\n" + text);
        return StudyService.Run(site, new StudyOptions(), null, TestContext.Current.CancellationToken);
    }
}
