using System.Globalization;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Receivers;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Documents;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Receivers;

/// <summary>
/// A receiver's readings in words, by chance: the sentences hold the answer's figures and promise nothing that was not read.
/// </summary>
public sealed class ReceiverWordsTests
{
    private static readonly Gen<ReceiverAnswer> _answer =
        from sensitivity in Gen.Double[-125, -105].Nullable(0.2)
        from close in Gen.Select(Gen.Double[-50, -25], Gen.Double[-120, -90]).Array[0, 2]
        from far in Gen.Select(Gen.Double[-40, -20], Gen.Double[-120, -90]).Array[0, 1]
        from response in Gen.Double[-60, -20].Nullable(0.5)
        from blocking in Gen.Double[-40, -10].Nullable(0.5)
        from bandwidth in Gen.Bool
        select Ask(sensitivity, close, far, response, blocking, bandwidth);

    [Fact]
    public void Conclusion_of_any_readings_gives_the_answers_figures_or_says_what_is_not_known() => _answer.Sample(
        static answer =>
        {
            string says = ReceiverWords.Conclusion(answer, Typography.Plain);
            WrittenText.Figures(says);
            WrittenText.Agree(says);
            if (answer.Document.Measured.Count == 0)
            {
                Assert.StartsWith("Nothing was measured yet", says, StringComparison.Ordinal);
                return;
            }

            Assert.Equal(answer.Noise is null, says.Contains("The noise is not known", StringComparison.Ordinal));
            if (answer.Noise is { } noise)
            {
                Assert.StartsWith($"The noise floor is {Figures.Db(noise.Value, Typography.Plain)} dBm", says, StringComparison.Ordinal);
            }

            InterceptFinding[] third = [.. answer.Intercepts.Where(static i => i.Order == 3)];
            Assert.Equal(third.Length == 0, says.Contains("The third-order intercept is not known.", StringComparison.Ordinal));

            // Tones far off alone do not promise for close ones.
            Assert.Equal(
                third.Length > 0 && third.OrderBy(static i => i.Figure.Value).First() is { CloseTones: false },
                says.Contains("closer tones may find a lower one", StringComparison.Ordinal));
            Assert.Equal(answer.Warnings.Count > 0, says.Contains("not fit: see below", StringComparison.Ordinal));
        },
        iter: 60);

    [Fact]
    public void Rows_hold_each_figure_once_with_its_sigma_and_what_it_comes_from() => _answer.Sample(
        static answer =>
        {
            IReadOnlyList<ReceiverRow> rows = ReceiverRow.Of(answer, Typography.Plain);
            Assert.Equal(
                (answer.Noise is null ? 0 : 3) + answer.Intercepts.Count + answer.Losses.Count + answer.Responses.Count
                    + answer.Blockings.Count,
                rows.Count);
            foreach (ReceiverRow row in rows)
            {
                Assert.Equal(row.Figure is null, row.Value == "not known");
                if (row.Figure is { } figure)
                {
                    Assert.Equal(figure.Value, double.Parse(row.Value.Split(' ')[0], CultureInfo.InvariantCulture), 0.0501);
                    Assert.EndsWith(" " + row.Unit, row.Value, StringComparison.Ordinal);
                }

                Assert.All(row.From, static f => Assert.Matches(@"\(line \d+\)", f));
                Assert.Equal(row.Quantity is "rejection" or "blocking", row.FrequencyHz > 0);
                Assert.Equal(row.Quantity is "intercept" or "front_end_loss", row.Order > 0);
            }

            // A ratio needs a sensitivity: without one it is not known, and no figure stands for it.
            Assert.All(rows.Where(static r => r.Quantity is "rejection" or "blocking"), r =>
                Assert.Equal(answer.Sensitivity is null, r.Figure is null));
        },
        iter: 60);

    [Fact]
    public void Steps_of_the_bench_begin_where_the_mixture_is_still_far_under_the_noise() => _answer.Sample(
        static answer =>
        {
            IReadOnlyList<string> steps = ReceiverSheet.Steps(answer, Typography.Plain);
            Assert.All(steps, static s => WrittenText.Figures(s));
            string from = steps[1].Split("both from ")[1].Split(" dBm")[0];
            double start = double.Parse(from, CultureInfo.InvariantCulture);

            // Two tones of P make a mixture of 3 P - 2 IIP3 (the law of third order); 30 dB under the noise or more.
            double noise = answer.Noise?.Value ?? -127;
            double intercept = answer.Intercepts.Where(static i => i.Order == 3).Select(static i => i.Figure.Value)
                .DefaultIfEmpty(-10).Min();
            Assert.True((3 * start) - (2 * intercept) <= noise - 30 + 1e-6, $"{start} dBm are too much for {intercept} dBm");
            Assert.Contains("145.1 and 145.15 MHz", steps[1], StringComparison.Ordinal);
        },
        iter: 60);

    [Fact]
    public void Warning_of_a_mixture_beside_the_passband_says_how_far_in_kilohertz()
    {
        ReceiverAnswer answer = Ask(-117, [(-40, -100)], [], null, null, false);
        ReceiverWarning warning = new(ReceiverWarningKind.BesideThePassband)
        {
            Entry = answer.Document.Measured[0],
            FrequencyHz = 12_500,
        };
        Assert.Contains("lands +12.5 kHz from the channel's centre", ReceiverWarningWords.Of(warning, Typography.Plain),
            StringComparison.Ordinal);
        Assert.Contains("lands \u221212.5 kHz from", ReceiverWarningWords.Of(warning with { FrequencyHz = -12_500 }, Typography.Fine),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Every_warning_is_a_sentence_with_its_figures_and_their_units()
    {
        ReceiverAnswer answer = Ask(-117, [(-40, -100)], [], null, null, false);
        foreach (ReceiverWarningKind kind in Enum.GetValues<ReceiverWarningKind>())
        {
            string says = ReceiverWarningWords.Of(
                new ReceiverWarning(kind)
                {
                    Entry = answer.Document.Measured[0],
                    Other = answer.Document.Measured[^1],
                    Order = 3,
                    Value = -12.34,
                    Against = 5.6,
                    FrequencyHz = 145_062_500,
                    Name = "the amplifier",
                },
                Typography.Plain);
            WrittenText.Figures(says);
            Assert.DoesNotMatch(@"\.$", says);

            // A figure with a decimal that stands alone is of no unit.
            Assert.DoesNotMatch(@"(?<![\w.])-?\d+\.\d(?! (dBm?|MHz|kHz)\b|\d| to | and )(?!\s*dB)", says);
        }
    }

    [Fact]
    public void Gaps_say_which_reading_would_fill_them_on_frequencies_that_make_the_channel()
    {
        ReceiverAnswer answer = Ask(null, [], [], null, null, false);
        long channel = answer.Document.Frequency.Hertz;
        (ReceiverGap Gap, int[] Coefficients)[] pairs =
        [
            (ReceiverGap.ThirdOrder, [2, -1]), (ReceiverGap.CloseTones, [2, -1]), (ReceiverGap.SecondOrder, [1, -1]),
            (ReceiverGap.FifthOrder, [3, -2]),
        ];
        foreach ((ReceiverGap gap, int[] k) in pairs)
        {
            string says = ReceiverWarningWords.Of(gap, answer.Document);
            double[] tones = [.. says.Split('[')[1].Split(']')[0].Split(", ").Select(static t =>
                double.Parse(t.Replace(" MHz", "", StringComparison.Ordinal), CultureInfo.InvariantCulture))];
            Assert.Equal(channel, Math.Round(1e6 * ((k[0] * tones[0]) + (k[1] * tones[1]))));
        }
    }

    [Theory]
    [InlineData("iip3", null, "-2.8 dBm", "iip3: -2.8 dBm")]
    [InlineData("iip3", "-8 dBm", "-2.8 dBm", "iip3: -2.8 dBm, where -8 dBm stood")]
    [InlineData("iip3", "-8 dBm", "-8 dBm", "iip3: -8 dBm stood there already")]
    [InlineData("blocking", "80 dB", null, "blocking: 80 dB was taken out, iip3 stands in its place")]
    public void Written_says_what_was_and_what_is(string key, string? was, string? now, string says) =>
        Assert.Equal(says, ReceiverWriter.Written(new SiteFigure(key, was, now, null, null)));

    private static ReceiverAnswer Ask(
        double? sensitivity, (double Level, double Product)[] close, (double Level, double Product)[] far, double? response,
        double? blocking, bool bandwidth)
    {
        List<string> measured = [];
        if (sensitivity is { } dbm)
        {
            measured.Add(FormattableString.Invariant($"{{ sensitivity: {{ level: {dbm:0.0} dBm }} }}"));
        }

        measured.AddRange(close.Select(static c => FormattableString.Invariant(
            $"{{ two_tone: {{ order: 3, tones: [145.1 MHz, 145.15 MHz], level: {c.Level:0.0} dBm, product: {c.Product:0.0} dBm }} }}")));
        measured.AddRange(far.Select(static c => FormattableString.Invariant(
            $"{{ two_tone: {{ order: 3, tones: [160.525 MHz, 176 MHz], level: {c.Level:0.0} dBm, product: {c.Product:0.0} dBm }} }}")));
        if (response is { } image)
        {
            measured.Add(FormattableString.Invariant($"{{ response: {{ at: 102.25 MHz, level: {image:0.0} dBm }} }}"));
        }

        if (blocking is { } strong)
        {
            measured.Add(FormattableString.Invariant($"{{ blocking: {{ at: 146.05 MHz, level: {strong:0.0} dBm }} }}"));
        }

        string text = "spurless_receiver: 1\nname: bench\nfrequency: 145.05 MHz\nchannel: 12.5 kHz\n"
            + (bandwidth ? "if_bandwidth: 8 kHz\n" : "")
            + (measured.Count == 0 ? "" : "measured:\n" + string.Concat(measured.Select(static m => $"  - {m}\n")));
        DiagnosticBag bag = new();
        string path = DemoSites.PathOf("quernmoss.receiver.yaml");
        LoadedMeasurements? loaded = SourceReader.Measurements(SourceFile.OfText(path, text, new SiteFolder(path)), bag);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return ReceiverService.Ask(new ReceiverQuestion { Measurements = loaded });
    }
}
