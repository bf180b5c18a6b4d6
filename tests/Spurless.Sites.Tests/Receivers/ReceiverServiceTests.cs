using System.Globalization;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Noise;
using Spurless.Sites.Receivers;

namespace Spurless.Sites.Tests.Receivers;

public sealed class ReceiverServiceTests
{
    private const string Sensitivity = "  - sensitivity: { level: -119 dBm }\n";
    private const string Close = "  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm }\n";
    private const string Far = "  - two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], level: -30 dBm, product: -94 dBm }\n";

    // By hand: N = -119 - 7.5; NF = N + 173.975 - 10 lg 8000; IIP3 = (3 x -44 - N)/2, sigma sqrt(3^2 + 1)/2; 102.25 MHz: -41 + 119;
    // blocking -29 + 119, each sigma sqrt(2).
    [Fact]
    public void Ask_the_formats_own_example_gives_the_figures_by_hand()
    {
        ReceiverAnswer answer = Bench.Ask(Sensitivity + Close
            + "  - response: { at: 102.25 MHz, level: -41 dBm }\n  - blocking: { at: 146.05 MHz, level: -29 dBm }\n");
        Assert.Equal(-126.5, answer.Noise!.Value, 9);
        Assert.Equal(-126.5 + 173.975 - (10 * Math.Log10(8000)), answer.NoiseFigure!.Value, 3);
        InterceptFinding iip3 = Assert.Single(answer.Intercepts);
        Assert.Equal((3, true), (iip3.Order, iip3.CloseTones));
        Assert.Equal(-2.75, iip3.Figure.Value, 9);
        Assert.Equal(Math.Sqrt(10) / 2, iip3.Figure.SigmaDb, 9);
        Assert.Equal(78, answer.Responses[0].Ratio!.Value, 9);
        Assert.Equal(90, answer.Blocking!.Ratio!.Value, 9);
        Assert.Equal(Math.Sqrt(2), answer.Blocking.Ratio.SigmaDb, 9);
        Assert.Empty(answer.Warnings);
        Assert.Equal([ReceiverGap.SecondOrder, ReceiverGap.FifthOrder, ReceiverGap.FrontEnd], answer.Unknown);
    }

    // Microvolts across 50 ohm and of the open source: docs/checks.md 1.6 (computed there); 7.5 dB down and over kTB in 8 kHz by hand.
    [Theory]
    [InlineData("0.25 uV pd", -119.03)]
    [InlineData("0.5 uV emf", -119.03)]
    [InlineData("0.22 uV pd", -120.14)]
    public void Ask_sensitivity_in_microvolts_is_that_of_the_table(string level, double dbm)
    {
        ReceiverAnswer answer = Bench.Ask($"  - sensitivity: {{ level: {level} }}\n");
        Assert.Equal(dbm, answer.Sensitivity!.Value, 0.006);
        Assert.Equal(dbm - 7.5 + 134.944, answer.NoiseFigure!.Value, 0.007);
    }

    // (3 x -30 + 94)/2 = 2 dBm, 4.75 dB over the close pair's: 2 (2 + 2.75) = 9.5 dB together, a third of it each on average.
    [Fact]
    public void Ask_far_tones_beside_a_close_pair_tell_what_the_front_end_takes()
    {
        ReceiverAnswer answer = Bench.Ask(Sensitivity + Close + Far);
        Assert.Equal(-2.75, Assert.Single(answer.Intercepts).Figure.Value, 9);
        TonesLoss loss = Assert.Single(answer.Losses);
        Assert.Equal(9.5, loss.Together.Value, 9);
        Assert.Equal(9.5 / 3, loss.Mean.Value, 9);
    }

    [Fact]
    public void Ask_far_tones_alone_hold_for_their_own_frequencies()
    {
        ReceiverAnswer answer = Bench.Ask(Sensitivity + Far);
        InterceptFinding found = Assert.Single(answer.Intercepts);
        Assert.Equal((2.0, false), (found.Figure.Value, found.CloseTones));
        Assert.Contains(ReceiverGap.CloseTones, answer.Unknown);
    }

    // Losses over the channel's of 6 and 14 dB: (2 (-30 - 6) + (-30 - 14) + 94)/2 = -11 dBm; sigmas of two losses added.
    [Fact]
    public void Ask_front_end_takes_its_loss_over_the_channel_out()
    {
        ReceiverAnswer answer = Bench.Ask(
            Sensitivity + Far + "  - front_end: front-end.s2p\n    plus_minus: 0.5 dB\n", ("front-end.s2p", Bench.FrontEnd));
        InterceptFinding found = Assert.Single(answer.Intercepts);
        Assert.True(found.CloseTones);
        Assert.Equal(-11, found.Figure.Value, 1e-6);
        Assert.Equal(Math.Sqrt(9 + 1 + (4 * 0.25) + 0.25) / 2, found.Figure.SigmaDb, 1e-6);
    }

    [Fact]
    public void Ask_front_end_that_does_not_reach_a_tone_says_so_and_corrects_nothing()
    {
        string upTo170 = string.Join('\n', Bench.FrontEnd.Split('\n')[..^2]);
        ReceiverAnswer answer = Bench.Ask(Sensitivity + Far + "  - front_end: front-end.s2p\n", ("front-end.s2p", upTo170));
        Assert.False(Assert.Single(answer.Intercepts).CloseTones);
        ReceiverWarning warning = Assert.Single(answer.Warnings);
        Assert.Equal((ReceiverWarningKind.FrontEndEnds, 176_000_000L), (warning.Kind, warning.FrequencyHz));
    }

    [Fact]
    public void Ask_second_order_tones_each_pair_stands_for_itself()
    {
        ReceiverAnswer answer = Bench.Ask(Sensitivity
            + "  - two_tone: { order: 2, tones: [205.05 MHz, 60 MHz], level: -49 dBm }\n"
            + "  - two_tone: { order: 2, tones: [100 MHz, 45.05 MHz], level: -40 dBm }\n");
        Assert.Equal([28.5, 46.5], answer.Intercepts.Select(static i => i.Figure.Value)); // 2 P - N
    }

    [Fact]
    public void Ask_readings_that_disagree_are_named_and_the_spread_holds_both()
    {
        ReceiverAnswer answer = Bench.Ask(Sensitivity + Close
            + "  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -37 dBm }\n");
        ReceiverWarning warning = Assert.Single(answer.Warnings);
        Assert.Equal((ReceiverWarningKind.InterceptDisagrees, 3), (warning.Kind, warning.Order));
        Assert.Equal(10.5, warning.Value, 9); // 1.5 x 7 dB
        Assert.True(answer.Intercepts[0].Figure.SigmaDb >= 10.5 / 2);
    }

    [Theory]
    [InlineData("  - sensitivity: { level: -129 dBm }\n", ReceiverWarningKind.NoiseFigureBelowZero)]
    [InlineData(Sensitivity + "  - sensitivity: { noise_figure: 16 dB }\n", ReceiverWarningKind.NoiseDisagrees)]
    [InlineData(Close, ReceiverWarningKind.NoNoise)]
    [InlineData(
        "  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -20 dBm, product: -35 dBm }\n",
        ReceiverWarningKind.TonesCompress)]
    [InlineData(
        Sensitivity + "  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -60 dBm, product: -160 dBm }\n",
        ReceiverWarningKind.ProductUnderNoise)]
    [InlineData(
        Sensitivity + "  - two_tone: { order: 3, tones: [145.105 MHz, 145.155 MHz], level: -44 dBm }\n",
        ReceiverWarningKind.BesideThePassband)]
    [InlineData(Sensitivity + "  - response: { at: 102.25 MHz, level: -120 dBm }\n", ReceiverWarningKind.UnderSensitivity)]
    [InlineData(
        Sensitivity + Close + "  - two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], level: -50 dBm, product: -94 dBm }\n",
        ReceiverWarningKind.FrontEndAmplifies)]
    public void Ask_warns_of_what_does_not_fit(string measured, ReceiverWarningKind kind) =>
        Assert.Contains(Bench.Ask(measured).Warnings, w => w.Kind == kind);

    [Fact]
    public void Ask_nothing_measured_says_all_that_is_unknown()
    {
        ReceiverAnswer answer = Bench.Ask("  []\n");
        Assert.Null(answer.Noise);
        Assert.Equal(
            [
                ReceiverGap.Noise, ReceiverGap.ThirdOrder, ReceiverGap.SecondOrder, ReceiverGap.FifthOrder, ReceiverGap.FrontEnd,
                ReceiverGap.Responses, ReceiverGap.Blocking,
            ],
            answer.Unknown);
    }

    // A closed loop without noise: readings made from known figures by the laws as they stand in the order, not by the service's code.
    [Fact]
    public void Ask_readings_of_a_known_receiver_give_it_back() => Gen.Select(
        Gen.Double[1, 15], Gen.Double[-25, 10], Gen.Double[0, 50], Gen.Double[-20, 10], Gen.Double[40, 110]).Sample(
        (figure, iip3, iip2, iip5, rejection) =>
        {
            double noise = ThermalNoise.FloorDbm(8_000, figure), s = noise + 7.5;
            ReceiverAnswer answer = Bench.Ask(
                $"  - sensitivity: {{ level: {F(s)} dBm }}\n"
                + $"  - two_tone: {{ order: 3, tones: [145.1 MHz, 145.15 MHz], level: {F(((2 * iip3) + noise) / 3)} dBm }}\n"
                + $"  - two_tone: {{ order: 2, tones: [205.05 MHz, 60 MHz], level: {F((iip2 + noise) / 2)} dBm }}\n"
                + $"  - two_tone: {{ order: 5, tones: [145.15 MHz, 145.2 MHz], level: {F(((4 * iip5) + noise) / 5)} dBm }}\n"
                + $"  - response: {{ at: 102.25 MHz, level: {F(s + rejection)} dBm }}\n");
            Assert.Equal(figure, answer.NoiseFigure!.Value, 1e-5);
            Assert.Equal([iip2, iip3, iip5], answer.Intercepts.Select(static i => i.Figure.Value), (a, b) => Math.Abs(a - b) < 1e-5);
            Assert.Equal(rejection, answer.Responses[0].Ratio!.Value, 1e-5);
        },
        iter: 200);

    // 500 benches with readings off by their sigmas: what stands after +- holds the truth as often as two sigma say. The seed is fixed; of
    // 500 at 95.4 % the share strays by 0.9 %.
    [Fact]
    public void Ask_noisy_readings_hold_the_truth_as_often_as_their_sigma_says()
    {
        Random random = new(20_261_129);
        double Gauss() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        const double Noise = -127, Iip3 = -4;
        int held = 0, warned = 0;
        for (int i = 0; i < 500; i++)
        {
            string tones = string.Concat(Enumerable.Range(0, 3).Select(_ =>
                $"  - two_tone: {{ order: 3, tones: [145.1 MHz, 145.15 MHz], level: {F((((2 * Iip3) + Noise) / 3) + Gauss())} dBm }}\n"));
            double tone = -40 + (0.5 * Gauss());
            ReceiverAnswer answer = Bench.Ask(
                $"  - sensitivity: {{ level: {F(Noise + 7.5 + Gauss())} dBm }}\n" + tones
                + $"  - two_tone: {{ order: 3, tones: [145.1 MHz, 145.15 MHz], level: {F(tone)} dBm, product: "
                + $"{F(-120 - (2 * Iip3) + (0.5 * Gauss()))} dBm, plus_minus: 0.5 dB }}\n");
            InterceptFinding found = Assert.Single(answer.Intercepts);
            held += Math.Abs(found.Figure.Value - Iip3) <= 2 * found.Figure.SigmaDb ? 1 : 0;
            warned += answer.Warnings.Count > 0 ? 1 : 0;
        }

        Assert.InRange(held / 500.0, 0.90, 0.98);
        Assert.InRange(warned / 500.0, 0, 0.05); // six pairs at 0.27 % each
    }

    [Fact]
    public void Measurements_of_another_kind_of_file_are_refused()
    {
        DiagnosticBag bag = new();
        Assert.Null(Sites.Sources.SourceReader.Measurements(
            Sites.Sources.SourceFile.OfText("a.site.yaml", "spurless: 1\n", new Documents.StubFiles()), bag));
        Assert.Contains("spurless new receiver", bag.InOrder()[0].Remedy, StringComparison.Ordinal);
    }

    private static string F(double value) => value.ToString("0.0########", CultureInfo.InvariantCulture);
}
