using System.Globalization;
using CsCheck;
using Spurless.Drawing.Words;

namespace Spurless.Drawing.Tests.Words;

/// <summary>Printed figures read back: to half of their last digit, without a sign that rounding left over, in groups of three.</summary>
public sealed class FiguresPropertyTests
{
    private static readonly Gen<double> _db = Gen.OneOf<double>(
        Gen.OneOf(0.0, -0.0, -0.04, -0.05, 0.05, 0.049999999999, -0.0500000001, 999.95, 999.94, 9_999.96, -1_000_000.04, 1e-300),
        Gen.Double[-200, 200],
        Gen.Double[-2e6, 2e6]);

    [Fact]
    public void Db_of_any_level_reads_back_to_half_a_tenth_and_has_no_negative_zero() => _db.Sample(static value =>
    {
        string printed = Figures.Db(value, Typography.Plain);
        Assert.Equal(value, Read(printed), 0.05 + (1e-15 * Math.Abs(value)));
        Assert.NotEqual("-0.0", printed);
        Assert.Equal(Read(printed) < 0, printed.StartsWith('-'));
        Assert.Matches(@"^-?\d{1,3}( \d{3})*\.\d$", printed);
    });

    [Fact]
    public void Three_ways_to_print_a_level_agree_on_its_digits() => _db.Sample(static value =>
    {
        string digits = Figures.Db(Math.Abs(value), Typography.Plain).Replace(" ", "", StringComparison.Ordinal);
        Assert.Equal(digits, Figures.BareDb(value));
        Assert.Equal(
            (Figures.Rounded(value) < 0 ? "-" : "+") + digits,
            Figures.SignedDb(value, Typography.Plain).Replace(" ", "", StringComparison.Ordinal));
        // The page's signs are other signs for the same figure.
        Assert.Equal(
            Figures.Db(value, Typography.Plain),
            Figures.Db(value, Typography.Fine).Replace('\u2212', '-').Replace('\u202F', ' '));
    });

    [Fact]
    public void Megahertz_of_any_frequencies_in_their_common_decimals_is_exact() =>
        Gen.Long[-2_000_000_000, 20_000_000_000].Array[1, 5].Sample(static hertz =>
        {
            int decimals = Figures.DecimalsFor(hertz);
            foreach (long f in hertz)
            {
                string printed = Figures.Megahertz(f, decimals);
                Assert.Equal(f / 1_000_000m, decimal.Parse(printed, CultureInfo.InvariantCulture));
                Assert.Equal(decimals, printed.Length - printed.IndexOf('.', StringComparison.Ordinal) - 1);
            }

            // No more than one of them needs.
            Assert.True(decimals == 4 || hertz.Any(f => f % (decimals == 5 ? 100 : 10) != 0));
        });

    [Fact]
    public void Kilohertz_and_offsets_of_any_width_are_exact() => Gen.Long[0, 3_000_000_000].Sample(static hertz =>
    {
        Assert.Equal(hertz / 1000m, decimal.Parse(
            Figures.Kilohertz(hertz, Typography.Plain).Replace(" ", "", StringComparison.Ordinal), CultureInfo.InvariantCulture));
        Assert.Equal(-hertz / 1000m, decimal.Parse(
            Figures.OffsetKilohertz(-hertz, Typography.Plain), NumberStyles.Float, CultureInfo.InvariantCulture));
    });

    [Fact]
    public void Percent_of_what_is_not_always_is_under_a_hundred_and_of_what_is_not_never_over_nothing() =>
        Gen.OneOf<double>(Gen.Double[0, 1], Gen.OneOf(0.9949, 0.995, 0.99999, 1 - 1e-16, 1e-9, 9.9e-5, 0.0001, 0.00949)).Sample(
            static fraction =>
            {
                string printed = Figures.Percent(fraction);
                if (fraction is > 0 and < 1)
                {
                    Assert.NotEqual("100 %", printed);
                    Assert.NotEqual("0 %", printed);
                }

                if (!printed.StartsWith("under", StringComparison.Ordinal) && !printed.StartsWith("over", StringComparison.Ordinal))
                {
                    // Two figures: half of the second.
                    double read = double.Parse(printed[..^2], CultureInfo.InvariantCulture);
                    Assert.Equal(100 * fraction, read, 0.0501 * Math.Max(0.1, Math.Pow(10, Math.Floor(Math.Log10(Math.Max(read, 0.01))))));
                }
            });

    [Theory]
    [InlineData(0, "none", "0th")]
    [InlineData(1, "one", "first")]
    [InlineData(12, "twelve", "twelfth")]
    [InlineData(13, "13", "13th")]
    [InlineData(21, "21", "21st")]
    [InlineData(112, "112", "112th")]
    [InlineData(123, "123", "123rd")]
    public void Counts_and_positions_go_from_words_to_digits_after_twelve(long n, string count, string position)
    {
        Assert.Equal(count, Figures.CountInWords(n));
        Assert.Equal(position, Figures.OrdinalInWords(n));
    }

    [Theory]
    [InlineData(1, "one mistake")]
    [InlineData(2, "two mistakes")]
    [InlineData(40, "40 mistakes")]
    public void Mistakes_are_counted_in_the_right_number(int count, string said) => Assert.Equal(said, Figures.Mistakes(count));

    private static double Read(string printed) =>
        double.Parse(printed.Replace(" ", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
}
