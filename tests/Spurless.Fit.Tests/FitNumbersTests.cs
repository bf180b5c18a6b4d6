using System.Globalization;
using Spurless.Circuits.Solving;
using Spurless.Radio.Quantities;

namespace Spurless.Fit.Tests;

/// <summary>Values as a fit writes them into a file: what stands there reads back as the value, to the figures that are kept.</summary>
public sealed class FitNumbersTests
{
    public static TheoryData<int> Digits => [3, 4, 5, 8];

    /// <summary>Over twelve decades: half a unit of the last figure, and never an exponent.</summary>
    [Theory]
    [MemberData(nameof(Digits))]
    public void Text_reads_back_to_the_figures_that_are_kept(int digits)
    {
        Random random = new(digits);
        for (int i = 0; i < 2_000; i++)
        {
            double value = Math.Pow(10, -14 + (12 * random.NextDouble()));
            Same(value, Capacitance.Parse(FitNumbers.Text(value, CircuitQuantity.CapacitanceF, digits)).Farads, digits);
            Same(value, Inductance.Parse(FitNumbers.Text(value, CircuitQuantity.InductanceH, digits)).Henries, digits);
            double ohms = value * 1e11;
            Same(ohms, Resistance.Parse(FitNumbers.Text(ohms, CircuitQuantity.ResistanceOhm, digits)).Ohms, digits);
            double metres = Math.Pow(10, -3 + (5 * random.NextDouble()));
            Same(metres, Length.Parse(FitNumbers.Text(metres, CircuitQuantity.LengthM, digits)).Metres, digits);
        }
    }

    /// <summary>What rounds up to the next prefix is written with it: 1 nF, not 1000 pF.</summary>
    [Theory]
    [InlineData(999.96e-12, "1.000 nF")]
    [InlineData(999.94e-12, "999.9 pF")]
    [InlineData(1e-12, "1.000 pF")]
    [InlineData(0.99999e-12, "1.000 pF")]
    [InlineData(6.8e-12, "6.800 pF")]
    [InlineData(47e-15, "47.00 fF")]
    [InlineData(1.5e-6, "1.500 uF")]
    public void Text_of_a_capacitance_is_what_one_would_write(double farads, string expected) =>
        Assert.Equal(expected, FitNumbers.Text(farads, CircuitQuantity.CapacitanceF));

    [Theory]
    [InlineData(0.34, "340.0 mm")]
    [InlineData(1.0, "1.000 m")]
    [InlineData(1250.0, "1250 m")]
    public void Text_of_a_length_is_in_metres_or_millimetres(double metres, string expected) =>
        Assert.Equal(expected, FitNumbers.Text(metres, CircuitQuantity.LengthM));

    /// <summary>A person in any country reads the same digits.</summary>
    [Fact]
    public void Text_is_the_same_in_every_culture()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal("6.800 pF", FitNumbers.Text(6.8e-12, CircuitQuantity.CapacitanceF));
            Assert.Equal("160.0", FitNumbers.Text(160, CircuitQuantity.Q));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static void Same(double expected, double actual, int digits) =>
        Assert.True(
            Math.Abs(actual - expected) <= 0.5001 * expected * Math.Pow(10, 1 - digits),
            $"{expected:R} became {actual:R} with {digits} figures");
}
