using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Receivers;

public sealed class SiteFiguresTests
{
    private const string Measured =
        "  - sensitivity: { level: -119 dBm }\n"
        + "  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm }\n"
        + "  - blocking: { at: 146.05 MHz, level: -29 dBm }\n";

    private const string Site = """
        # our hill
        spurless: 1
        site: hill (invented)
        receivers:
          - name: other
            frequency: 433 MHz
            channel: 25 kHz
            noise_figure: 9 dB
            iip3: -10 dBm
          - name: input   # the one
            frequency: 145.05 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -8 dBm      # a guess
            chain: []
        emitters:
          - { name: a, frequency: 146.05 MHz, emission: 11K2F3E, level: -30 dBm }
          - { name: b, frequency: 147.05 MHz, emission: 11K2F3E, level: -30 dBm }
        """;

    private static SourceFile Source(string site, params (string Path, string Content)[] files) =>
        SourceFile.OfText("a.site.yaml", site, new StubFiles(files));

    private static SiteWithFigures Write(string measured, string site, params (string Path, string Content)[] files)
    {
        DiagnosticBag bag = new();
        SiteWithFigures? written = SiteFigures.Write(Bench.Ask(measured, files), Source(site, files), "input", bag);
        Assert.True(written is not null, string.Join('\n', bag.InOrder()));
        return written;
    }

    private static StudyResult Study(string site, params (string Path, string Content)[] files)
    {
        DiagnosticBag bag = new();
        LoadedSite? loaded = SourceReader.Site(Source(site, files), bag);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return StudyService.Run(loaded, new StudyOptions());
    }

    // -119 - 7.5 over kTB in 8 kHz: 8.444 dB; IIP3 -2.75; blocking 90 dB, written to a tenth.
    [Fact]
    public void Write_changes_those_keys_alone_and_tells_what_stood_there()
    {
        SiteWithFigures written = Write(Measured, Site);
        Assert.Equal(
            [
                ("noise_figure", "6 dB", "8.4 dB"), ("iip3", "-8 dBm", "-2.8 dBm"), ("intercept_uncertainty", null, "[1.6 dB at 3]"),
                ("intercepts_from", null, "bench"), ("blocking", null, "90 dB"),
            ],
            written.Figures.Select(static f => (f.Key, f.Was, f.Now)));
        string[] before = Site.Split('\n'), after = written.Text.Split('\n');
        Assert.Equal(before.Length + 3, after.Length);
        Assert.Equal(
            ["    noise_figure: 8.4 dB    # measured, +-1.0 dB (n.receiver.yaml)", "    iip3: -2.8 dBm      # a guess"], after[12..14]);
        Assert.Equal(
            "    blocking: 90 dB    # measured, +-1.4 dB, at 146.05 MHz (n.receiver.yaml)",
            Assert.Single(after.Except(before), static l => l.Contains("blocking:", StringComparison.Ordinal)));
        Assert.All(before.Except(before[12..14]), line => Assert.Contains(line, after));
    }

    [Fact]
    public void Write_a_study_uses_them()
    {
        ReceiverFindings before = Study(Site).Receivers[1], after = Study(Write(Measured, Site).Text).Receivers[1];
        Assert.Equal(2.4, after.NoiseFloorDbm - before.NoiseFloorDbm, 1e-6);
        Assert.Equal(-2 * 5.2, after.Products[0].LevelDbm!.Value - before.Products[0].LevelDbm!.Value, 1e-6);
    }

    // What is read at the site, written into it, makes the study predict just that reading (to the tenth of a dB that is written).
    [Fact]
    public void Write_a_mixture_read_at_the_site_makes_the_study_predict_it()
    {
        string reading = "  - product: { site: a.site.yaml, receiver: input, terms: { a: 2, b: -1 }, over_noise: 25 dB }\n";
        string site = Site.Replace("iip3: -8 dBm", "iip3: -20 dBm", StringComparison.Ordinal);
        SiteWithFigures written = Write(reading, site, ("a.site.yaml", site));
        double over = Study(written.Text, ("a.site.yaml", site)).Receivers[1].Products[0].OverNoiseDb!.Value;
        Assert.Equal(10 * Math.Log10(Math.Pow(10, 2.5) - 1), over, 2 * 0.051);
        Assert.Equal(["iip3", "intercept_uncertainty", "intercepts_from"], written.Figures.Select(static f => f.Key));
        Assert.True(written.Figures[0].Intercept!.OnTheAir);
        Assert.Equal("on the air", written.Figures[2].Now);
    }

    // physics: s^2 = sum k^2 s_i^2 + (n-1)^2 s_IIP^2, levels 2 dB; a data sheet's 3 dB before, the bench's sqrt(3^2 + 1)/2 = 1.58, written
    // as 1.6, now.
    [Fact]
    public void Write_brings_along_how_sure_the_intercept_is_and_where_it_is_from()
    {
        ReceiverFindings before = Study(Site).Receivers[1], after = Study(Write(Measured, Site).Text).Receivers[1];
        Assert.Equal(Math.Sqrt(16 + 4 + (4 * 9)), before.Products[0].SigmaDb!.Value, 1e-9);
        Assert.Equal(Math.Sqrt(16 + 4 + (4 * 1.6 * 1.6)), after.Products[0].SigmaDb!.Value, 1e-9);
        Assert.Contains(
            after.Assumed,
            static a => a is ReceiverAssumption.InterceptMeasured
            {
                Order: 3, Intercept.Dbm: -2.8, From: InterceptOrigin.Bench, SigmaDb: 1.6,
            });
        Assert.DoesNotContain(before.Assumed, static a => a is ReceiverAssumption.InterceptMeasured);
    }

    [Fact]
    public void Study_says_which_intercept_was_calibrated_on_the_air()
    {
        string reading = "  - product: { site: a.site.yaml, receiver: input, terms: { a: 2, b: -1 }, over_noise: 25 dB }\n";
        string site = Site.Replace("iip3: -8 dBm", "iip3: -20 dBm", StringComparison.Ordinal);
        SiteWithFigures written = Write(reading, site, ("a.site.yaml", site));
        Assert.Contains(
            Study(written.Text).Receivers[1].Assumed,
            static a => a is ReceiverAssumption.InterceptMeasured { From: InterceptOrigin.OnTheAir, SigmaDb: > 0 });
    }

    [Fact]
    public void Sigma_of_an_intercept_that_is_not_given_is_refused()
    {
        DiagnosticBag bag = new();
        string site = Site.Replace(
            "iip3: -8 dBm ", "intercept_uncertainty: [1 dB at 3, 2 dB at 5]\n    iip3: -8 dBm ", StringComparison.Ordinal);
        Assert.Null(SourceReader.Site(Source(site), bag));
        string found = Assert.Single(bag.InOrder()).ToString();
        Assert.Contains(
            "'2 dB at 5' is of an intercept that is not given; give iip5, or leave this one out", found, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_with_a_sensitivity_in_the_site_keeps_that_key()
    {
        string site = Site.Replace("noise_figure: 6 dB", "sensitivity: 0.25 uV pd", StringComparison.Ordinal);
        SiteWithFigures written = Write(Measured, site);
        Assert.Equal(("sensitivity", "0.25 uV pd", "-119 dBm"), (written.Figures[0].Key, written.Figures[0].Was, written.Figures[0].Now));
        Assert.Equal(-126.5, Study(written.Text).Receivers[1].NoiseFloorDbm, 1e-6);
    }

    [Fact]
    public void Write_puts_iip3_in_the_place_of_a_rejection()
    {
        string site = Site.Replace(
            "iip3: -8 dBm      # a guess", "intermod_rejection: { by: 70 dB, method: tia603 }", StringComparison.Ordinal);
        SiteWithFigures written = Write(Measured, site);
        SiteFigure gone = Assert.Single(written.Figures, static f => f.Now is null);
        Assert.Equal(("intermod_rejection", "{ by: 70 dB, method: tia603 }"), (gone.Key, gone.Was));
        Assert.Equal(-2.8, Study(written.Text).Receivers[1].Chain.ActiveStages[^1].Intercepts.Dbm(3), 1e-9);
    }

    // An intercept from which the front end was taken out goes with that front end: tones far off then stand at the stage as on the bench.
    [Fact]
    public void Write_corrected_intercept_brings_its_front_end_along()
    {
        string far = "  - two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], level: -30 dBm, product: -94 dBm }\n"
            + "  - front_end: f.s2p\n";
        SiteWithFigures written = Write(far, Site, ("f.s2p", Bench.FrontEnd));
        Assert.Equal(
            ["selectivity", "iip3", "intercept_uncertainty", "intercepts_from"], written.Figures.Select(static f => f.Key));

        // The bench's own tones through the site: the mixture comes out as it was read, 2 dB of the front end on the channel and all.
        string tones = written.Text.Replace("frequency: 146.05 MHz", "frequency: 160.525 MHz", StringComparison.Ordinal).Replace(
            "frequency: 147.05 MHz", "frequency: 176 MHz", StringComparison.Ordinal);
        ProductFinding product = Study(tones, ("f.s2p", Bench.FrontEnd)).Receivers[1].Products[0];
        Assert.Equal(-94, product.LevelDbm!.Value, 0.11); // the intercept is written to a tenth, and counts twice
    }

    [Fact]
    public void Write_twice_changes_nothing_more()
    {
        SiteWithFigures once = Write(Measured, Site), twice = Write(Measured, once.Text);
        Assert.Equal(once.Text, twice.Text);
        Assert.All(twice.Figures, static f => Assert.Equal(f.Was, f.Now));
    }

    [Theory]
    [InlineData("input", "channel: 12.5 kHz\n    noise", "channel: 25 kHz\n    noise", "a channel of 25 kHz")]
    [InlineData("input", "noise_figure: 6 dB", "if_bandwidth: 9 kHz\n    noise_figure: 6 dB", "write the same if_bandwidth in both")]
    [InlineData("other", "", "", "listens on 433 MHz")]
    [InlineData("inptu", "", "", "write --receiver \"input\"")]
    public void Write_into_another_receiver_is_refused(string receiver, string old, string now, string said)
    {
        DiagnosticBag bag = new();
        string site = old.Length > 0 ? Site.Replace(old, now, StringComparison.Ordinal) : Site;
        Assert.Null(SiteFigures.Write(Bench.Ask(Measured), Source(site), receiver, bag));
        Assert.Contains(said, bag.InOrder()[0].ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_keeps_line_ends_of_the_file()
    {
        string text = Write(Measured, Site.ReplaceLineEndings("\r\n")).Text;
        Assert.Equal(text.Count(static c => c == '\n'), text.Split("\r\n").Length - 1);
    }
}
