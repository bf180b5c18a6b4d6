using Spurless.Files.Diagnostics;
using Spurless.Sites.Cures;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Cures;

/// <summary>Ways out: what the list promises is what a study of the changed site finds.</summary>
public sealed class CureServiceTests
{
    private static CureQuestion Demo(string file)
    {
        string path = TestData.Demo(file);
        DiagnosticBag findings = new();
        SourceFile source = SourceFile.Read(path, FileKind.Site, findings)!;
        LoadedSite site = SiteLoader.Load(source, out _)!;
        return new CureQuestion { Site = site, Source = source, Filters = FiltersAtHand.Beside(path, site) };
    }

    private static CureQuestion Of(string text, string folder)
    {
        SourceFile source = SourceFile.OfText("a.site.yaml", text, new SiteFolder(Path.Combine(folder, "a.site.yaml")));
        return new CureQuestion { Site = SiteLoader.Load(source, out _)!, Source = source };
    }

    private static CuredReceiver Ask(CureQuestion question) => CureService.Ask(question).Answer!.Receivers[0];

    [Fact]
    public void Ask_of_the_demo_puts_filter_and_double_isolator_first_and_no_filter_alone_ends_it()
    {
        CuredReceiver cured = Ask(Demo("quernmoss.site.yaml"));

        Assert.False(cured.ReceiverAlone);
        Assert.InRange(cured.Tried, cured.Cures.Count + cured.Dominated + cured.Useless, 1000);
        Assert.Equal("telemetry scanner", Assert.Single(cured.MadeElsewhere).MadeIn);
        Cure best = cured.Cures[0];
        Assert.Equal(0, best.Harmful);
        Assert.Collection(
            best.Steps,
            static s => Assert.Equal("filter", s.Subject),
            static s => Assert.Equal(("telemetry scanner", Isolators.Double), (((IsolatorStep)s).Transmitter, ((IsolatorStep)s).Kind)));

        // The filter at hand with the same isolator: the demo's own figure, 14.4 dB under the noise at 2.9 dB of loss.
        Cure own = cured.Cures.First(static c => c.Steps[0] is FileFilterStep { Path: "filters/three-tank.circuit.yaml" } && c.EndsIt);
        Assert.Equal((-14.4, 2.9), (Math.Round(own.WorstOverNoiseDb!.Value, 1), Math.Round(own.WantedLossDb, 1)));
    }

    // What is told of each way is what a study finds that reads the written files from disk, of all receivers and from the start.
    [Fact]
    public void Each_way_of_the_demo_applied_is_what_was_promised() => AppliedAsPromised(Demo("quernmoss.site.yaml"), everything: true);

    [Theory]
    [InlineData(0, 12)]
    public void Each_way_of_invented_sites_applied_is_what_was_promised(int first, int count) => Applied(first, count);

    [Theory]
    [Trait("Category", "Long")]
    [InlineData(12, 50)]
    public void Each_way_of_more_invented_sites_applied_is_what_was_promised(int first, int count) => Applied(first, count);

    private static void Applied(int first, int count)
    {
        string folder = Directory.CreateTempSubdirectory("spurless-cures-").FullName;
        try
        {
            int harmful = 0;
            for (int seed = first; seed < first + count; seed++)
            {
                harmful += AppliedAsPromised(Of(InventedSite.Text(seed, preamplifier: seed % 3 == 0), folder), everything: false);
            }

            Assert.True(harmful > count / 2, $"{harmful} of {count} sites had something to cure");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int AppliedAsPromised(CureQuestion question, bool everything)
    {
        CuredReceiver cured = Ask(question);
        string folder = Directory.CreateTempSubdirectory("spurless-cures-").FullName;
        try
        {
            foreach (string file in everything ? ["three-tank.circuit.yaml", "three-tank.s2p", "duplexer-high.s2p",
                "unmarked-fitted.circuit.yaml", "unmarked.s2p"] : Array.Empty<string>())
            {
                Directory.CreateDirectory(Path.Combine(folder, "filters"));
                File.Copy(TestData.Demo("filters", file), Path.Combine(folder, "filters", file));
            }

            foreach (Cure cure in cured.Cures)
            {
                foreach ((string path, string text) in cure.Files)
                {
                    Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(folder, path))!);
                    File.WriteAllText(Path.Combine(folder, path), text);
                }

                string site = Path.Combine(folder, "applied.site.yaml");
                File.WriteAllText(site, cure.Text);
                LoadedSite? loaded = SiteLoader.Load(site, out IReadOnlyList<Diagnostic> said);
                Assert.True(loaded is not null, string.Join('\n', said));
                ReceiverFindings found = StudyService.Run(loaded, new StudyOptions()).Receivers[0];
                Assert.Equal(
                    (cure.Harmful, cure.Marginal, cure.WorstOverNoiseDb, cure.SumOverNoiseDb),
                    (found.Harmful, found.Marginal, found.Products.Max(static p => p.OverNoiseDb), found.SumOverNoiseDb));
                Assert.Equal(cure.OtherHarmful, found.OtherCauses.Count(static c => c.Verdict == Verdict.Harmful));
                Assert.Equal(cured.Before.SensitivityAtAntennaDbm + cure.WantedLossDb, found.SensitivityAtAntennaDbm, 9);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        return cured.Before.Harmful > 0 ? 1 : 0;
    }

    // With what is needed taken from every level nothing made in the receiver is harmful; with 1 dB less something is.
    [Fact]
    public void Needs_of_invented_sites_are_enough_and_a_decibel_less_is_not()
    {
        int asked = 0;
        for (int seed = 0; seed < 40; seed++)
        {
            LoadedSite site = SiteLoader.Load(InventedSite.Text(seed), "a.site.yaml", new SiteFolder("a.site.yaml"), out _)!;
            ReceiverFindings before = StudyService.Run(site, new StudyOptions()).Receivers[0];
            AttenuationNeeds needs = AttenuationNeeds.Of(before, 0);
            int made = MadeHere(site, []);
            Assert.Equal(made > 0, needs.Carriers.Count > 0);
            if (made > 0)
            {
                asked++;
                Assert.Equal(0, MadeHere(site, needs.Carriers));
                Assert.NotEqual(0, MadeHere(site, [.. needs.Carriers.Select(static n => n with { AttenuationDb = n.AttenuationDb - 1 })]));
            }
        }

        Assert.True(asked > 20, $"{asked} of 40 sites had something made in the receiver");
    }

    private static int MadeHere(LoadedSite site, IReadOnlyList<CarrierAttenuation> taken)
    {
        SiteDocument document = site.Document with
        {
            Emitters =
            [
                .. site.Document.Emitters.Select(e => taken.FirstOrDefault(t => t.Emitter == e.Name) is { } less
                    ? e with { Level = Radio.Quantities.Level.FromDbm(e.Level!.Value.Dbm - less.AttenuationDb) }
                    : e),
            ],
        };
        return StudyService.Run(site with { Document = document }, new StudyOptions()).Receivers[0].Products
            .Count(static p => p.Mechanism == Mechanism.Receiver && p.Verdict == Verdict.Harmful);
    }

    // All pairs of all steps, none left out: the list has a way that is as good as any of them.
    [Fact]
    [Trait("Category", "Long")]
    public void Pairs_left_out_could_not_have_been_better()
    {
        CureQuestion question = Demo("quernmoss.site.yaml");
        CuredReceiver cured = Ask(question);
        CureStep[] steps =
        [
            .. CureCandidates.Of(question, question.Site.Document.Receivers[0], cured.Before)
                .Where(static s => s is not PadStep { Db: > 4 and not 12 and not 20 }),
        ];
        CureTrial trial = new(question, 0, cured.Before, null);
        StudyMemory memory = new();
        int complete = 0;
        for (int i = 0; i < steps.Length; i++)
        {
            for (int j = i + 1; j < steps.Length; j++)
            {
                if (steps[i].Subject != steps[j].Subject
                    && trial.Try([steps[i], steps[j]], memory, TestContext.Current.CancellationToken) is { Cure: { EndsIt: true } pair })
                {
                    complete++;
                    Assert.True(
                        cured.Cures.Any(c => c.EndsIt && c.Actor <= pair.Actor && c.WantedLossDb <= pair.WantedLossDb + 0.01
                            && c.Effort <= pair.Effort && c.OwnEffort <= pair.OwnEffort),
                        string.Join(" and ", pair.Steps));
                }
            }
        }

        Assert.True(complete > 20, $"{complete} pairs end it");
    }

    // Most sets are tried without their text. What is found so is what is found of the text, to the last digit: every step, and every step
    // with each of a few others, before and behind a preamplifier too.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Try_without_the_text_finds_what_is_found_of_it(bool preamplifier)
    {
        string folder = Directory.CreateTempSubdirectory("spurless-cures-").FullName;
        CureQuestion question = preamplifier ? Of(InventedSite.Text(3, preamplifier: true), folder) : Demo("quernmoss.site.yaml");
        ReceiverFindings before = StudyService.Run(question.Site, new StudyOptions()).Receivers[0];
        CureStep[] all =
        [
            .. CureCandidates.Of(question, question.Site.Document.Receivers[0], before),
            new ChannelStep(before.FrequencyHz + 25_000, 25_000),
        ];
        CureStep[] few = [.. all.GroupBy(static s => (s.GetType(), (s as PadStep)?.Place)).Select(static g => g.Last())];
        CureTrial trial = new(question, 0, before, null);
        StudyMemory memory = new(), other = new();
        CancellationToken cancel = TestContext.Current.CancellationToken;
        int compared = 0;
        IEnumerable<CureStep[]> pairs = few.SelectMany(a => few.Where(b => a.Subject != b.Subject).Select(b => (CureStep[])[a, b]));
        foreach (CureStep[] steps in all.Select(static s => (CureStep[])[s]).Concat(pairs))
        {
            Cure? quick = trial.Try(steps, memory, cancel)?.Cure;
            Cure? whole = quick is null ? null : trial.Finished(quick, other, cancel);
            if (quick is not null && whole is not null)
            {
                compared++;
                Assert.Equal(whole with { Text = "", Files = quick.Files, Steps = steps, Left = quick.Left }, quick with { Text = "" });
                Assert.Equal(whole.Left.Select(static p => (p.Row, p.OverNoiseDb)), quick.Left.Select(static p => (p.Row, p.OverNoiseDb)));
                Assert.Equal(whole.Files.OrderBy(static f => f.Key), quick.Files.OrderBy(static f => f.Key));
            }
        }

        Assert.True(compared > 120, $"{compared} sets");
        Directory.Delete(folder, recursive: true);
    }

    // The list so far is a list like the last one: of what was tried until then, each way with its text and as it was promised.
    [Fact]
    public void Ask_tells_on_the_way_what_it_has_found_and_in_the_end_the_whole_list()
    {
        Watched watched = new();
        CuredReceiver whole = CureService.Ask(Demo("quernmoss.site.yaml"), watched).Answer!.Receivers[0];

        Assert.True(watched.Lists.Count > 3);
        Assert.Equal(whole.Cures.Select(static c => c.Text), watched.Last!.Cures.Select(static c => c.Text));
        Assert.All(watched.Lists, l =>
        {
            Assert.InRange(l.Tried, 1, whole.Tried);
            Assert.All(l.Cures, static c => Assert.NotEmpty(c.Text));
            Assert.Equal(l.Cures.Select(static c => c.Harmful).Order(), l.Cures.Select(static c => c.Harmful));
        });
    }

    private sealed class Watched : IProgress<CureProgress>
    {
        public List<CuredReceiver> Lists { get; } = [];

        public CuredReceiver? Last { get; private set; }

        public void Report(CureProgress value)
        {
            lock (Lists)
            {
                if (value.Tried % 60 == 0)
                {
                    Lists.Add(value.SoFar());
                }

                if (value.Tried == value.Of)
                {
                    Last = value.SoFar();
                }
            }
        }
    }

    [Fact]
    public void Ask_gives_the_same_list_every_time()
    {
        CureQuestion question = Demo("quernmoss.site.yaml");

        Assert.Equal(Ask(question).Cures.Select(static c => c.Text), Ask(question).Cures.Select(static c => c.Text));
    }

    [Fact]
    public void Ask_where_nothing_is_harmful_has_no_way_and_needs_nothing()
    {
        CuredReceiver cured = Ask(Demo("quernmoss-cured.site.yaml"));

        Assert.Equal((0, 0, 0), (cured.Before.Harmful, cured.Cures.Count, cured.Needs.Carriers.Count));
    }

    [Fact]
    public void Ask_for_a_receiver_that_is_not_there_names_those_that_are() =>
        Assert.Contains(
            "repeater input", CureService.Ask(Demo("quernmoss.site.yaml") with { Receiver = "nobody" }).Problem, StringComparison.Ordinal);

    // By what was observed in the demo it is made in the telemetry transmitter: a filter alone cures what hardly anybody hears.
    [Fact]
    public void Ask_with_evidence_lets_a_cure_of_what_is_improbable_sink()
    {
        CuredReceiver cured = Ask(Demo("quernmoss-heard.site.yaml"));

        Assert.All(cured.Cures, static c => Assert.NotNull(c.CuresHeard));
        Cure filter = cured.Cures.First(static c => c.Steps is [FileFilterStep or UsualFilterStep]);
        Assert.True(filter.CuresHeard < 0.1, $"{filter.CuresHeard}");
        Assert.True(cured.Cures[0].CuresHeard > 0.8, $"{cured.Cures[0].CuresHeard}");
        Assert.True(
            cured.Cures.TakeWhile(c => c != filter).All(c => c.CuresHeard > filter.CuresHeard - 0.01),
            "what is improbable stands before what is likely");
    }

    [Fact]
    public void Ask_that_is_stopped_stops()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();

        Assert.ThrowsAny<OperationCanceledException>(() => CureService.Ask(Demo("quernmoss.site.yaml"), null, stop.Token));
    }
}
