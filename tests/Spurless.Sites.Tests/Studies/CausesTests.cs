using Spurless.Files.Diagnostics;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// Each mechanism alone, all others off: an ideal receiver (no intercept that matters) hears only the one that the emitters make. Levels by the formulas of
/// docs/method/other-causes.md, worked by hand.
/// </summary>
public sealed class CausesTests
{
    // 8 kHz, 6 dB: 10 lg(k 290 K) + 30 + 39.03 + 6 = -128.94 dBm.
    private const double NoiseDbm = -128.94;

    private const string Linear = "iip2: 150 dBm, iip3: 100 dBm";

    [Fact]
    public void Nothing_is_listed_for_a_quiet_linear_receiver()
    {
        ReceiverFindings receiver = Study("", "  - { name: a, frequency: 150 MHz, emission: 11K2F3E, level: -30 dBm }");
        Assert.Empty(receiver.Products);
        Assert.Empty(receiver.OtherCauses);
    }

    [Fact]
    public void Direct_appears_alone()
    {
        OtherCause cause = Only("direct", "", "  - { name: a, frequency: 145.05 MHz, bandwidth: 0 kHz, level: -100 dBm }");
        Assert.Equal("a", cause.Emitter);
        Assert.Equal(-100, cause.LevelDbm!.Value, 0.01);
        Assert.Equal(-100 - NoiseDbm, cause.OverNoiseDb!.Value, 0.01);
        Assert.Equal(Verdict.Harmful, cause.Verdict);
    }

    [Fact]
    public void Transmitter_noise_appears_alone()
    {
        OtherCause cause = Only("transmitter_noise", "", "  - { name: a, frequency: 147 MHz, emission: 11K2F3E, level: -30 dBm, noise: -130 dBc/Hz at 1 MHz }");
        Assert.Equal(-30 - 130 + 39.03, cause.LevelDbm!.Value, 0.01);
        Assert.Equal(Verdict.Harmful, cause.Verdict);
    }

    [Fact]
    public void Blocking_appears_alone()
    {
        // Reference: -128.94 dBm of noise and 7.5 dB of carrier to noise; 84 dB over that is -37.44 dBm, 7.44 dB under the carrier.
        OtherCause cause = Only("blocking", "blocking: 84 dB", "  - { name: a, frequency: 147 MHz, emission: 11K2F3E, level: -30 dBm }");
        Assert.Equal(10 * Math.Log10(1 + Math.Pow(10, 0.744)), cause.DesenseDb!.Value, 0.02);
        Assert.Equal(Verdict.Harmful, cause.Verdict);
        Assert.Null(cause.OverNoiseDb);
    }

    [Fact]
    public void Blocking_from_an_intercept_is_listed_only_where_it_matters()
    {
        const string emitter = "  - {{ name: a, frequency: 147 MHz, emission: 11K2F3E, level: {0} dBm }}";
        string loud = emitter.Replace("{0}", "-10", StringComparison.Ordinal).Replace("{{", "{", StringComparison.Ordinal).Replace("}}", "}", StringComparison.Ordinal);
        string soft = loud.Replace("-10 dBm", "-60 dBm", StringComparison.Ordinal);
        Assert.Equal("blocking", Assert.Single(Study("", loud, "iip3: -5 dBm").OtherCauses).Cause);
        Assert.Empty(Study("", soft, "iip3: -5 dBm").OtherCauses);
    }

    [Fact]
    public void Cross_modulation_appears_alone()
    {
        const string emitters = """
              - { name: own, frequency: 145.65 MHz, emission: 11K2F3E, level: -10 dBm }
              - { name: wide, frequency: 190 MHz, bandwidth: 4000 kHz, noise_like: true, level: -10 dBm }
            """;
        OtherCause cause = Only("cross_modulation", "", emitters, "iip2: 150 dBm, iip3: 30 dBm");
        Assert.Equal("wide", cause.Emitter);

        // -10 + 2(-10) - 60 + 6.02, and a triangle over +-4 MHz: its height 1/b at the peak, 0.85 of it at 0.6 MHz, 8 kHz wide.
        Assert.Equal(-90 + 6.02 + (10 * Math.Log10(0.85 * 8e3 / 4e6)), cause.LevelDbm!.Value, 0.05);
    }

    [Theory]
    [InlineData("image", "102.25", Verdict.Harmful)]
    [InlineData("spurious_response", "21.4", Verdict.Unknown)]
    public void Response_appears_alone(string word, string megahertz, Verdict verdict)
    {
        // 145.05 MHz less twice 21.4 MHz is 102.25 MHz; the intermediate frequency itself passes by what the mixer's balance is not known to hold back.
        OtherCause cause = Only(
            word,
            "superhet: { first_if: 21.4 MHz, injection: low }, selectivity: [0 dB at 145 MHz]",
            $"  - {{ name: a, frequency: {megahertz} MHz, emission: 11K2F3E, level: -60 dBm }}");
        Assert.Equal(verdict, cause.Verdict);
        Assert.Equal(verdict == Verdict.Unknown, cause.Missing.Count > 0);
    }

    [Fact]
    public void Half_if_appears_alone()
    {
        OtherCause cause = Only(
            "half_if",
            "superhet: { first_if: 21.4 MHz, injection: low }, selectivity: [0 dB at 145 MHz]",
            "  - { name: a, frequency: 134.35 MHz, bandwidth: 0 kHz, level: -30 dBm }",
            "iip2: 40 dBm, iip3: 100 dBm");

        // p = q = 2: 2(-30) - 40 - 20 lg 1 (the second harmonic is 6.02 dB under the mixture of two, C_ref(2) = 2) - 6.02.
        Assert.Equal(-60 - 40 - 6.02 - 6.02, cause.LevelDbm!.Value, 0.05);
    }

    [Fact]
    public void Harmonic_appears_alone()
    {
        OtherCause cause = Only("harmonic", "", "  - { name: a, frequency: 72.525 MHz, bandwidth: 0 kHz, level: -30 dBm, harmonics: [-70 dBc at 2] }", floor: "-100 dBm");
        Assert.Equal(-100, cause.LevelDbm!.Value, 0.01);
    }

    [Fact]
    public void Reciprocal_mixing_appears_alone()
    {
        OtherCause cause = Only("reciprocal_mixing", "lo_noise: -140 dBc/Hz at 1 MHz", "  - { name: a, frequency: 147 MHz, emission: 11K2F3E, level: -20 dBm }");

        // The figure of physics: -20 dBm, -140 dBc/Hz, 8 kHz make -120.97 dBm.
        Assert.Equal(-120.97, cause.LevelDbm!.Value, 0.01);
    }

    [Fact]
    public void Product_on_a_response_appears_alone()
    {
        const string emitters = """
              - { name: a, frequency: 103.25 MHz, bandwidth: 0 kHz, level: -20 dBm }
              - { name: b, frequency: 104.25 MHz, bandwidth: 0 kHz, level: -20 dBm }
            """;
        ReceiverFindings receiver = Study(
            "superhet: { first_if: 21.4 MHz, injection: low }, selectivity: [0 dB at 145 MHz]", emitters, "iip2: 150 dBm, iip3: 10 dBm, iip5: 100 dBm, iip7: 100 dBm");
        OtherCause cause = Assert.Single(receiver.OtherCauses, static c => c.Verdict != Verdict.Unknown);
        Assert.Equal("product_on_response", cause.Cause);

        // 2a - b = 102.25 MHz, the image: 3(-20) - 2(10).
        Assert.Equal(-80, cause.LevelDbm!.Value, 0.05);
    }

    [Fact]
    public void Receiver_product_appears_alone_and_outside_is_one_line()
    {
        const string emitters = """
              - { name: a, frequency: 158.3 MHz, bandwidth: 0 kHz, level: -30 dBm }
              - { name: b, frequency: 171.55 MHz, bandwidth: 0 kHz, level: -30 dBm }
            """;
        ReceiverFindings receiver = Study("", emitters, "iip2: 150 dBm, iip3: 0 dBm, iip5: 100 dBm, iip7: 100 dBm");
        ProductFinding product = Assert.Single(receiver.Products);
        Assert.Equal((Mechanism.Receiver, "input"), (product.Mechanism, product.MadeIn));

        // 2a - b: 3(-30) - 2(0).
        Assert.Equal(-90, product.LevelDbm!.Value, 0.01);
        Assert.Equal("outside", Assert.Single(receiver.OtherCauses).Cause);
    }

    /// <summary>Every kind of cause has a test above in which it stands alone: a new kind without one fails here.</summary>
    [Fact]
    public void Every_kind_of_cause_has_been_seen_alone() => Assert.Equal(
        ["blocking", "cross_modulation", "direct", "half_if", "harmonic", "image", "outside", "product_on_response", "reciprocal_mixing", "spurious_response", "transmitter_noise"],
        Enum.GetValues<Mixing.Causes.CauseKind>().Select(Mixing.Causes.CauseKinds.Word).Order(StringComparer.Ordinal));

    [Fact]
    public void Transmitter_product_appears_alone_and_outside_is_one_line()
    {
        ReceiverFindings receiver = Study("", Transmitters);
        ProductFinding product = Assert.Single(receiver.Products);
        Assert.Equal((Mechanism.Transmitter, "a"), (product.Mechanism, product.MadeIn));
        Assert.Equal(-84.02, product.LevelDbm!.Value, 0.01);
        OtherCause outside = Assert.Single(receiver.OtherCauses);
        Assert.Equal("outside", outside.Cause);
        Assert.Equal(Verdict.Unknown, outside.Verdict);
    }

    [Theory]
    [InlineData(", power: 2 W", "")]
    [InlineData(", power: 5 W", "output power of b")]
    [InlineData(", turn_round_loss: 12 dB", "turn-round loss of a")]
    [InlineData(", coupling: { b: 45 dB }", "how strongly the other transmitters arrive")]
    public void Transmitter_product_without_an_input_is_said_once(string left, string says)
    {
        ReceiverFindings receiver = Study("", Transmitters.Replace(left, "", StringComparison.Ordinal));
        Assert.Empty(receiver.Products);
        Assert.Contains(receiver.NotComputed, n => n.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void Keys_of_other_causes_are_all_used()
    {
        Assert.DoesNotContain(StudyResultOf("blocking: 84 dB, lo_noise: -140 dBc/Hz at 1 MHz", Transmitters).KeysNotUsedYet, static k => k.StartsWith("emitters.", StringComparison.Ordinal));
    }

    private const string Transmitters = """
          - { name: a, frequency: 158.3 MHz, bandwidth: 0 kHz, power: 2 W, level: -31 dBm, turn_round_loss: 12 dB, coupling: { b: 45 dB } }
          - { name: b, frequency: 171.55 MHz, bandwidth: 0 kHz, power: 5 W, level: -33 dBm }
        """;

    private static OtherCause Only(string cause, string keys, string emitters, string intercepts = Linear, string? floor = null)
    {
        ReceiverFindings receiver = Study(keys, emitters, intercepts, floor);
        Assert.Empty(receiver.Products);
        OtherCause only = Assert.Single(receiver.OtherCauses);
        Assert.Equal(cause, only.Cause);
        return only;
    }

    private static ReceiverFindings Study(string keys, string emitters, string intercepts = Linear, string? floor = null) =>
        StudyResultOf(keys, emitters, intercepts, floor).Receivers.Single();

    private static StudyResult StudyResultOf(string keys, string emitters, string intercepts = Linear, string? floor = null)
    {
        string text = $$"""
            spurless: 1
            site: invented
            receivers:
              - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, if_bandwidth: 8 kHz, noise_figure: 6 dB, {{intercepts}}{{(keys.Length > 0 ? ", " + keys : "")}} }
            emitters:

            """ + emitters + "\n" + (floor is null ? "" : $"search: {{ floor: {floor} }}\n");
        LoadedSite? site = SiteLoader.Load(text, "invented.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions());
    }
}
