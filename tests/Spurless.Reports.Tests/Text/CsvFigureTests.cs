using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

/// <summary>A figure in a table is a number or nothing, whichever writer writes it.</summary>
public sealed class CsvFigureTests
{
    [Theory]
    [InlineData(-12.3456789, "-12.345679")]
    [InlineData(0.0, "0.000000")]
    [InlineData(-1e-9, "0.000000")]
    [InlineData(double.NaN, "")]
    [InlineData(double.PositiveInfinity, "")]
    [InlineData(double.NegativeInfinity, "")]
    [InlineData(null, "")]
    public void Of_is_six_decimals_or_nothing(double? value, string expected) => Assert.Equal(expected, CsvFigure.Of(value));
}
