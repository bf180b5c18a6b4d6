using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Levels;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Receivers;

/// <summary>
/// An identified mixture at a site: what the study predicts with an intercept, read back, must give that intercept, through chain,
/// selectivity, share in the channel and noise.
/// </summary>
public sealed class SiteProductTests
{
    private static string Site(string iip3, string selectivity = "", string chain = "", string more = "") => $$"""
        spurless: 1
        site: hill (invented)
        receivers:
          - name: input
            frequency: 145.05 MHz
            channel: 12.5 kHz
            if_bandwidth: 8 kHz
            noise_figure: 6 dB
            iip3: {{iip3}}     # a guess
            {{selectivity}}
            external_noise: rural
            chain:
              - feedline: { loss: 1.2 dB at 145 MHz }
              {{chain}}
        emitters:
          - { name: water, frequency: 160.525 MHz, emission: 11K2F3E, level: -24 dBm }
          - { name: paging, frequency: 466.1 MHz, emission: 16K0F1D, level: -23 dBm, uncertainty: 1 dB }
          - { name: near, frequency: 158.3 MHz, emission: 11K2F3E, level: -20 dBm, coupling: { water: 40 dB } }
          - { name: dark, frequency: 171.55 MHz, emission: 11K2F3E }
        {{more}}
        """;

    private const string Terms = "receiver: input, terms: { paging: 1, water: -2 }";

    private static string Reading(double over, string terms = Terms) =>
        $"  - product: {{ site: a.site.yaml, {terms}, over_noise: {over.ToString("0.0#######", CultureInfo.InvariantCulture)} dB }}\n";

    /// <summary>What the study says of the mixture, as a meter reads it: with the noise in it.</summary>
    private static double Predicted(string site)
    {
        DiagnosticBag bag = new();
        LoadedSite loaded = SourceReader.Site(SourceFile.OfText("a.site.yaml", site, new StubFiles(("f.s2p", Bench.FrontEnd))), bag)!;
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        ProductFinding product = StudyService.Run(loaded!, new StudyOptions()).Receivers[0].Products.First(static p =>
            p.Mechanism == Mechanism.Receiver && p.Terms.Count == 2 && p.Terms.Any(static t => t is { Name: "water", Coefficient: -2 }));
        return ProductEffects.NoiseRiseDb(product.OverNoiseDb!.Value);
    }

    [Theory]
    [InlineData("", "", "", -6.3)]
    [InlineData("selectivity: [0 dB at 145 MHz, 6 dB at 160 MHz, 12 dB at 466 MHz]", "", "", -14.2)]
    [InlineData("selectivity: [1.5 dB at 145 MHz, 6 dB at 160 MHz, 12 dB at 466 MHz]", "- attenuator: 2 dB", "", -14.2)]
    [InlineData("", "", "exclusive: [[ water, paging ]]", -6.3)]
    public void Ask_what_the_study_predicts_gives_back_its_intercept(string selectivity, string chain, string more, double iip3)
    {
        string site = Site($"{iip3.ToString(CultureInfo.InvariantCulture)} dBm", selectivity, chain, more);
        double over = Predicted(site.Replace("exclusive:", "# exclusive:", StringComparison.Ordinal));

        // Which intercept the site file holds for itself has no part in it.
        ReceiverAnswer answer = Bench.Ask(Reading(over), ("a.site.yaml", site.Replace($"{iip3} dBm", "0 dBm", StringComparison.Ordinal)));
        InterceptFinding found = Assert.Single(answer.Intercepts);
        Assert.True(found.OnTheAir);
        Assert.Equal(selectivity.Length > 0, found.CloseTones);

        // A site's intercept is that behind its selectivity; the receiver's that at its input.
        double onChannel = selectivity.Length == 0 ? 0
            : OnChannelDb(selectivity.Contains("1.5 dB", StringComparison.Ordinal) ? 1.5 : 0);
        Assert.Equal(iip3 + onChannel, found.Figure.Value, 1e-4);
        Assert.Empty(answer.Warnings);
    }

    // From its value at 145 MHz to 6 dB at 160 MHz, straight over the frequency's logarithm, at 145.05 MHz.
    private static double OnChannelDb(double at145) =>
        at145 + ((6 - at145) * Math.Log10(145.05 / 145) / Math.Log10(160 / 145.0));

    // 22 dB and 2 dB of sigma of the levels by hand: 2 x 2 dB (measured), 1 x 1 dB (stated), 1 dB of the reading, over n - 1 = 2.
    [Fact]
    public void Ask_sigma_is_that_of_the_sites_levels_and_of_the_reading()
    {
        ReceiverAnswer answer = Bench.Ask(Reading(40), ("a.site.yaml", Site("-6 dBm")));
        Assert.Equal(Math.Sqrt(16 + 1 + 1) / 2, answer.Intercepts[0].Figure.SigmaDb, 1e-3);
    }

    [Fact]
    public void Ask_front_end_of_the_measurements_counts_where_the_site_states_none()
    {
        string terms = "receiver: input, terms: { water: 2, other: -1 }";
        string site = Site("-6 dBm", more: "").Replace("466.1 MHz", "176 MHz", StringComparison.Ordinal).Replace(
            "paging", "other", StringComparison.Ordinal);
        ReceiverAnswer without = Bench.Ask(Reading(30, terms), ("a.site.yaml", site));
        ReceiverAnswer with = Bench.Ask(
            Reading(30, terms) + "  - front_end: f.s2p\n", ("a.site.yaml", site), ("f.s2p", Bench.FrontEnd));
        Assert.True(with.Intercepts[0].CloseTones);
        Assert.Equal(((2 * 6) + 14) / 2.0, without.Intercepts[0].Figure.Value - with.Intercepts[0].Figure.Value, 1e-6);
    }

    [Fact]
    public void Ask_amplifier_in_front_is_warned_of() => Assert.Contains(
        Bench.Ask(
            Reading(30), ("a.site.yaml", Site("-6 dBm", chain: "- amplifier: { gain: 10 dB, noise_figure: 1.5 dB, iip3: 20 dBm }")))
            .Warnings,
        static w => w.Kind == ReceiverWarningKind.AmplifierInFront);

    [Fact]
    public void Ask_unknown_level_leaves_the_reading_out()
    {
        // 2 x 158.3 - 171.55 = 145.05
        ReceiverAnswer answer = Bench.Ask(Reading(30, "receiver: input, terms: { near: 2, dark: -1 }"), ("a.site.yaml", Site("-6 dBm")));
        Assert.Empty(answer.Intercepts);
        Assert.Equal((ReceiverWarningKind.LevelUnknown, "dark"), (answer.Warnings[0].Kind, answer.Warnings[0].Name));
    }

    [Theory]
    [InlineData("receiver: inpt, terms: { paging: 1, water: -2 }", "write 'input'")]
    [InlineData("receiver: input, terms: { pagin: 1, water: -2 }", "write 'paging'")]
    [InlineData("receiver: input, terms: { paging: 1, water: -3 }", "misses the channel")]
    public void Measurements_of_names_or_mixtures_that_the_site_has_not_are_errors(string terms, string said)
    {
        DiagnosticBag bag = new();
        Assert.Null(Bench.Load(Reading(22, terms), bag, ("a.site.yaml", Site("-6 dBm"))));
        Diagnostic finding = Assert.Single(bag.InOrder());
        Assert.Equal(("n.receiver.yaml", 7), (finding.File, finding.Line));
        Assert.Contains(said, finding.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Measurements_of_a_site_with_errors_tell_them_at_the_site()
    {
        DiagnosticBag bag = new();
        Assert.Null(Bench.Load(Reading(22), bag, ("a.site.yaml", Site("-6"))));
        Assert.Equal("a.site.yaml", Assert.Single(bag.InOrder()).File);
    }
}
