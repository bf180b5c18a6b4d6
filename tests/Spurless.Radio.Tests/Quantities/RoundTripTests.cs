using System.Globalization;
using System.Numerics;
using CsCheck;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Tests.Quantities;

/// <summary>Printing and reading back gives the same value to the last bit, in every culture. Property tests; CsCheck prints its seed.</summary>
public sealed class RoundTripTests
{
    private static readonly Gen<double> _positive = Gen.Select(Gen.Double[1, 10], Gen.Int[-20, 14]).Select((m, e) => m * Math.Pow(10, e));
    private static readonly Gen<double> _decibels = Gen.OneOf(Gen.Double[-300, 300], Gen.Int[-3000, 3000].Select(static i => i / 10.0));
    private static readonly string[] _cultures = ["", "de-DE", "fr-FR", "ar-SA"];

    private delegate bool Reader<T>(string text, out T value, out string problem);

    [Fact]
    public void Frequency_printed_reads_back_exactly() =>
        Check(Gen.Long[-9_000_000_000_000_000_000, 9_000_000_000_000_000_000].Select(Frequency.FromHertz), Frequency.TryParse);

    [Fact]
    public void Frequency_of_everyday_size_printed_reads_back_exactly() =>
        Check(Gen.Long[-3_000_000_000, 3_000_000_000].Select(Frequency.FromHertz), Frequency.TryParse);

    [Fact]
    public void Level_printed_reads_back_exactly() => Check(_decibels.Select(Level.FromDbm), Level.TryParse);

    [Fact]
    public void Decibels_printed_reads_back_exactly() => Check(_decibels.Select(Decibels.FromDecibels), Decibels.TryParse);

    [Fact]
    public void Antenna_gain_printed_reads_back_exactly() => Check(_decibels.Select(AntennaGain.FromDbi), AntennaGain.TryParse);

    [Fact]
    public void Sensitivity_printed_reads_back_exactly() =>
        Check(_decibels.Select(static d => Sensitivity.FromLevel(Level.FromDbm(d))), Sensitivity.TryParse);

    [Fact]
    public void Power_printed_reads_back_exactly() => Check(_positive.Select(Power.FromWatts), Power.TryParse);

    [Fact]
    public void Voltage_printed_reads_back_exactly() => Check(_positive.Select(static v => Voltage.FromVolts(-v)), Voltage.TryParse);

    [Fact]
    public void Current_printed_reads_back_exactly() => Check(_positive.Select(Current.FromAmperes), Current.TryParse);

    [Fact]
    public void Inductance_printed_reads_back_exactly() => Check(_positive.Select(Inductance.FromHenries), Inductance.TryParse);

    [Fact]
    public void Capacitance_printed_reads_back_exactly() => Check(_positive.Select(Capacitance.FromFarads), Capacitance.TryParse);

    [Fact]
    public void Resistance_printed_reads_back_exactly() => Check(_positive.Select(Resistance.FromOhms), Resistance.TryParse);

    [Fact]
    public void Duration_printed_reads_back_exactly() => Check(Gen.Double[1e-13, 999].Select(Duration.FromSeconds), Duration.TryParse);

    [Fact]
    public void Length_printed_reads_back_exactly() => Check(_positive.Select(Length.FromMetres), Length.TryParse);

    [Fact]
    public void Angle_printed_reads_back_exactly() => Check(_decibels.Select(Angle.FromDegrees), Angle.TryParse);

    [Fact]
    public void Fraction_printed_reads_back_exactly() =>
        Check(Gen.OneOf(Gen.Double[0, 1], _positive, Gen.Int[0, 1000].Select(static i => i / 1000.0)).Select(Fraction.FromValue), Fraction.TryParse);

    [Fact]
    public void Noise_figure_printed_reads_back_exactly() => Check(Gen.Double[0, 50].Select(NoiseFigure.FromDecibels), NoiseFigure.TryParse);

    [Fact]
    public void Loss_per_length_printed_reads_back_exactly() =>
        Check(Gen.Double[0, 50].Select(LossPerLength.FromDbPerMetre), LossPerLength.TryParse);

    [Fact]
    public void Complex_impedance_printed_reads_back_exactly() =>
        Check(
            Gen.Select(_decibels, _decibels, static (re, im) => ComplexImpedance.FromOhms(new Complex(re, im))),
            ComplexImpedance.TryParse);

    [Fact]
    public void Points_printed_read_back_exactly()
    {
        Gen<Frequency> frequency = Gen.Long[1, 10_000_000_000].Select(Frequency.FromHertz);
        Gen<int> order = Gen.Int[2, 99];
        Check(Gen.Select(_decibels, frequency, static (d, f) => new DecibelsAt(Decibels.FromDecibels(d), f)), DecibelsAt.TryParse);
        Check(Gen.Select(_decibels, frequency, static (d, f) => new NoiseDensityAt(NoiseDensity.FromDbcPerHertz(d), f)), NoiseDensityAt.TryParse);
        Check(Gen.Select(_positive, frequency, static (q, f) => new QualityAt(q, f)), QualityAt.TryParse);
        Check(
            Gen.Select(Gen.Double[0, 9], frequency, static (d, f) => new LossPerLengthAt(LossPerLength.FromDbPerMetre(d), f)),
            LossPerLengthAt.TryParse);
        Check(Gen.Select(_decibels, order, static (d, n) => new DecibelsAtOrder(Decibels.FromDecibels(d), n)), DecibelsAtOrder.TryParse);
        Check(Gen.Select(_decibels, order, static (d, n) => new CarrierRatioAtOrder(CarrierRatio.FromDbc(d), n)), CarrierRatioAtOrder.TryParse);
    }

    [Fact]
    public void FrequencyRange_printed_reads_back_exactly() =>
        Check(
            Gen.Select(Gen.Long[1, 1_000_000_000], Gen.Long[1, 1_000_000_000])
                .Select(static (a, d) => FrequencyRange.Between(Frequency.FromHertz(a), Frequency.FromHertz(a + d))),
            FrequencyRange.TryParse);

    [Fact]
    public void TryParse_of_any_text_never_throws_and_always_says_what_to_do()
    {
        Gen<string> texts = Gen.OneOf(
            Gen.String,
            Gen.String[Gen.Char["0123456789.,eE+-\u2212 \u00B5\u03A9kMHzdBmVWufpnoijatx%/CAWG\0"], 0, 24]);
        texts.Sample(
            static text =>
            {
                Refuses<Frequency>(Frequency.TryParse, text);
                Refuses<Level>(Level.TryParse, text);
                Refuses<Power>(Power.TryParse, text);
                Refuses<Sensitivity>(Sensitivity.TryParse, text);
                Refuses<AntennaGain>(AntennaGain.TryParse, text);
                Refuses<Length>(Length.TryParse, text);
                Refuses<Length>(WireDiameter.TryParse, text);
                Refuses<Angle>(Angle.TryParse, text);
                Refuses<Fraction>(Fraction.TryParse, text);
                Refuses<Inductance>(Inductance.TryParse, text);
                Refuses<ComplexImpedance>(ComplexImpedance.TryParse, text);
                Refuses<DecibelsAt>(DecibelsAt.TryParse, text);
                Refuses<QualityAt>(QualityAt.TryParse, text);
                Refuses<DecibelsAtOrder>(DecibelsAtOrder.TryParse, text);
                Refuses<FrequencyRange>(FrequencyRange.TryParse, text);
                Refuses<Radio.Emissions.Emission>(Radio.Emissions.Emission.TryParse, text);
            },
            iter: 20_000);
    }

    private static void Refuses<T>(Reader<T> reader, string text)
    {
        if (!reader(text, out _, out string problem))
        {
            Assert.Contains("; ", problem, StringComparison.Ordinal);
            Assert.DoesNotContain(problem, char.IsControl);
        }
    }

    private static void Check<T>(Gen<T> values, Reader<T> reader)
        where T : struct
    {
        foreach (string name in _cultures)
        {
            values.Sample(
                value =>
                {
                    CultureInfo before = CultureInfo.CurrentCulture;
                    CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
                    try
                    {
                        string text = value.ToString()!;
                        Assert.True(reader(text, out T back, out string problem), $"{text}: {problem}");
                        Assert.Equal(value, back);
                        Assert.Equal(text, back.ToString());
                    }
                    finally
                    {
                        CultureInfo.CurrentCulture = before;
                    }
                },
                iter: 500);
        }
    }
}
