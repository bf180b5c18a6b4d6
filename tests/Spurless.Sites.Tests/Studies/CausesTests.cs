using Spurless.Files.Diagnostics;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// Each mechanism alone, all others off: an ideal receiver (no intercept that matters) hears only the one that the emitters make. Levels by
/// the formulas of docs/method/other-causes.md, worked by hand.
/// </summary>
public sealed class CausesTests
{
    // 8 kHz, 6 dB: 10 lg(k 290 K) + 30 + 39.03 + 6 = -128.94 dBm.
    private const double NoiseDbm = -128.94;

    private const string Linear = "iip2: 150 dBm, iip3: 100 dBm";

    [Fact]
    public void Nothing_is_listed_for_a_quiet_linear_receiver()
    {
        ReceiverFindings receiver = Study("", "  - { name: a, frequency: 150 MHz, emission: 11K2F3E, level: -40 dBm }");
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
        OtherCause cause = Only(
            "transmitter_noise",
            "",
            "  - { name: a, frequency: 146.05 MHz, emission: 11K2F3E, level: -30 dBm, noise: -130 dBc/Hz at 1 MHz }");
        Assert.Equal(-30 - 130 + 39.03, cause.LevelDbm!.Value, 0.01);
        Assert.Equal(Verdict.Harmful, cause.Verdict);
    }

    [Fact]
    public void Adjacent_channel_appears_alone()
    {
        // 25 kHz off on a raster of 12.5 kHz, 65 dB stated there: -40 - 65 - 7.5 (CN12).
        OtherCause cause = Only(
            "adjacent_channel",
            "adjacent: [65 dB at 25 kHz]",
            "  - { name: a, frequency: 145.075 MHz, emission: 11K2F3E, level: -40 dBm }");
        Assert.Equal(-112.5, cause.LevelDbm!.Value, 0.01);
        Assert.Equal(Verdict.Harmful, cause.Verdict);
        Assert.Empty(cause.Assumed);
        // Without a figure 60 dB are taken and said.
        OtherCause assumed = Only("adjacent_channel", "", "  - { name: a, frequency: 145.075 MHz, emission: 11K2F3E, level: -40 dBm }");
        Assert.Equal(-107.5, assumed.LevelDbm!.Value, 0.01);
        Assert.Single(assumed.Assumed);
        OtherCause neighbour = Only(
            "adjacent_channel", "adjacent: 70 dB", "  - { name: a, frequency: 145.0625 MHz, emission: 11K2F3E, level: -40 dBm }");
        Assert.Equal(-117.5, neighbour.LevelDbm!.Value, 0.01);
    }

    [Fact]
    public void Usual_noise_clears_most_neighbours_and_names_those_that_could_matter()
    {
        const string emitters = """
              - { name: loud, frequency: 147 MHz, emission: 11K2F3E, level: -20 dBm }
              - { name: soft, frequency: 148 MHz, emission: 11K2F3E, level: -45 dBm }
              - { name: stated, frequency: 149 MHz, emission: 11K2F3E, level: -20 dBm, noise: -165 dBc/Hz at 4 MHz }
            """;
        OtherCause loud = Assert.Single(Study("", emitters).OtherCauses, static c => c.OnlyUsual);

        // -20 - 140 + 39.03 = -120.97: 7.98 dB over the noise at most; the soft one 17 dB under it at most.
        Assert.Equal("loud", loud.Emitter);
        Assert.Equal(Verdict.Unknown, loud.Verdict);
        Assert.Null(loud.LevelDbm);
        Assert.Equal(7.98, loud.AtMostOverNoiseDb!.Value, 0.01);
    }

    [Fact]
    public void Half_duplex_station_takes_part_in_nothing_at_its_own_receiver()
    {
        const string emitters = """
              - { name: own, frequency: 146.05 MHz, bandwidth: 0 kHz, level: -10 dBm, noise: -120 dBc/Hz at 1 MHz{0} }
              - { name: other, frequency: 147.05 MHz, bandwidth: 0 kHz, level: -30 dBm, noise: -200 dBc/Hz at 2 MHz }
            """;
        ReceiverFindings full = Study("", emitters.Replace("{0}", "", StringComparison.Ordinal), "iip2: 150 dBm, iip3: 0 dBm");
        ReceiverFindings half = Study(
            "", emitters.Replace("{0}", ", half_duplex: input", StringComparison.Ordinal), "iip2: 150 dBm, iip3: 0 dBm");

        // 2 x 146.05 - 147.05 = 145.05.
        Assert.NotEmpty(full.Products);
        Assert.Contains(full.OtherCauses, static c => c.Emitter == "own");
        Assert.Empty(half.Products);
        Assert.DoesNotContain(half.OtherCauses, static c => c.Emitter == "own");
        Assert.True(half.Carriers[0].HeldOff);
        Assert.IsType<LevelNote.HalfDuplex>(half.Carriers[0].Assumed[0]);
    }

    [Fact]
    public void Product_beyond_what_its_stage_delivers_is_capped_and_marked()
    {
        const string emitters = """
              - { name: a, frequency: 146.05 MHz, bandwidth: 0 kHz, level: -5 dBm }
              - { name: b, frequency: 147.05 MHz, bandwidth: 0 kHz, level: -5 dBm }
            """;
        ProductFinding product = Study("", emitters, "iip2: 150 dBm, iip3: -10 dBm").Products.Single(static p => p.Order == 3);

        // The law gives 3(-5) - 2(-10) = +5 dBm, more than either carrier; the compression point is at -10 - 9.64.
        Assert.Equal(-19.64, product.LevelDbm!.Value, 0.01);
        Assert.True(product.Saturated);
        Assert.False(product.Trustworthy);
        Assert.Equal(product.LevelDbm, product.Made.LevelDbm);
        // Weaker by 20 dB the law holds.
        ProductFinding weak =
            Study("", emitters.Replace("-5", "-35", StringComparison.Ordinal), "iip2: 150 dBm, iip3: -10 dBm").Products.First(
                static p => p.Order == 3);
        Assert.Equal(-85, weak.LevelDbm!.Value, 0.01);
        Assert.True(weak.Trustworthy);
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
        string loud = emitter.Replace("{0}", "-10", StringComparison.Ordinal).Replace("{{", "{", StringComparison.Ordinal).Replace(
            "}}", "}", StringComparison.Ordinal);
        string soft = loud.Replace("-10 dBm", "-60 dBm", StringComparison.Ordinal);
        Assert.Equal("blocking", Assert.Single(Study("", loud, "iip3: -5 dBm").OtherCauses, static c => !c.OnlyUsual).Cause);
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
        // 145.05 MHz less twice 21.4 MHz is 102.25 MHz; the intermediate frequency itself passes by what the mixer's balance is not known
        // to hold back.
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
        OtherCause cause = Only(
            "harmonic",
            "",
            "  - { name: a, frequency: 72.525 MHz, bandwidth: 0 kHz, level: -30 dBm, harmonics: [-70 dBc at 2] }",
            floor: "-100 dBm");
        // Its path was measured at half the frequency: bounded, not known.
        Assert.Null(cause.LevelDbm);
        Assert.Equal(-100, cause.AtMostDbm!.Value, 0.01);
        Assert.Equal(Verdict.Unknown, cause.Verdict);
    }

    [Fact]
    public void Reciprocal_mixing_appears_alone()
    {
        OtherCause cause = Only(
            "reciprocal_mixing",
            "lo_noise: -140 dBc/Hz at 1 MHz",
            "  - { name: a, frequency: 146.05 MHz, emission: 11K2F3E, level: -20 dBm }");

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
            "superhet: { first_if: 21.4 MHz, injection: low }, selectivity: [0 dB at 145 MHz]",
            emitters,
            "iip2: 150 dBm, iip3: 10 dBm, iip5: 100 dBm, iip7: 100 dBm");
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
        Assert.Equal("outside", Assert.Single(receiver.OtherCauses, static c => !c.OnlyUsual).Cause);
    }

    /// <summary>Every kind of cause has a test above in which it stands alone: a new kind without one fails here.</summary>
    [Fact]
    public void Every_kind_of_cause_has_been_seen_alone() => Assert.Equal(
        [
            "adjacent_channel", "blocking", "cross_modulation", "direct", "half_if", "harmonic", "image", "outside", "product_on_response",
            "reciprocal_mixing", "spurious_response", "transmitter_noise",
        ],
        Enum.GetValues<Mixing.Causes.CauseKind>().Select(Mixing.Causes.CauseKinds.Word).Order(StringComparer.Ordinal));

    [Fact]
    public void Transmitter_product_appears_alone_and_outside_is_one_line()
    {
        ReceiverFindings receiver = Study("", Transmitters);
        ProductFinding product = Assert.Single(receiver.Products);
        Assert.Equal((Mechanism.Transmitter, "a"), (product.Mechanism, product.MadeIn));
        Assert.Equal(-84.02, product.LevelDbm!.Value, 0.01);
        OtherCause outside = Assert.Single(receiver.OtherCauses, static c => !c.OnlyUsual);
        Assert.Equal("outside", outside.Cause);
        Assert.Equal(Verdict.Unknown, outside.Verdict);
    }

    [Theory]
    [InlineData(", power: 2 W", NotComputedKind.PowersAndCouplings, "a", "")]
    [InlineData(", power: 5 W", NotComputedKind.OutputPowers, "a", "b")]
    [InlineData(", turn_round_loss: 12 dB", NotComputedKind.TurnRoundLoss, "a", "")]
    [InlineData(", coupling: { b: 45 dB }", NotComputedKind.Couplings, "a", "")]
    public void Transmitter_product_without_an_input_is_said_once(string left, NotComputedKind kind, string transmitter, string other)
    {
        ReceiverFindings receiver = Study("", Transmitters.Replace(left, "", StringComparison.Ordinal));
        Assert.Empty(receiver.Products);
        NotComputed gap = Assert.Single(receiver.NotComputed, n => n.Kind == kind);
        Assert.Contains(transmitter, gap.Transmitters);
        Assert.Equal(other, string.Join(' ', gap.Others));
    }

    [Fact]
    public void Turn_round_loss_that_is_not_stated_is_bounded_by_what_is_usual()
    {
        // With 12 dB the product stands at -84.02 dBm, 44.92 dB over the noise; usual stations have 6 dB at least, so 50.92 at most.
        string text = Transmitters.Replace(", turn_round_loss: 12 dB", "", StringComparison.Ordinal);
        NotComputed gap = Assert.Single(Study("", text).NotComputed, static n => n.Kind == NotComputedKind.TurnRoundLoss);
        Assert.Equal(50.92, Assert.Single(gap.AtMostOverNoiseDb)!.Value, 0.01);
        // 65 dB more coupling loss: 14.08 dB under the noise at most. It is no gap.
        Assert.DoesNotContain(
            Study("", text.Replace("b: 45 dB", "b: 110 dB", StringComparison.Ordinal)).NotComputed, static n =>
                n.Kind == NotComputedKind.TurnRoundLoss);
    }

    [Fact]
    public void One_emitter_more_in_a_mixture_is_looked_for_cheaply()
    {
        // a + b - c - d = 158.3 + 160.1 - 171.55 - 1.8 = 145.05 MHz, of order 4; nothing of three of them lands there.
        const string emitters = """
              - { name: a, frequency: 158.3 MHz, bandwidth: 0 kHz, level: -20 dBm }
              - { name: b, frequency: 160.1 MHz, bandwidth: 0 kHz, level: -20 dBm }
              - { name: c, frequency: 171.55 MHz, bandwidth: 0 kHz, level: -20 dBm }
              - { name: d, frequency: 1.8 MHz, bandwidth: 0 kHz, level: -20 dBm }
            """;
        const string intercepts = "iip2: 150 dBm, iip3: 100 dBm, iip4: 10 dBm, iip5: 100 dBm";
        ReceiverFindings receiver = Study("", emitters, intercepts);
        Assert.Empty(receiver.Products);
        SearchLimits limits = receiver.Limits!;
        Assert.Equal(((2, 7), 3, false), (limits.Orders, limits.Signals, limits.SelectivityStated));

        // 4(-20) - 3(10) + 20 lg(24/6) = -97.96 dBm, over -128.94.
        Assert.Equal((4, 5, 1L), (limits.More!.Signals, limits.More.HighestOrder, limits.More.Harmful));
        Assert.Equal(30.98, limits.More.WorstOverNoiseDb!.Value, 0.01);
        // Weaker carriers: the same mixture, but not harmful.
        Assert.Equal(0, Study("", emitters.Replace("-20 dBm", "-40 dBm", StringComparison.Ordinal), intercepts).Limits!.More!.Harmful);
    }

    [Fact]
    public void Keys_of_other_causes_are_all_used()
    {
        Assert.DoesNotContain(
            StudyResultOf("blocking: 84 dB, lo_noise: -140 dBc/Hz at 1 MHz", Transmitters).KeysNotUsedYet,
            static k => k.StartsWith("emitters.", StringComparison.Ordinal));
    }

    private const string Transmitters = """
          - { name: a, frequency: 158.3 MHz, bandwidth: 0 kHz, power: 2 W, level: -31 dBm, turn_round_loss: 12 dB, coupling: { b: 45 dB } }
          - { name: b, frequency: 171.55 MHz, bandwidth: 0 kHz, power: 5 W, level: -33 dBm }
        """;

    private static OtherCause Only(string cause, string keys, string emitters, string intercepts = Linear, string? floor = null)
    {
        ReceiverFindings receiver = Study(keys, emitters, intercepts, floor);
        Assert.Empty(receiver.Products);
        OtherCause only = Assert.Single(receiver.OtherCauses, static c => !c.OnlyUsual);
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
              - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, if_bandwidth: 8 kHz, noise_figure: 6 dB,
                  {{intercepts}}{{(keys.Length > 0 ? ", " + keys : "")}} }
            emitters:

            """ + emitters + "\n" + (floor is null ? "" : $"search: {{ floor: {floor} }}\n");
        LoadedSite? site = SiteLoader.Load(text, "invented.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions());
    }
}
