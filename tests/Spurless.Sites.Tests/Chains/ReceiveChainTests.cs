using System.Numerics;
using Spurless.Circuits.TwoPorts;
using Spurless.Mixing.Levels;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Tests.Chains;

public sealed class ReceiveChainTests
{
    private const double Channel = 145.05e6;

    [Fact]
    public void NoiseFloorDbm_receiver_alone_is_thermal_noise_and_noise_figure()
    {
        // Hand derivation: -173.975 + 10 lg 8000 + 6 = -128.94 dBm; a loss at 290 K in front does not change the noise at the receiver's
        // input.
        Assert.Equal(-128.944, Chain([[]], []).NoiseFloorDbm(Channel, 8000, null), 0.001);
        Assert.Equal(-128.944, Chain([[Pad(3)]], []).NoiseFloorDbm(Channel, 8000, null), 0.001);
    }

    [Fact]
    public void NoiseFloorDbm_external_noise_takes_the_place_of_the_sources()
    {
        // k T0 B ((fa - 1) G + F_chain G): 10 dB over kT0 through 4 dB, NF 6 dB: 9 x 0.39811 + 3.98107 = 7.56404,
        // so 10 lg(7.56404 / 3.98107) = 2.788 dB over -128.944 dBm, by hand.
        double floor = Chain([[Pad(4)]], []).NoiseFloorDbm(Channel, 8000, 10);
        Assert.Equal(-128.944 + 2.788, floor, 0.001);
    }

    /// <summary>
    /// Friis' definition (Proc. IRE 1944, from memory) by temperatures, another way round: an antenna of Ta gives k B G (Ta + Te),
    /// Te = T0 (F - 1).
    /// </summary>
    [Theory]
    [InlineData(-10)]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(20)]
    public void NoiseFloorDbm_is_that_of_antenna_and_chain_temperatures(double externalDb)
    {
        ActiveStage amplifier = new("amplifier 1", 15, 0.5, Intercepts.Complete(5));
        ReceiveChain chain = Chain([[], [Pad(2)]], [amplifier]);
        double figure = Math.Pow(10, 0.05) + ((Math.Pow(10, 0.2) - 1) / Math.Pow(10, 1.5)) + ((Math.Pow(10, 0.6) - 1) / Math.Pow(10, 1.3));
        double kelvin = (290 * Math.Pow(10, externalDb / 10)) + (290 * (figure - 1));
        double expected = 30 + (10 * Math.Log10(1.380649e-23 * kelvin * 8000)) + 13;
        Assert.Equal(expected, chain.NoiseFloorDbm(Channel, 8000, externalDb), 1e-9);
    }

    [Fact]
    public void NoiseFloorDbm_of_an_antenna_at_kT0_is_that_without_external_noise()
    {
        ReceiveChain chain = Chain([[Pad(1)], [Pad(2)]], [new ActiveStage("amplifier 1", 15, 0.5, Intercepts.Complete(5))]);
        Assert.Equal(chain.NoiseFloorDbm(Channel, 8000, null), chain.NoiseFloorDbm(Channel, 8000, 0), 1e-12);
    }

    [Theory]
    [InlineData(-4, -12)]
    [InlineData(-4, -300)]
    [InlineData(-0.1, -30)]
    public void NoiseFloorDbm_of_a_receiver_that_none_can_be_and_a_quiet_antenna_is_a_number(double figureDb, double externalDb)
    {
        ReceiveChain chain = new([[Pad(1)]], [], new ActiveStage("receiver", 0, figureDb, Intercepts.Complete(-2)), null);
        double floor = chain.NoiseFloorDbm(Channel, 8000, externalDb);
        Assert.True(double.IsFinite(floor), $"{floor}");
        Assert.True(floor <= chain.NoiseFloorDbm(Channel, 8000, 0));
    }

    [Fact]
    public void NoiseFloorDbm_with_amplifier_follows_Friis()
    {
        // Friis (H. T. Friis, Proc. IRE 1944, from memory): 15 dB gain, NF 1.5 dB, then 2 dB of loss, then NF 6 dB. F = 1.4125 + (1.5849 -
        // 1)/31.623 + (3.9811 - 1)/(31.623/1.5849) = 1.5804; at the receiver's input kT0 B F G, G = 13 dB.
        ActiveStage amplifier = new("amplifier 1", 15, 1.5, Intercepts.Complete(5));
        double total = Math.Pow(10, 0.15) + ((Math.Pow(10, 0.2) - 1) / Math.Pow(10, 1.5)) + ((Math.Pow(10, 0.6) - 1) / Math.Pow(10, 1.3));
        double expected = -173.9752 + (10 * Math.Log10(8000)) + (10 * Math.Log10(total)) + 13;
        Assert.Equal(expected, Chain([[], [Pad(2)]], [amplifier]).NoiseFloorDbm(Channel, 8000, null), 0.001);
    }

    [Fact]
    public void Gains_to_and_from_a_stage_add_up_to_the_gain_to_the_receiver()
    {
        ActiveStage amplifier = new("amplifier 1", 15, 1.5, Intercepts.Complete(5));
        ReceiveChain chain = Chain([[Pad(1.2)], [Pad(3)]], [amplifier], new Pad("selectivity", static _ => 7));
        Assert.Equal(-1.2, chain.GainToStageDb(0, Channel), 1e-12);
        Assert.Equal(12, chain.ReferralDb(0, Channel), 1e-12);
        Assert.Equal(10.8, chain.GainToReceiverInputDb(Channel), 1e-12);
        Assert.Equal(3.8, chain.GainDb(Channel), 1e-12);
        Assert.Equal(7, chain.ReferralDb(1, Channel), 1e-12);
    }

    [Fact]
    public void GainDb_two_mismatched_stages_cascade_with_their_reflections()
    {
        // Two series resistances of 50 ohm are one of 100 ohm: S21 = 2 Z0 / (2 Z0 + R) = 0.5, not the 2/3 x 2/3 that added decibels would
        // give.
        Filter series = new("50 ohm in series", new Series(50), IsFilter: true);
        Assert.Equal(20 * Math.Log10(0.5), Chain([[series, series]], []).GainDb(Channel), 1e-9);
    }

    [Fact]
    public void WithoutFilters_takes_circuits_and_sweeps_out_and_nothing_else()
    {
        Filter filter = new("filter", new Series(50), IsFilter: true);
        ReceiveChain chain = Chain([[Pad(1), filter]], [], new Filter("front end", new Series(50), IsFilter: false));
        Assert.Equal(["filter"], chain.Filters);
        ReceiveChain without = chain.WithoutFilters();
        Assert.Empty(without.Filters);
        Assert.Equal(-1, without.GainToReceiverInputDb(Channel), 1e-9);
        Assert.Equal(-1 + (20 * Math.Log10(2.0 / 3)), without.GainDb(Channel), 1e-9);
    }

    [Fact]
    public void GainDb_outside_a_sweep_lets_everything_through_and_says_so()
    {
        Filter sweep = new("sweep", new Series(50, 100e6, 200e6), IsFilter: true);
        ReceiveChain chain = Chain([[sweep]], []);
        Assert.Equal(0, chain.GainDb(466e6), 1e-12);
        Assert.Equal(["sweep"], chain.NotCovering(466e6));
        Assert.Empty(chain.NotCovering(145e6));
    }

    [Fact]
    public void MismatchBandDb_of_a_through_spans_both_reflections_in_and_out_of_phase()
    {
        // A through between |G| 0.5 and 0.5: 1/|1 - Ga Gr| lies between 1/1.25 and 1/0.75.
        (double low, double high) = Chain([[Pad(0)]], []).MismatchBandDb(Channel, 0.5, 0.5);
        Assert.Equal(-20 * Math.Log10(1.25), low, 1e-9);
        Assert.Equal(-20 * Math.Log10(0.75), high, 1e-9);
    }

    [Fact]
    public void MismatchBandDb_of_a_series_resistor_is_that_of_the_circuit_with_those_impedances()
    {
        // Oracle: Ohm's law. A source of impedance Zs drives 50 ohm in series and a load ZL; transducer gain 4 Rs RL / |Zs + R + ZL|^2 =
        // (1-|Ga|^2) |S21|^2 (1-|Gr|^2) / |D|^2.
        const double ga = 0.5;
        const double gr = 0.4;
        double least = double.PositiveInfinity;
        double greatest = double.NegativeInfinity;
        for (int i = 0; i < 720; i++)
        {
            Complex source = Impedance(Complex.FromPolarCoordinates(ga, Math.PI * i / 360));
            for (int j = 0; j < 720; j++)
            {
                Complex load = Impedance(Complex.FromPolarCoordinates(gr, Math.PI * j / 360));
                double gain = 4 * source.Real * load.Real / Math.Pow((source + 50 + load).Magnitude, 2);
                double change = 10 * Math.Log10(gain / ((1 - (ga * ga)) * (1 - (gr * gr)) * (4.0 / 9)));
                least = Math.Min(least, change);
                greatest = Math.Max(greatest, change);
            }
        }

        (double low, double high) = Chain([[new Filter("50 ohm in series", new Series(50), IsFilter: true)]], []).MismatchBandDb(
            Channel, ga, gr);
        Assert.Equal(least, low, 0.001);
        Assert.Equal(greatest, high, 0.001);
        static Complex Impedance(Complex reflection) => 50 * (1 + reflection) / (1 - reflection);
    }

    [Fact]
    public void MismatchBandDb_behind_an_amplifier_knows_the_receiver_only()
    {
        // The amplifier counts as matched: only 1/|1 - S22 Gr|^2 with S22 = 1/3 and |Gr| 0.5 is left, whatever the antenna does.
        ActiveStage amplifier = new("amplifier 1", 15, 1.5, Intercepts.Complete(5));
        ReceiveChain chain = Chain([[], [new Filter("50 ohm in series", new Series(50), IsFilter: true)]], [amplifier]);
        (double low, double high) = chain.MismatchBandDb(Channel, 0.9, 0.5);
        Assert.Equal(-20 * Math.Log10(7.0 / 6), low, 1e-9);
        Assert.Equal(-20 * Math.Log10(5.0 / 6), high, 1e-9);
    }

    private static ReceiveChain Chain(IPassiveStage[][] sections, ActiveStage[] amplifiers, IPassiveStage? selectivity = null) =>
        new(sections, amplifiers, new ActiveStage("receiver", 0, 6, Intercepts.Complete(-2)), selectivity);

    private static Pad Pad(double lossDb) => new("pad", _ => lossDb);

    private sealed class Series(double ohm, double lowest = 0, double highest = double.PositiveInfinity) : ITwoPort
    {
        public double LowestHz => lowest;

        public double HighestHz => highest;

        public Complex Reference1 => 50;

        public Complex Reference2 => 50;

        public ScatteringMatrix At(double frequencyHz)
        {
            Complex reflected = ohm / (100 + ohm);
            Complex through = 100 / (100 + ohm);
            return new ScatteringMatrix(reflected, through, through, reflected);
        }
    }
}
