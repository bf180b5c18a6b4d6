using Spurless.Circuits.Relays;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>The detector over a period: against each cycle simulated, and the limits that hand calculation gives.</summary>
public sealed class DetectorTests
{
    private const double Drop = 0.5; // two Schottky drops at most at milliamperes; by hand

    [Theory]
    [InlineData(0.0)]
    [InlineData(-0.5)]
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(0.7)]
    [InlineData(2.0)]
    public void Diode_any_voltage_satisfies_its_own_equation(double volts)
    {
        // The defining equation itself: I = Is (exp((U - I Rs)/(n VT)) - 1).
        Diode diode = RelayParts.Schottky;
        (double amperes, double siemens) = diode.At(volts);
        double again = diode.SaturationA * (Math.Exp((volts - (amperes * diode.SeriesOhm)) / (diode.Emission * Diode.ThermalV)) - 1);
        Assert.Equal(again, amperes, 1e-9 * Math.Max(1e-9, Math.Abs(again)) * 1e3);
        double difference = (diode.At(volts + 1e-6).Amperes - diode.At(volts - 1e-6).Amperes) / 2e-6;
        Assert.Equal(difference, siemens, (1e-4 * difference) + 1e-9);
    }

    [Fact]
    public void MeanCurrent_doubler_open_comes_to_twice_the_divided_peak_less_two_drops()
    {
        // physics: the open voltage tends to 2 V C_t/(C_t + C_stray) less two drops.
        RelayDetector d = RelayParts.Detector;
        const double Peak = 70.71;
        double limit = 2 * Peak * d.TapF / (d.TapF + d.StrayF);
        Assert.True(DetectorCycle.MeanCurrent(d, Peak, limit - (2 * Drop)) > 0);
        Assert.True(DetectorCycle.MeanCurrent(d, Peak, limit) <= 0);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(70.71)]
    public void MeanCurrent_doubler_falls_with_its_output_resistance(double peak)
    {
        // physics: output resistance tends to 1/(f (C_t + C_stray)).
        RelayDetector d = RelayParts.Detector;
        double resistance = 1 / (d.FrequencyHz * (d.TapF + d.StrayF));
        double low = peak * 0.2, high = peak * 0.6;
        double found = (high - low) / (DetectorCycle.MeanCurrent(d, peak, low) - DetectorCycle.MeanCurrent(d, peak, high));
        Assert.Equal(resistance, found, 0.02 * resistance);
    }

    [Theory]
    [InlineData(Rectifier.Doubler, 1.0, 0.3)]
    [InlineData(Rectifier.Doubler, 1.2, 0.65)]
    [InlineData(Rectifier.Doubler, 10, 3)]
    [InlineData(Rectifier.Doubler, 70.71, 40)]
    [InlineData(Rectifier.Single, 2, 0.3)]
    [InlineData(Rectifier.Single, 20, 4)]
    [InlineData(Rectifier.Single, 70.71, 20)]
    public void MeanCurrent_equals_that_of_cycles_in_small_steps(Rectifier rectifier, double peak, double smoothing)
    {
        RelayDetector d = RelayParts.Detector with { Rectifier = rectifier };
        double expected = EachCycle.MeanCurrent(d, peak, smoothing, 60);
        Assert.Equal(expected, DetectorCycle.MeanCurrent(d, peak, smoothing), 0.003 * Math.Abs(expected));
    }

    [Theory]
    [InlineData(Rectifier.Doubler)]
    [InlineData(Rectifier.Single)]
    public void Table_between_its_places_equals_the_period_itself(Rectifier rectifier)
    {
        RelayDetector d = RelayParts.Detector with { Rectifier = rectifier };
        DetectorTable table = DetectorTable.Of(d, 75, TestContext.Current.CancellationToken);
        Random random = new(21);
        for (int i = 0; i < 120; i++)
        {
            double peak = 75 * Math.Pow(random.NextDouble(), 2);
            double smoothing = Math.Max(0, (d.OpenShare * peak) - (random.NextDouble() * d.OpenShare * peak));
            double exact = DetectorCycle.MeanCurrent(d, peak, smoothing);

            // 1 % of the current, or what 2 mV of drive move where it is only some microamperes.
            double scale = Math.Abs(exact) + (0.2 * d.FrequencyHz * (d.TapF + d.StrayF));
            Assert.True(Math.Abs(table.At(peak, smoothing).Amperes - exact) <= 0.01 * scale, $"{peak} V, {smoothing} V: {exact}");
        }
    }

    [Theory]
    [InlineData(Rectifier.Doubler)]
    [InlineData(Rectifier.Single)]
    public void Table_slopes_are_those_of_its_values(Rectifier rectifier)
    {
        DetectorTable table = DetectorTable.Of(
            RelayParts.Detector with { Rectifier = rectifier }, 30, TestContext.Current.CancellationToken);
        foreach ((double peak, double smoothing) in ((double, double)[])[(10, 2.1), (25, 7.3), (1.1, 0.21)])
        {
            (double _, double bySmoothing, double byPeak) = table.At(peak, smoothing);
            const double H = 1e-6;
            double u = (table.At(peak, smoothing + H).Amperes - table.At(peak, smoothing - H).Amperes) / (2 * H);
            double v = (table.At(peak + H, smoothing).Amperes - table.At(peak - H, smoothing).Amperes) / (2 * H);
            Assert.Equal(u, bySmoothing, 1e-3 * Math.Abs(u));
            Assert.Equal(v, byPeak, 1e-3 * Math.Abs(v));
        }
    }
}
