using System.Text.RegularExpressions;

namespace Spurless.Acceptance.House;

/// <summary>A frequency becomes digits in one place, so that the same one reads the same everywhere.</summary>
public partial class OneFormatterTests
{
    [Fact]
    public void Hertz_become_digits_of_megahertz_in_one_place()
    {
        string[] found =
        [
            .. SourceText.Files(".cs", ".razor")
                .Where(static f => f.StartsWith("src/", StringComparison.Ordinal))
                .Where(static f => !f.EndsWith("/MegahertzText.cs", StringComparison.Ordinal))
                .SelectMany(static f => SourceText.Lines(f).Select((line, i) => (Where: $"{f}:{i + 1}", line)))
                .Where(static l => ByHand().IsMatch(l.line)).Select(static l => l.Where),
        ];
        Assert.True(found.Length == 0, "use MegahertzText.Of:\n" + string.Join('\n', found));
    }

    /// <summary>
    /// A sentence has 1 to 4 decimals (InWords), a carrier 4 to 6, what is typed or found again in a file as many as it takes. Own reasons:
    /// a coil, whose resonance the formulas do not give to 100 Hz, and whose frequency is told as it was asked.
    /// </summary>
    [Fact]
    public void Decimals_follow_one_rule()
    {
        string[] found =
        [
            .. SourceText.Files(".cs", ".razor")
                .Where(static f => f.StartsWith("src/", StringComparison.Ordinal))
                .Where(static f => !f.EndsWith("/MegahertzText.cs", StringComparison.Ordinal)
                    && !f.EndsWith("/CoilWarningWords.cs", StringComparison.Ordinal)
                    && !f.EndsWith("/CoilSheet.cs", StringComparison.Ordinal))
                .SelectMany(static f => SourceText.Lines(f).Select((line, i) => (Where: $"{f}:{i + 1}", line)))
                .Where(static l => LeastAndMost().Matches(l.line).Any(static m => m.Groups[1].Value is not ("0, 6" or "4, 6")))
                .Select(static l => l.Where),
        ];
        Assert.True(found.Length == 0, "use MegahertzText.InWords in a sentence:\n" + string.Join('\n', found));
    }

    [Theory]
    [InlineData("$\"{hertz / 1e6:0.0###} MHz\"", true)]
    [InlineData("(row.Hertz / 1e6).ToString(\"0.0000\", CultureInfo.InvariantCulture)", true)]
    [InlineData("F(f.WorstHz / 1e6, \"0.0000\")", true)]
    [InlineData("Fixed(f.WorstHz / 1e6, 4)", true)]
    [InlineData("x.Map(mark.Hertz / 1e6)", false)]
    public void The_rule_tells_digits_from_numbers(string line, bool isByHand) => Assert.Equal(isByHand, ByHand().IsMatch(line));

    [GeneratedRegex("""MegahertzText\.Of\(.*?, ([0-6], [0-6])\)""")]
    private static partial Regex LeastAndMost();

    [GeneratedRegex("""/ (1e6|1_000_000m)(:0|\)\.ToString\(|, "0|, [0-6]\))""")]
    private static partial Regex ByHand();
}
