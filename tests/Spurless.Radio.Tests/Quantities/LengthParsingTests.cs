using Spurless.Radio.Quantities;

namespace Spurless.Radio.Tests.Quantities;

/// <summary>Lengths, wires' diameters and parts' dimensions as they may be written.</summary>
public sealed class LengthParsingTests
{
    /// <summary>
    /// AWG: 36 and 0000 AWG define the series (0.005 in, 0.46 in); 18 AWG 1.024 mm is in docs/checks.md 4.1 as a wire of an example coil.
    /// </summary>
    [Theory]
    [InlineData("650 m", 650)]
    [InlineData("6 mm", 0.006)]
    [InlineData("3.5 cm", 0.035)]
    [InlineData("1.2 km", 1200)]
    [InlineData("25 ft", 7.62)]
    [InlineData("10 in", 0.254)]
    [InlineData("0 m", 0)]
    [InlineData("-12 m", -12)]
    [InlineData("36 AWG", 0.000127)]
    [InlineData("0000 AWG", 0.011684)]
    [InlineData("4/0 AWG", 0.011684)]
    [InlineData("18 AWG", 0.0010237)]
    [InlineData("18AWG", 0.0010237)]
    public void Length_metric_imperial_and_gauge_is_in_metres(string text, double metres) =>
        Assert.Equal(metres, Length.Parse(text).Metres, Math.Abs(metres) * 1e-4);

    [Theory]
    [InlineData("18 awg", "'18 awg' has the unit 'awg', which is not known; write 18 AWG")]
    [InlineData("18.5 AWG", "'18.5 AWG' is no gauge from 0000 to 50; write a whole number like 18 AWG, or the diameter like 1 mm")]
    [InlineData("51 AWG", "'51 AWG' is no gauge from 0000 to 50; write a whole number like 18 AWG, or the diameter like 1 mm")]
    [InlineData("0 mm", "'0 mm' is not above 0; write a wire's diameter like 1 mm or 18 AWG")]
    [InlineData("thick", "'thick' is not a wire's diameter; write it like 1 mm or 18 AWG")]
    [InlineData("1", "'1' has no unit; write 1 mm")]
    public void WireDiameter_that_cannot_be_says_what_instead(string text, string expected)
    {
        Assert.False(WireDiameter.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    [Theory]
    [InlineData("wide", "'wide' is not a length; write it like 6 mm")]
    [InlineData("7", "'7' has no unit; write 7 mm")]
    [InlineData("0 mm", "'0 mm' is not above 0; write a length like 6 mm")]
    public void PartDimension_that_cannot_be_proposes_millimetres(string text, string expected)
    {
        Assert.False(PartDimension.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    /// <summary>Six gauge numbers down nearly double the diameter: the step is the 39th root of 92 (definition of the series).</summary>
    [Fact]
    public void WireDiameter_of_neighbouring_gauges_has_a_constant_ratio()
    {
        for (int gauge = -3; gauge < 50; gauge++)
        {
            Assert.Equal(Math.Pow(92, 1 / 39.0), WireDiameter.FromGauge(gauge).Metres / WireDiameter.FromGauge(gauge + 1).Metres, 1e-12);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => WireDiameter.FromGauge(51));
    }
}
