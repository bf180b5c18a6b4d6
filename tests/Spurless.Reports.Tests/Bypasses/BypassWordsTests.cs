using System.Globalization;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bypasses;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bypasses;

/// <summary>What a relay does in words: figures with their prefix, trials as they came out, advice only where something chatters.</summary>
public sealed class BypassWordsTests
{
    private static readonly BypassAnswer _demo = Ask();

    [Fact]
    public void Si_of_any_figure_reads_back_to_three_figures() => Gen.Select(
        Gen.OneOf<double>(Gen.Double[-11.9, 2.9], Gen.OneOf(-0.0002, -3.0001, -6.00001)), Gen.OneOf("W", "V", "A", "s", "J", "F"),
        Gen.Bool).Sample(static (power, unit, negative) =>
        {
            double value = (negative ? -1 : 1) * Math.Pow(10, power);
            string text = BypassWords.Si(value, unit);
            Assert.EndsWith(unit, text, StringComparison.Ordinal);
            Assert.Equal(value, Read(text, unit), 0.00501 * Math.Abs(value));

            // Three digits at the most, and none before the point that a prefix would take.
            string digits = text.Split(' ')[0].TrimStart('-');
            Assert.InRange(digits.Count(char.IsAsciiDigit), 1, 3);
            Assert.True(Math.Abs(double.Parse(digits, CultureInfo.InvariantCulture)) < 1000, text);
        });

    [Theory]
    [InlineData(0.9996, "W", "1 W")]
    [InlineData(999.6, "W", "1 kW")]
    [InlineData(999.4, "W", "999 W")]
    [InlineData(9.996e-4, "s", "1 ms")]
    [InlineData(1234, "W", "1.23 kW")]
    [InlineData(1234, "V", "1234 V")]
    [InlineData(0.0236, "W", "23.6 mW")]
    public void Si_what_rounds_to_a_thousand_is_one_of_the_next_prefix(double value, string unit, string text) =>
        Assert.Equal(text, BypassWords.Si(value, unit));

    [Fact]
    public void SiOr_of_what_is_not_known_is_a_dash()
    {
        Assert.Equal("-", BypassWords.SiOr(null, "s"));
        Assert.Equal("-", BypassWords.SiOr(double.NaN, "s"));
        Assert.Equal("-", BypassWords.SiOr(double.PositiveInfinity, "s"));
    }

    [Fact]
    public void Chatter_names_the_powers_at_which_it_was_seen_and_no_others() => Gen.Select(
        Gen.OneOf(1.0, 5, 10, 25, 50), Gen.Bool).Array[1, 5].Sample(static tried =>
        {
            KeyingTrial[] trials = [.. tried.Select(static t => Trial(KeyingKind.TwoTones, t.Item1, t.Item2 ? 3 : 0))];
            string? says = BypassWords.Chatter(_demo with { Trials = trials });
            double[] bad = [.. tried.Where(static t => t.Item2).Select(static t => t.Item1)];
            if (bad.Length == 0)
            {
                Assert.Null(says);
                return;
            }

            Assert.StartsWith("single sideband ", says, StringComparison.Ordinal);
            Assert.Contains(BypassWords.Si(bad.Max(), "W"), says, StringComparison.Ordinal);

            // At low level only where a stronger one held.
            Assert.Equal(tried.Max(static t => t.Item1) > bad.Max(), says!.Contains("at low level", StringComparison.Ordinal));
        });

    [Fact]
    public void Chatter_of_a_keyed_carrier_is_said_beside_speech_or_alone()
    {
        KeyingTrial morse = Trial(KeyingKind.Morse, 50, 4);
        Assert.Equal("A keyed carrier makes it chatter", BypassWords.Chatter(_demo with { Trials = [morse] }));
        Assert.EndsWith(
            ", and so does a keyed carrier",
            BypassWords.Chatter(_demo with { Trials = [morse, Trial(KeyingKind.TwoTones, 50, 2)] }),
            StringComparison.Ordinal);
        Assert.Null(BypassWords.Chatter(_demo with { Trials = [] }));
    }

    [Fact]
    public void Advice_is_given_only_where_something_goes_back_and_ends_with_the_key_line()
    {
        Assert.Empty(BypassAdvice.Of(_demo with { Trials = [Trial(KeyingKind.TwoTones, 50, 0)], Steadier = null }));
        IReadOnlyList<string> advice = BypassAdvice.Of(_demo with
        {
            Trials =
            [
                Trial(KeyingKind.TwoTones, 10, 2) with { LeastHangS = 0.012 },
                Trial(KeyingKind.Morse, 50, 1) with { LeastHangS = 0.4 },
            ],
            Steadier = null,
        });
        Assert.StartsWith("a hang of 12 ms or more bridges", advice[0], StringComparison.Ordinal);
        Assert.Contains(advice, static a => a.StartsWith("a hang of 400 ms bridges the space between words of Morse",
            StringComparison.Ordinal));
        Assert.StartsWith("hold the relay by the transmitter's own key line", advice[^1], StringComparison.Ordinal);

        // Not at full power: nothing is said of what stops it there.
        Assert.DoesNotContain(advice, static a => a.StartsWith("no smoothing", StringComparison.Ordinal));
        Assert.All(advice, static a => Assert.DoesNotMatch(@"\.$", a));
    }

    [Fact]
    public void Advice_of_what_never_came_over_says_so_with_the_power_that_does()
    {
        IReadOnlyList<string> advice = BypassAdvice.Of(_demo with
        {
            Trials = [Trial(KeyingKind.TwoTones, 0.02, 0) with { CameOver = false }, Trial(KeyingKind.TwoTones, 0.005, 0) with
            {
                CameOver = false,
            }],
            OperatesAtW = 0.0105,
            Steadier = null,
        });
        Assert.Contains("single sideband of up to 20 mW of peak power did not always bring it over, though a carrier of 10.5 mW does",
            advice[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Failures_that_put_the_filter_in_the_way_are_all_but_the_one_stuck_over()
    {
        IReadOnlyList<FailureRow> rows = BypassRows.Failures(_demo);
        Assert.Equal([true, true, true, false, true], rows.Select(static r => r.FilterInTheWay));
        Assert.All(rows, static r => Assert.Equal(r.FilterInTheWay, r.InTheWay.StartsWith("the filter", StringComparison.Ordinal)));

        // 12 V across the demo's 320 ohm: 0.45 W in the coil, without end (by hand; the file states supply and coil).
        double watts = Math.Pow(_demo.Document.Circuit.SupplyV, 2) / _demo.Document.Circuit.Coil.CoilOhm;
        Assert.Contains(BypassWords.Si(watts, "W") + " without end", rows[3].Hot, StringComparison.Ordinal);

        // Without a filter's file nothing is said to be cool.
        Assert.All(
            BypassRows.Failures(_demo with { Filter = null }).Where(static r => r.FilterInTheWay),
            static r => Assert.Equal("how hot is not known: no filter is named", r.Hot));
        Assert.Equal(4, BypassRows.Failures(_demo with { OperatesAtW = null }).Count);
    }

    [Fact]
    public void Ways_without_what_the_filter_bears_promise_nothing()
    {
        IReadOnlyList<string> ways = BypassRows.Ways(_demo with { Filter = null });
        Assert.Contains("of the rest nothing can be told", ways[0], StringComparison.Ordinal);
        Assert.DoesNotContain(ways, static w => w.Contains("it serves at", StringComparison.Ordinal));
        Assert.Contains(ways, static w => w.EndsWith("what the filter bears until then is not known", StringComparison.Ordinal));
        Assert.Contains(
            BypassRows.Ways(_demo with { OperatesAtW = null }),
            static w => w.EndsWith("not as it stands, it never comes over", StringComparison.Ordinal));
    }

    [Fact]
    public void Rows_have_each_quantity_once_and_their_text_is_their_figure()
    {
        IReadOnlyList<BypassRow> rows = BypassRows.Figures(_demo, Typography.Plain);
        Assert.Equal(rows.Count, rows.Select(static r => r.Quantity).Distinct().Count());
        foreach (BypassRow row in rows)
        {
            WrittenText.Figures(row.Text);
            Assert.Equal(row.Value is null, row.Text == "-");
            if (row.Value is { } value && row.Unit is "dB" or "dBm")
            {
                Assert.Equal(row.Value!.Value, double.Parse(row.Text.Split(' ')[0], CultureInfo.InvariantCulture), 0.0501);
            }
            else if (row.Value is { } figure)
            {
                Assert.Equal(figure, Read(row.Text, row.Unit), 0.00501 * Math.Abs(figure));
            }

            // The unit of a quantity stands at the end of its name.
            Assert.EndsWith("_" + row.Unit.ToLowerInvariant(), row.Quantity, StringComparison.Ordinal);
        }
    }

    private static double Read(string text, string unit)
    {
        string[] parts = text.Split(' ');
        string prefix = parts[1][..^unit.Length];
        double scale = prefix switch { "k" => 1e3, "" => 1, "m" => 1e-3, "u" => 1e-6, "n" => 1e-9, "p" => 1e-12, _ => double.NaN };
        return double.Parse(parts[0], CultureInfo.InvariantCulture) * scale;
    }

    private static KeyingTrial Trial(KeyingKind kind, double watts, int back) => new(kind, 100, watts, true, back, 1, null, 0);

    private static BypassAnswer Ask()
    {
        string path = DemoSites.PathOf("quernmoss.bypass.yaml");
        DiagnosticBag bag = new();
        LoadedBypass loaded = SourceReader.Bypass(SourceFile.OfText(path, File.ReadAllText(path), new SiteFolder(path)), bag)!;
        return BypassService.Ask(new BypassQuestion { Bypass = loaded }).Answer!;
    }
}
