using System.Globalization;
using CsCheck;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

/// <summary>Figures with a fixed number of decimals: to half of the last digit, and nothing is never negative.</summary>
public sealed class FixedTextTests
{
    private static readonly Gen<double> _value = Gen.OneOf<double>(
        Gen.Double[-1e6, 1e6], Gen.Double[-1, 1], Gen.OneOf(0.0, -0.0, -1e-12, -0.049999, -0.05, 0.5, -0.5, 999.995));

    [Fact]
    public void Of_reads_back_to_half_of_its_last_digit() => Gen.Select(_value, Gen.Int[0, 9]).Sample(static (value, decimals) =>
    {
        string text = FixedText.Of(value, decimals);
        int point = text.IndexOf('.', StringComparison.Ordinal);
        Assert.Equal(decimals, point < 0 ? 0 : text.Length - 1 - point);
        double read = double.Parse(text, CultureInfo.InvariantCulture);
        Assert.Equal(value, read, (0.5000001 * Math.Pow(10, -decimals)) + (1e-15 * Math.Abs(value)));

        // A minus stands only before a figure that is one.
        Assert.Equal(read < 0, text[0] == '-');
    });

    [Fact]
    public void Of_a_format_of_digits_has_no_negative_nothing_either() => Gen.Select(_value, Gen.OneOf("0", "0.0", "0.###", "0.######"))
        .Sample(static (value, format) =>
        {
            string text = FixedText.Of(value, format);
            Assert.Equal(double.Parse(text, CultureInfo.InvariantCulture) < 0, text[0] == '-');
        });

    [Fact]
    public void A_larger_figure_is_never_printed_smaller() => Gen.Select(_value, _value, Gen.Int[0, 6]).Sample(static (a, b, decimals) =>
    {
        double one = double.Parse(FixedText.Of(Math.Min(a, b), decimals), CultureInfo.InvariantCulture);
        Assert.True(one <= double.Parse(FixedText.Of(Math.Max(a, b), decimals), CultureInfo.InvariantCulture));
    });
}
