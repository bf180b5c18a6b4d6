using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Locating;

public sealed class LocateServiceTests
{
    private const string Site = """
        spurless: 1
        site: made for a test
        receivers:
          - name: input
            frequency: 145.05 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -8 dBm
            chain:
              - amplifier: { gain: 15 dB, noise_figure: 2 dB, iip3: -5 dBm }
        emitters:
          - { name: north, frequency: 158.3 MHz, emission: 11K2F3E, level: -31 dBm }
          - { name: south, frequency: 171.55 MHz, emission: 11K2F3E, level: -33 dBm }
        search: { orders: 2-3, signals: 2 }
        evidence:

        """;

    [Fact]
    public void Ask_demo_separates_the_transmitter_from_the_receiver_and_rules_the_decoy_out()
    {
        LoadedSite site = Load(DemoSites.PathOf("quernmoss-heard.site.yaml"));
        LocatedReceiver located = Located(site);

        Assert.Equal(MakingPlace.Transmitter, located.Places[0].Place);
        Assert.Equal("telemetry scanner", located.Places[0].Name);
        Assert.True(located.Places[0].Probability > 0.6, $"{located.Places[0].Probability}");
        Assert.True(located.Weighed.OfPlace(MakingPlace.Receiver) < 0.01);
        int product = located.Weighed.Hypotheses[located.Ranked[0]].Product;
        Assert.Equal(["telemetry scanner", "gauging station"], located.Products[product].Terms.Select(static t => t.Name));
        Assert.True(located.Weighed.OfProduct(product) > 0.99);
        Assert.Contains(located.RuledOut, r => located.Findings.Carriers[r.Emitter].Emitter == "hospital paging");
        Assert.Empty(located.Misfits);
        EmitterDown down = Assert.IsType<EmitterDown>(located.Next[0].Ask);
        Assert.Equal("telemetry scanner", located.Findings.Carriers[down.Emitter].Emitter);
        Assert.Equal(3, down.ByDb);
    }

    // docs/method/evidence.md, by hand: shares before of six products and something else; the first can be made in one transmitter too.
    [Fact]
    public void Ask_demo_has_the_priors_of_the_method()
    {
        LocatedReceiver located = Located(Load(DemoSites.PathOf("quernmoss-heard.site.yaml")));
        Assert.Equal(6, located.Products.Count);
        Assert.Equal((0.5 + (5 * 2 / 3.0)) / 7, located.Weighed.PriorOfPlace(MakingPlace.Receiver), 1e-12);
        Assert.Equal(0.25 / 7, located.Weighed.PriorOfPlace(MakingPlace.Transmitter), 1e-12);
        Assert.Equal((0.25 + (5 / 3.0)) / 7, located.Weighed.PriorOfPlace(MakingPlace.Outside), 1e-12);
        Assert.Equal(1 / 7.0, located.Weighed.PriorOfPlace(MakingPlace.Other), 1e-12);
    }

    // A pad behind the amplifier: third order made in the receiver falls by 9 dB, what the amplifier made by 3 dB.
    [Theory]
    [InlineData("receiver", "9 dB", "input")]
    [InlineData("antenna", "9 dB", null)]
    [InlineData("receiver", "3 dB", "amplifier 1")]
    public void Ask_where_the_pad_stood_decides_what_it_tells(string at, string fall, string? madeIn)
    {
        LoadedSite site = Load(
            Site + $"  - attenuator_test: {{ receiver: input, inserted: 3 dB, at: {at}, over_noise: 40 dB, fall: {fall}, "
                + "plus_minus: 0.5 dB }\n");
        LocatedReceiver located = Located(site);
        double first = located.Weighed.OfPlace(MakingPlace.Receiver, 0);
        double second = located.Weighed.OfPlace(MakingPlace.Receiver, 1);
        switch (madeIn)
        {
            case "input":
                Assert.True(second > 100 * first, $"{first} {second}");
                break;
            case "amplifier 1":
                Assert.True(first > 100 * second, $"{first} {second}");
                break;
            default:
                Assert.True(first + second > 0.95, $"{first} {second}");
                break;
        }
    }

    // 2 x north - south lies at 0; north 100 Hz high moves it by 200 Hz, and 20 Hz of doubt each make 2 x 20 and 1 x 2.5e-6 x 171.55 MHz.
    [Fact]
    public void Ask_a_measured_offset_of_an_emitter_moves_the_product_and_narrows_it()
    {
        string text = Site.Replace("frequency: 158.3 MHz,", "frequency: 158.3 MHz, offset: 100 Hz,", StringComparison.Ordinal)
            + "  - offset: { receiver: input, measured: 200 Hz }\n";
        EvidenceProduct product = Assert.Single(Located(Load(text)).Weighed.Case.Products);
        Assert.Equal(200, product.OffsetHz, 1e-9);
        Assert.Equal(Math.Sqrt(Math.Pow(40, 2) + Math.Pow(2.5e-6 * 171.55e6, 2)), product.OffsetSigmaHz, 1e-6);
    }

    [Fact]
    public void Ask_without_evidence_says_that_nothing_was_observed_and_what_to_look_at()
    {
        LocatedReceiver located = Located(Load(Site.Replace("evidence:\n", "", StringComparison.Ordinal)));
        Assert.False(located.HasEvidence);
        Assert.False(located.OverNoiseRead);
        Assert.NotEmpty(located.Next);
    }

    [Fact]
    public void Of_row_sums_the_stages_of_the_receiver()
    {
        LocatedReceiver located = Located(Load(
            Site + "  - attenuator_test: { receiver: input, inserted: 3 dB, at: antenna, over_noise: 40 dB, fall: 9 dB }\n"));
        ProductFinding row = located.Findings.Products.Single(static p => p.Verdict == Verdict.Harmful);
        Assert.Equal(located.Weighed.OfPlace(MakingPlace.Receiver), located.Of(row)!.Value, 1e-12);
    }

    [Fact]
    public void Load_two_logs_of_one_time_are_refused_at_the_second()
    {
        const string Log = "time,input,north\n2031-03-04T19:00:00Z,1,1\n2031-03-04T19:10:00Z,0,0\n";
        const string Later = "time,input,north\n2031-03-04T19:05:00Z,1,1\n2031-03-04T19:20:00Z,0,0\n";
        Assert.Null(SiteLoader.Load(
            Site + "  - log: a.log.csv\n  - log: b.log.csv\n", "x.site.yaml", new StubFiles(("a.log.csv", Log), ("b.log.csv", Later)),
            out IReadOnlyList<Diagnostic> findings));
        Diagnostic only = Assert.Single(findings);
        Assert.StartsWith(
            "x.site.yaml:17:10: 'b.log.csv' covers time that 'a.log.csv' covers too", only.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Load_a_log_with_names_that_are_not_there_says_all_of_them_with_the_nearest()
    {
        const string Log = "time,inputt,norht,west\n2031-03-04T19:00:00Z,1,1,0\n";
        Assert.Null(SiteLoader.Load(
            Site + "  - log: a.log.csv\n", "x.site.yaml", new StubFiles(("a.log.csv", Log)), out IReadOnlyList<Diagnostic> findings));
        string all = string.Join('\n', findings);
        Assert.Contains("a.log.csv:1:6: the site has no receiver or emitter 'inputt'; write 'input'", all, StringComparison.Ordinal);
        Assert.Contains("a.log.csv:1:13: the site has no receiver or emitter 'norht'; write 'north'", all, StringComparison.Ordinal);
        Assert.Contains("a.log.csv:1:19: the site has no receiver or emitter 'west'", all, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("attenuator_test: { receiver: input, inserted: 3 dB, at: antenna, over_noise: 22 dB, fall: 23 dB }",
        "cannot fall by 23 dB", "write at most 22 dB")]
    [InlineData("attenuator_test: { receiver: input, inserted: 300 dB, at: antenna, over_noise: 22 dB, fall: 22 dB }",
        "is over 100 dB", "write the pad's attenuation")]
    [InlineData("attenuator_test: { receiver: input, inserted: 3 dB, at: antenna, over_noise: 220 dB, fall: 9 dB }",
        "no reading stands 220 dB over noise", "-10 dB to 80 dB")]
    [InlineData("emitter_reduced: { receiver: input, emitter: north, by: 200 dB, over_noise: 22 dB, fall: 9 dB }",
        "is over 100 dB", "write 'by: off'")]
    [InlineData("emitter_reduced: { receiver: input, emitter: north, by: -3 dB, over_noise: 22 dB, fall: 9 dB }",
        "is not above 0", "write a ratio such as 3 dB, or off")]
    [InlineData("offset: { receiver: input, measured: 20 kHz }", "is outside the channel of 12.5 kHz", "such as 180 Hz")]
    public void Load_readings_of_impossible_size_are_refused_where_they_stand(string entry, string what, string remedy)
    {
        Assert.Null(SiteLoader.Load(Site + $"  - {entry}\n", "x.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings));
        Diagnostic only = Assert.Single(findings);
        Assert.Equal(16, only.Line);
        Assert.Contains(what, only.What, StringComparison.Ordinal);
        Assert.Contains(remedy, only.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Load_an_emitter_that_was_off_takes_everything_of_it_away()
    {
        LocatedReceiver located = Located(Load(
            Site + "  - emitter_reduced: { receiver: input, emitter: north, by: off, over_noise: 30 dB, fall: 29.8 dB }\n"));
        Assert.True(located.Weighed.OfPlace(MakingPlace.Other) < 1e-6);
    }

    internal static LoadedSite Load(string pathOrText)
    {
        LoadedSite? site = pathOrText.Contains('\n', StringComparison.Ordinal)
            ? SiteLoader.Load(pathOrText, "x.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings)
            : SiteLoader.Load(pathOrText, out findings);
        Assert.Empty(findings);
        return site!;
    }

    private static LocatedReceiver Located(LoadedSite site) => Assert.Single(
        LocateService.Ask(new LocateQuestion { Site = site }, null, TestContext.Current.CancellationToken).Answer!.Receivers);
}
