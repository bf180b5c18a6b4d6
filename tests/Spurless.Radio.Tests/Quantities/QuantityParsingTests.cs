using System.Numerics;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Tests.Quantities;

/// <summary>
/// Every form in which a value with a unit may stand in our files (the formats page lists them), and what is said of the ones that may not.
/// Values are exact by definition of the prefixes, of the international foot and inch (0.3048 m, 0.0254 m) or as noted.
/// </summary>
public sealed class QuantityParsingTests
{
    [Theory]
    [InlineData("145.050 MHz", 145_050_000)]
    [InlineData("145.05MHz", 145_050_000)]
    [InlineData("12.5 kHz", 12_500)]
    [InlineData("6.25 kHz", 6_250)]
    [InlineData("180 Hz", 180)]
    [InlineData("455 kHz", 455_000)]
    [InlineData("1.2 GHz", 1_200_000_000)]
    [InlineData("0 kHz", 0)]
    [InlineData("-600 kHz", -600_000)]
    [InlineData("\u2212600 kHz", -600_000)]
    [InlineData("+7.6 MHz", 7_600_000)]
    [InlineData("1.5e2 MHz", 150_000_000)]
    [InlineData("0.000001 MHz", 1)]
    [InlineData("145.0500000000 MHz", 145_050_000)]
    [InlineData("300 GHz", 300_000_000_000)]
    public void Frequency_in_each_written_form_is_exact(string text, long hertz) => Assert.Equal(hertz, Frequency.Parse(text).Hertz);

    [Theory]
    [InlineData("145.05", "'145.05' has no unit; write 145.05 MHz")]
    [InlineData("", "nothing stands here; write a frequency like 145.05 MHz")]
    [InlineData("145,05 MHz", "'145,05 MHz' has a comma in the number; write 145.05 MHz")]
    [InlineData("1,450 MHz", "'1,450 MHz' has a comma in the number; write a decimal point and no separators, like 145.05 MHz")]
    [InlineData("145.05 mhz", "'145.05 mhz' has the unit 'mhz', which is not known; write 145.05 MHz")]
    [InlineData("145.05 mHz", "'145.05 mHz' has the unit 'mHz', which is not known; write 145.05 MHz")]
    [InlineData("145.0500001 MHz", "'145.0500001 MHz' is finer than 1 Hz; write a whole number of hertz")]
    [InlineData("0.5 Hz", "'0.5 Hz' is finer than 1 Hz; write a whole number of hertz")]
    [InlineData("1e-30 MHz", "'1e-30 MHz' is finer than 1 Hz; write a whole number of hertz")]
    [InlineData("300.000000001 GHz", "'300.000000001 GHz' is too high for a receiver; write a frequency of at most 300 GHz")]
    [InlineData("9223372036854775808 Hz", "'9223372036854775808 Hz' is too high for a receiver; write a frequency of at most 300 GHz")]
    [InlineData("1e999999999999 GHz", "'1e999999999999 GHz' is too high for a receiver; write a frequency of at most 300 GHz")]
    [InlineData("NaN MHz", "'NaN MHz' is not a finite number; write a frequency like 145.05 MHz")]
    [InlineData("-infinity MHz", "'-infinity MHz' is not a finite number; write a frequency like 145.05 MHz")]
    [InlineData(".inf", "'.inf' is not a finite number; write a frequency like 145.05 MHz")]
    [InlineData("two metres", "'two metres' is not a frequency; write it like 145.05 MHz")]
    public void Frequency_that_cannot_be_says_what_and_what_instead(string text, string expected)
    {
        Assert.False(Frequency.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
        Assert.Equal(expected, Assert.Throws<FormatException>(() => Frequency.Parse(text)).Message);
    }

    [Theory]
    [InlineData("0 MHz", "'0 MHz' is zero; write a frequency above 0, like 145.05 MHz")]
    [InlineData("-1 MHz", "'-1 MHz' is negative; write a frequency above 0, like 145.05 MHz")]
    public void Frequency_that_must_be_positive_refuses_the_rest(string text, string expected)
    {
        Assert.False(Frequency.TryParsePositive(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    [Fact]
    public void Frequency_bare_is_megahertz_only_where_it_is_asked_for()
    {
        Assert.True(Frequency.TryParseMegahertz("160.525", out Frequency bare, out _));
        Assert.Equal(160_525_000, bare.Hertz);
        Assert.True(Frequency.TryParseMegahertz("466 kHz", out Frequency unit, out _));
        Assert.Equal(466_000, unit.Hertz);
    }

    [Fact]
    public void Frequency_arithmetic_that_overflows_is_an_error()
    {
        Assert.Throws<OverflowException>(() => 2 * Frequency.FromHertz(long.MaxValue));
        Assert.Throws<OverflowException>(() => Frequency.FromHertz(long.MaxValue) + Frequency.FromHertz(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Frequency.FromHertz(long.MinValue));
    }

    [Theory]
    [InlineData(145_050_000, "145.05 MHz")]
    [InlineData(12_500, "12.5 kHz")]
    [InlineData(999, "999 Hz")]
    [InlineData(0, "0 Hz")]
    [InlineData(-600_000, "-600 kHz")]
    [InlineData(1_000_000_001, "1.000000001 GHz")]
    public void Frequency_prints_in_engineering_notation(long hertz, string expected) =>
        Assert.Equal(expected, Frequency.FromHertz(hertz).ToString());

    /// <summary>
    /// Source: docs/checks.md 1.6, computed from P = U^2 / 50 ohm; emf stands 20 lg 2 = 6.02 dB above the voltage across a matched load.
    /// </summary>
    [Theory]
    [InlineData("0.1 uV pd", -126.99)]
    [InlineData("0.16 uV pd", -122.91)]
    [InlineData("0.2 uV pd", -120.97)]
    [InlineData("0.22 uV pd", -120.14)]
    [InlineData("0.25 uV pd", -119.03)]
    [InlineData("0.35 \u00B5V pd", -116.11)]
    [InlineData("0.5 \u03BCV pd", -113.01)]
    [InlineData("1 uV pd", -106.99)]
    [InlineData("5 uV pd", -93.01)]
    [InlineData("50uV pd", -73.01)]
    [InlineData("1 uV emf", -113.01)]
    [InlineData("0.5 uV emf", -119.03)]
    [InlineData("0 dBuV pd", -106.99)]
    [InlineData("0 dBuV emf", -113.01)]
    [InlineData("6 dBuV emf", -107.01)]
    [InlineData("77 dB\u00B5V emf", -36.01)]
    [InlineData("223.607 mV pd", 0)]
    [InlineData("-119 dBm", -119)]
    [InlineData("-149 dBW", -119)]
    public void Sensitivity_in_each_written_form_is_the_level_across_50_ohm(string text, double dbm)
    {
        Assert.Equal(dbm, Sensitivity.Parse(text).Level.Dbm, 0.006);
        Assert.Equal(Sensitivity.Parse(text).Level, Level.Parse(text));
    }

    [Fact]
    public void Sensitivity_in_bare_microvolts_asks_which()
    {
        Assert.False(Sensitivity.TryParse("0.25 \u00B5V", out _, out string problem));
        Assert.Equal(
            "'0.25 \u00B5V' does not say where the voltage stands; "
                + "write 0.25 uV pd (across 50 ohm) or 0.25 uV emf (open circuit, 6.02 dB lower)",
            problem);
    }

    [Theory]
    [InlineData("0 uV pd")]
    [InlineData("-1 uV emf")]
    [InlineData("-119")]
    [InlineData("-119 dB")]
    [InlineData("NaN dBm")]
    [InlineData("1e400 dBm")]
    public void Level_that_cannot_be_is_refused(string text)
    {
        Assert.False(Level.TryParse(text, out _, out _));
        Assert.False(Sensitivity.TryParse(text, out _, out _));
    }

    /// <summary>Source: docs/checks.md 1.6, computed.</summary>
    [Theory]
    [InlineData("5 W", 36.99)]
    [InlineData("10 W", 40)]
    [InlineData("25 W", 43.98)]
    [InlineData("50 W", 46.99)]
    [InlineData("100 W", 50)]
    [InlineData("0.1 kW", 50)]
    [InlineData("500 mW", 26.99)]
    [InlineData("44 dBm", 44)]
    [InlineData("14 dBW", 44)]
    public void Power_in_each_written_form_has_its_level(string text, double dbm) => Assert.Equal(dbm, Power.Parse(text).Dbm, 0.006);

    [Theory]
    [InlineData("0 W")]
    [InlineData("-5 W")]
    [InlineData("25")]
    [InlineData("1e308 kW")]
    [InlineData("5000 dBm")]
    public void Power_that_cannot_be_is_refused(string text) => Assert.False(Power.TryParse(text, out _, out _));

    [Theory]
    [InlineData("6 dBd", 8.15)]
    [InlineData("8.15 dBi", 8.15)]
    [InlineData("-3 dBd", -0.85)]
    public void AntennaGain_over_dipole_or_isotropic_is_told_apart(string text, double dbi) =>
        Assert.Equal(dbi, AntennaGain.Parse(text).Dbi, 1e-12);

    [Fact]
    public void AntennaGain_in_plain_decibels_asks_which()
    {
        Assert.False(AntennaGain.TryParse("6 dB", out _, out string problem));
        Assert.Equal("'6 dB' does not say over what; write 6 dBd (over a dipole) or 6 dBi (over isotropic, 2.15 dB less gain)", problem);
    }

    [Fact]
    public void Parts_in_each_written_form_are_in_si_units()
    {
        Assert.Equal(24e-9, Inductance.Parse("24 nH").Henries);
        Assert.Equal(1.5e-6, Inductance.Parse("1.5 \u03BCH").Henries);
        Assert.Equal(4.7e-12, Capacitance.Parse("4.7pF").Farads);
        Assert.Equal(0.1e-6, Capacitance.Parse("0.1 \u00B5F").Farads);
        Assert.Equal(50, Resistance.Parse("50 ohm").Ohms);
        Assert.Equal(50, Resistance.Parse("50 \u03A9").Ohms);
        Assert.Equal(4700, Resistance.Parse("4.7 k\u2126").Ohms);
        Assert.Equal(0.1, Resistance.Parse("0.1 ohm").Ohms);
        Assert.Equal(12, Voltage.Parse("12 V").Volts);
        Assert.Equal(0.03, Current.Parse("30 mA").Amperes);
        Assert.Equal(0.005, Duration.Parse("5 ms").Seconds);
        Assert.Equal(1.5, NoiseFigure.Parse("1.5 dB").Decibels);
        Assert.Equal(0.15, Fraction.Parse("15 %").Value);
        Assert.Equal(0.05, Fraction.Parse("5%").Value);
        Assert.Equal(-140, NoiseDensity.Parse("-140 dBc/Hz").DbcPerHertz);
        Assert.Equal(-70, CarrierRatio.Parse("-70 dBc").Dbc);
        Assert.Equal(40, Angle.Parse("40").Degrees);
        Assert.Equal(40, Angle.Parse("40\u00B0").Degrees);
        Assert.Equal(180, Angle.Parse("3.141592653589793 rad").Degrees, 1e-12);
    }

    [Theory]
    [InlineData("0.1 dB/m", 0.1)]
    [InlineData("20 dB/100 m", 0.2)]
    [InlineData("20 dB/100m", 0.2)]
    [InlineData("3.048 dB/100 ft", 0.1)]
    [InlineData("4 dB/km", 0.004)]
    public void LossPerLength_in_each_written_form_is_per_metre(string text, double dbPerMetre) =>
        Assert.Equal(dbPerMetre, LossPerLength.Parse(text).DbPerMetre, 1e-12);

    [Theory]
    [InlineData("30+20j ohm", 30, 20)]
    [InlineData("30-20j ohm", 30, -20)]
    [InlineData("30 \u2212 20j \u03A9", 30, -20)]
    [InlineData("30+j20 ohm", 30, 20)]
    [InlineData("50 ohm", 50, 0)]
    [InlineData("-12j ohm", 0, -12)]
    [InlineData("j7 ohm", 0, 7)]
    [InlineData("1.5+2i kohm", 1500, 2000)]
    public void ComplexImpedance_in_each_written_form_is_in_ohms(string text, double re, double im) =>
        Assert.Equal(new Complex(re, im), ComplexImpedance.Parse(text).Ohms);

    [Theory]
    [InlineData("30+20j", "'30+20j' has no unit; write 30+20j ohm")]
    [InlineData("30+20 ohm", "'30+20 ohm' is not an impedance; write it like 30+20j ohm or 50 ohm")]
    [InlineData("30+-20j ohm", "'30+-20j ohm' is not an impedance; write it like 30+20j ohm or 50 ohm")]
    [InlineData("j ohm", "'j ohm' is not an impedance; write it like 30+20j ohm")]
    public void ComplexImpedance_that_cannot_be_says_what_instead(string text, string expected)
    {
        Assert.False(ComplexImpedance.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    [Fact]
    public void Points_are_read_on_both_sides_of_at()
    {
        DecibelsAt loss = DecibelsAt.Parse("1.2 dB at 145 MHz");
        Assert.Equal((1.2, 145_000_000), (loss.Value.Value, loss.Frequency.Hertz));
        NoiseDensityAt noise = NoiseDensityAt.Parse("-140 dBc/Hz  at 1 MHz");
        Assert.Equal((-140, 1_000_000), (noise.Density.DbcPerHertz, noise.Offset.Hertz));
        QualityAt quality = QualityAt.Parse("160 at 145.05 MHz");
        Assert.Equal((160, 145_050_000), (quality.Quality, quality.Frequency.Hertz));
        DecibelsAtOrder turn = DecibelsAtOrder.Parse("12 dB at 3");
        Assert.Equal((12, 3), (turn.Value.Value, turn.Order));
        CarrierRatioAtOrder harmonic = CarrierRatioAtOrder.Parse("-70 dBc at 2");
        Assert.Equal((-70, 2), (harmonic.Ratio.Dbc, harmonic.Order));
        LossPerLengthAt line = LossPerLengthAt.Parse("0.1 dB/m at 146 MHz");
        Assert.Equal((0.1, 146_000_000), (line.Loss.DbPerMetre, line.Frequency.Hertz));
    }

    [Theory]
    [InlineData("1.2 dB", "'1.2 dB' does not say at what; write a ratio at a frequency like 1.2 dB at 145 MHz")]
    [InlineData("1.2 at 145 MHz", "'1.2' has no unit; write 1.2 dB")]
    [InlineData("1.2 dB at 145", "'145' has no unit; write 145 MHz")]
    [InlineData("1.2 dB at 0 MHz", "'0 MHz' is zero; write a frequency above 0, like 145.05 MHz")]
    public void DecibelsAt_that_cannot_be_says_what_instead(string text, string expected)
    {
        Assert.False(DecibelsAt.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    [Theory]
    [InlineData("12 dB at 1")]
    [InlineData("12 dB at 3.5")]
    [InlineData("12 dB at 3 MHz")]
    [InlineData("12 dB at at 3")]
    public void DecibelsAtOrder_with_no_order_is_refused(string text) => Assert.False(DecibelsAtOrder.TryParse(text, out _, out _));

    [Theory]
    [InlineData("145.0 MHz-145.8 MHz", 145_000_000, 145_800_000)]
    [InlineData("145.0-145.8 MHz", 145_000_000, 145_800_000)]
    [InlineData("500 kHz - 2 MHz", 500_000, 2_000_000)]
    public void FrequencyRange_in_each_written_form_has_both_ends(string text, long from, long to)
    {
        FrequencyRange range = FrequencyRange.Parse(text);
        Assert.Equal((from, to), (range.From.Hertz, range.To.Hertz));
        Assert.True(range.Contains(range.From) && range.Contains(range.To) && !range.Contains(Frequency.FromHertz(to + 1)));
    }

    [Theory]
    [InlineData("145.8 MHz-145.0 MHz")]
    [InlineData("145.0 MHz")]
    [InlineData("-145.0 MHz")]
    [InlineData("145-146")]
    public void FrequencyRange_that_cannot_be_is_refused(string text) => Assert.False(FrequencyRange.TryParse(text, out _, out _));

    /// <summary>One range for reader and engine: its ends are read, what lies beyond is refused with the range to write in.</summary>
    [Fact]
    public void TryParse_beyond_the_range_of_sense_names_the_range()
    {
        AssertRange<Level>(Level.TryParse, "-300 dBm", "300 dBm", "-300.1 dBm", "1000 dBm");
        AssertRange<Decibels>(Decibels.TryParse, "-300 dB", "300 dB", "-301 dB", "1e6 dB");
        AssertRange<Power>(Power.TryParse, "1e-21 W", "1 GW", "9e-22 W", "1.1 GW", "-300 dBm");
        AssertRange<Resistance>(Resistance.TryParse, "1 nohm", "1000 Tohm", "1e-300 ohm", "1001 Tohm");
        AssertRange<Inductance>(Inductance.TryParse, "1 fH", "1000 H", "0.9 fH", "1001 H");
        AssertRange<Capacitance>(Capacitance.TryParse, "0.001 fF", "1 F", "0.0009 fF", "1.1 F");
        AssertRange<Length>(Length.TryParse, "-100000 km", "1 nm", "0.9 nm", "-100001 km");
        AssertRange<NoiseFigure>(NoiseFigure.TryParse, "0 dB", "100 dB", "100.1 dB");
        AssertRange<AntennaGain>(AntennaGain.TryParse, "-100 dBi", "100 dBi", "98 dBd", "-1000 dBi");
        AssertRange<ComplexImpedance>(ComplexImpedance.TryParse, "0-1e-9j ohm", "1e15 ohm", "1+1e-300j ohm", "1e16 ohm");
    }

    private static void AssertRange<T>(Reader<T> reader, string least, string greatest, params string[] beyond)
    {
        Assert.True(reader(least, out _, out string problem), problem);
        Assert.True(reader(greatest, out _, out problem), problem);
        foreach (string text in beyond)
        {
            Assert.False(reader(text, out _, out problem), text);
            Assert.StartsWith($"'{text}' is beyond all sense; write a", problem, StringComparison.Ordinal);
            Assert.Matches(" from .+ to .+, like ", problem);
        }
    }

    private delegate bool Reader<T>(string text, out T value, out string problem);

    [Fact]
    public void Factories_refuse_what_is_not_finite_by_name()
    {
        Assert.Equal("dbm", Assert.Throws<ArgumentOutOfRangeException>(() => Level.FromDbm(double.NaN)).ParamName);
        Assert.Equal(
            "decibels", Assert.Throws<ArgumentOutOfRangeException>(() => Decibels.FromDecibels(double.PositiveInfinity)).ParamName);
        Assert.Equal("henries", Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.FromHenries(-1e-9)).ParamName);
        Assert.Equal("watts", Assert.Throws<ArgumentOutOfRangeException>(() => Power.FromWatts(0)).ParamName);
        Assert.Equal("metres", Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromMetres(double.NegativeInfinity)).ParamName);
    }

    [Theory]
    [InlineData("-4.7 pF")]
    [InlineData("4.7")]
    [InlineData("4.7 nH")]
    [InlineData("1e-400 pF")]
    [InlineData("NaN pF")]
    public void Capacitance_that_cannot_be_is_refused(string text) => Assert.False(Capacitance.TryParse(text, out _, out _));

    [Theory]
    [InlineData(24e-9, "24 nH")]
    [InlineData(0.1e-6, "100 nH")]
    [InlineData(1e-3, "1 mH")]
    [InlineData(0, "0 H")]
    [InlineData(2, "2 H")]
    public void Inductance_prints_in_engineering_notation(double henries, string expected) =>
        Assert.Equal(expected, Inductance.FromHenries(henries).ToString());

    [Fact]
    public void Quantities_are_ordered_by_size()
    {
        Assert.True(Level.FromDbm(-100).CompareTo(Level.FromDbm(-90)) < 0);
        Assert.True(Frequency.FromHertz(2) > Frequency.FromHertz(1));
        Assert.True(Power.FromWatts(2).CompareTo(Power.FromWatts(1)) > 0);
    }
}
