using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Recognition;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Locating;

/// <summary>What a recording holds as evidence: read, refused, and weighed by the weights of docs/method/listen.md.</summary>
public sealed class RecordingEvidenceTests
{
    private const string Invented = """
        spurless: 1
        site: invented
        receivers:
          - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm, iip2: 30 dBm, iip5: -4 dBm }
        emitters:
          - { name: base, frequency: 160.525 MHz, emission: 11K2F3E, level: -30 dBm }
          - { name: pager, frequency: 466.1 MHz, emission: 16K0F1D, level: -30 dBm }
          - { name: one, frequency: 153.35 MHz, emission: 11K2F3E, level: -25 dBm }
          - { name: two, frequency: 161.65 MHz, emission: 11K2F3E, level: -25 dBm }
        search: { orders: 2-3, signals: 3 }

        """;

    [Fact]
    public void Recording_isRead()
    {
        SiteDocument site = Load(
            "evidence:\n  - recording: { receiver: input, kinds: [pocsag, voice], deviation: 6.5 kHz }\n", out _)!.Document;
        RecordingHeard heard = Assert.IsType<RecordingHeard>(Assert.Single(site.Evidence));
        Assert.Equal(("input", 6_500L), (heard.Receiver, heard.Deviation!.Value.Hertz));
        Assert.Equal([SignalKind.Pocsag, SignalKind.Voice], heard.Kinds);
    }

    [Theory]
    [InlineData("{ receiver: input, kinds: [warble] }", "warble")]
    [InlineData("{ receiver: input, kinds: [] }", "the list has 0 items")]
    [InlineData("{ receiver: output, kinds: [voice] }", "output")]
    public void Recording_thatMakesNoSense_isRefused(string entry, string says)
    {
        Load($"evidence:\n  - recording: {entry}\n", out DiagnosticBag bag);
        Assert.Contains(bag.InOrder(), d => d.Severity == Severity.Error && d.ToString().Contains(says, StringComparison.Ordinal));
    }

    /// <summary>
    /// By hand: paging and voice are what pager - 2 base carries (1); 2 one - two carries no paging (0.03); something else counts 0.3 a
    /// class, two of them. Shares before: half a third and so on are left to the weighing; ratios of the likelihoods are these.
    /// </summary>
    [Fact]
    public void Recording_isWeighedByItsKinds()
    {
        LoadedSite site = Load("evidence:\n  - recording: { receiver: input, kinds: [pocsag, voice] }\n", out _)!;
        LoadedSite plain = Load("", out _)!;
        StudyResult study = StudyService.Run(plain, new StudyOptions());
        LocatedReceiver before = LocateService.Weigh(new LocateQuestion { Site = plain }, study).Receivers[0];
        LocatedReceiver after = LocateService.Weigh(new LocateQuestion { Site = site }, study).Receivers[0];
        int paging = Find(after, "pager"), voices = Find(after, "two");
        double likelihood = after.Weighed.OfProduct(paging) / before.Weighed.OfProduct(paging);
        Assert.Equal(0.03, after.Weighed.OfProduct(voices) / before.Weighed.OfProduct(voices) / likelihood, 1e-9);
        double other = after.Weighed.OfPlace(Mixing.Evidence.MakingPlace.Other) / before.Weighed.OfPlace(Mixing.Evidence.MakingPlace.Other);
        Assert.Equal(0.09, other / likelihood, 1e-9);
        Assert.Equal(Math.Log(0.09), SiteFits.LogLikelihoodOfOther([SignalKind.Pocsag, SignalKind.Voice]), 1e-12);
        Assert.Equal(Math.Log(0.3), SiteFits.LogLikelihoodOfOther([SignalKind.Ctcss, SignalKind.Voice, SignalKind.Tone]), 1e-12);
    }

    /// <summary>
    /// A recording of a band gives a log and kinds, and both see one thing: here, that something else was on while the pager was off. The
    /// log has weighed it (Beta(1, 19)); then the kinds may not weigh it again (0.03 for the stranger, 0.4 for each of two silent
    /// emitters), but count as much as for something else (0.3). The mixture of which the log says nothing is weighed by its kinds.
    /// </summary>
    [Theory]
    [InlineData("2031-03-04T19:00:00Z,1,0\n", 0.3)]
    [InlineData("2031-03-04T19:00:00Z,1,1\n2031-03-04T19:00:02Z,0,0\n", 0.03 * 0.4 * 0.4)]
    public void Recording_withItsLog_isNotWeighedTwice(string rows, double expected)
    {
        (string, string) log = ("made.log.csv", "time,input,pager\n" + rows + "2031-03-04T19:00:05Z,,\n");
        LocatedReceiver alone = Weighed("evidence:\n  - log: made.log.csv\n", log);
        LocatedReceiver both = Weighed(
            "evidence:\n  - log: made.log.csv\n  - recording: { receiver: input, kinds: [afsk1200] }\n", log);
        int paging = Find(both, "pager"), voices = Find(both, "two");
        double pager = both.Weighed.OfProduct(paging) / alone.Weighed.OfProduct(paging);
        double others = both.Weighed.OfProduct(voices) / alone.Weighed.OfProduct(voices);
        Assert.Equal(expected / (0.03 * 0.4 * 0.4), pager / others, 1e-9);
    }

    private static LocatedReceiver Weighed(string evidence, params (string, string)[] files)
    {
        LoadedSite site = Load(evidence, out DiagnosticBag bag, files)!;
        Assert.False(bag.HasErrors, string.Join('\n', bag.InOrder()));
        return LocateService.Weigh(new LocateQuestion { Site = site }, StudyService.Run(Load("", out _)!, new StudyOptions())).Receivers[0];
    }

    private static int Find(LocatedReceiver located, string emitter) =>
        located.Products.ToList().FindIndex(p => p.Terms.Any(t => t.Name == emitter));

    private static LoadedSite? Load(string evidence, out DiagnosticBag bag, params (string, string)[] files)
    {
        bag = new DiagnosticBag();
        return SourceReader.Site(
            new SourceFile("invented.site.yaml", Encoding.UTF8.GetBytes(Invented + evidence), new StubFiles(files)), bag);
    }
}
