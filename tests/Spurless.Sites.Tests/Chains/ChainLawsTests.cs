using System.Numerics;
using CsCheck;
using Spurless.Circuits.TwoPorts;
using Spurless.Mixing.Levels;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Tests.Chains;

/// <summary>
/// Chains by chance: any sections of matched and mismatched passive stages, any amplifiers, held to what physics asks of every chain.
/// </summary>
public sealed class ChainLawsTests
{
    private const double Hertz = 145.05e6;
    private const double BandwidthHz = 8_000;

    // kT0 in dBm/Hz, T0 = 290 K (docs/checks.md 1.6).
    private static readonly double _kt0 = 30 + (10 * Math.Log10(1.380649e-23 * 290));

    /// <summary>A resistive two-port of a resistor in series and one to ground, with a matched loss behind it.</summary>
    private sealed class Mismatched(double seriesOhm, double shuntOhm, double lossDb) : ITwoPort
    {
        public double LowestHz => 0;

        public double HighestHz => double.PositiveInfinity;

        public Complex Reference1 => 50;

        public Complex Reference2 => 50;

        public Complex[] Abcd => Product(
            Product([1, seriesOhm, 0, 1], [1, 0, 1 / shuntOhm, 1]),
            [Math.Cosh(Nepers), 50 * Math.Sinh(Nepers), Math.Sinh(Nepers) / 50, Math.Cosh(Nepers)]);

        private double Nepers => lossDb / (20 / Math.Log(10));

        public ScatteringMatrix At(double frequencyHz) => Waves(Abcd);
    }

    private static Complex[] Product(Complex[] x, Complex[] y) =>
        [(x[0] * y[0]) + (x[1] * y[2]), (x[0] * y[1]) + (x[1] * y[3]), (x[2] * y[0]) + (x[3] * y[2]), (x[2] * y[1]) + (x[3] * y[3])];

    private static ScatteringMatrix Waves(Complex[] m)
    {
        Complex a = m[0], b = m[1] / 50, c = m[2] * 50, d = m[3], sum = a + b + c + d;
        return new ScatteringMatrix((a + b - c - d) / sum, 2 * ((a * d) - (b * c)) / sum, 2 / sum, (-a + b - c + d) / sum);
    }

    private static readonly Gen<Mismatched> _filter = Gen.Select(Gen.Double[0, 80], Gen.Double[20, 500], Gen.Double[0, 6])
        .Select(static (r, g, loss) => new Mismatched(r, g, loss));

    private static readonly Gen<ActiveStage> _amplifier = Gen.Select(Gen.Double[3, 25], Gen.Double[0.3, 8]).Select(
        static (gain, figure) => new ActiveStage("amplifier", gain, figure, Intercepts.Complete(5)));

    private static readonly Gen<(Mismatched[][] Sections, ActiveStage[] Amplifiers, double FigureDb)> _chains =
        from amplifiers in _amplifier.Array[0, 3]
        from sections in _filter.Array[0, 3].Array[amplifiers.Length + 1]
        from figure in Gen.Double[1, 12]
        select (sections, amplifiers, figure);

    private static ReceiveChain Chain((Mismatched[][] Sections, ActiveStage[] Amplifiers, double FigureDb) of) => new(
        [.. of.Sections.Select(static s => s.Select(static f => (IPassiveStage)new Filter("f", f, IsFilter: true)).ToArray())],
        of.Amplifiers,
        new ActiveStage("receiver", 0, of.FigureDb, Intercepts.Complete(0)),
        null);

    /// <summary>Each section by its chain matrices multiplied, amplifiers in between by their decibels.</summary>
    [Fact]
    public void GainDb_is_that_of_the_chain_matrices() => _chains.Sample(static of =>
    {
        double gain = of.Amplifiers.Sum(static a => a.GainDb);
        foreach (Mismatched[] section in of.Sections)
        {
            Complex[] m = section.Aggregate((Complex[])[1, 0, 0, 1], static (all, f) => Product(all, f.Abcd));
            gain += 20 * Math.Log10(Waves(m).S21.Magnitude);
        }

        ReceiveChain chain = Chain(of);
        Assert.Equal(gain, chain.GainDb(Hertz), 1e-9);
        for (int stage = 0; stage < chain.ActiveStages.Count; stage++)
        {
            Assert.Equal(gain, chain.GainToStageDb(stage, Hertz) + chain.ReferralDb(stage, Hertz), 1e-9);
        }

        // Without its filters only the amplifiers are left.
        Assert.Equal(of.Amplifiers.Sum(static a => a.GainDb), chain.WithoutFilters().GainDb(Hertz), 1e-9);
        Assert.Equal(of.Sections.Sum(static s => s.Length), chain.Filters.Count);
    });

    /// <summary>
    /// Thermodynamics: passive parts at T0 between an antenna at T0 and a receiver pass on just k T0 B, however they are mismatched.
    /// </summary>
    [Fact]
    public void NoiseFloorDbm_behind_passive_parts_at_T0_is_that_of_the_receiver() =>
        Gen.Select(_filter.Array[0, 5], Gen.Double[0, 15]).Sample(static (filters, figure) =>
        {
            double floor = Chain(([filters], [], figure)).NoiseFloorDbm(Hertz, BandwidthHz, null);
            Assert.Equal(_kt0 + (10 * Math.Log10(BandwidthHz)) + figure, floor, 1e-6);
        });

    /// <summary>
    /// A louder antenna is never quieter; one far over everything arrives with the chain's available gain, and silence leaves the chain's
    /// own noise: what was there less the antenna's k T0 B through that gain.
    /// </summary>
    [Fact]
    public void NoiseFloorDbm_goes_from_the_chains_own_noise_to_the_antennas() => _chains.Sample(static of =>
    {
        ReceiveChain chain = Chain(of);
        double Milliwatts(double? external) => Math.Pow(10, chain.NoiseFloorDbm(Hertz, BandwidthHz, external) / 10);
        double last = 0;
        foreach (double external in new[] { -20.0, -10, 0, 3, 10, 30, 60 })
        {
            Assert.True(Milliwatts(external) >= last);
            last = Milliwatts(external);
        }

        // Linear in the antenna's noise power: two readings give gain and own noise, the third must lie on their line.
        double unit = Math.Pow(10, (_kt0 + (10 * Math.Log10(BandwidthHz))) / 10);
        double gain = (Milliwatts(20) - Milliwatts(0)) / (99 * unit), own = Milliwatts(0) - (gain * unit);
        Assert.Equal(1, Milliwatts(40) / (own + (gain * unit * 10_000)), 1e-9);
        Assert.True(own > 0);
        Assert.Equal(Milliwatts(null), Milliwatts(0), 1e-9 * Milliwatts(0));
        Assert.True(10 * Math.Log10(gain) >= chain.GainDb(Hertz) - 1e-9); // available gain is never under the inserted one
    });

    /// <summary>Twice the bandwidth, twice the noise; a worse receiver, no less of it.</summary>
    [Fact]
    public void NoiseFloorDbm_goes_with_bandwidth_and_noise_figure() => Gen.Select(_chains, Gen.Double[-10, 30].Nullable(0.3)).Sample(
        static (of, external) =>
        {
            double one = Chain(of).NoiseFloorDbm(Hertz, BandwidthHz, external);
            Assert.Equal(one + (10 * Math.Log10(2)), Chain(of).NoiseFloorDbm(Hertz, 2 * BandwidthHz, external), 1e-9);
            Assert.True(Chain((of.Sections, of.Amplifiers, of.FigureDb + 1)).NoiseFloorDbm(Hertz, BandwidthHz, external) > one);
        });

    /// <summary>
    /// The band of a mismatch: no pair of phases of antenna and receiver lies outside, and some pairs reach both ends.
    /// </summary>
    [Fact]
    public void MismatchBandDb_holds_every_phase_and_is_no_wider() =>
        Gen.Select(_filter, Gen.Double[0, 0.8], Gen.Double[0, 0.8]).Sample(static (filter, antenna, receiver) =>
        {
            ScatteringMatrix s = filter.At(Hertz);
            (double low, double high) = Chain(([[filter]], [], 6)).MismatchBandDb(Hertz, antenna, receiver);
            double least = double.PositiveInfinity, greatest = double.NegativeInfinity;
            const int steps = 120;
            for (int i = 0; i < steps; i++)
            {
                for (int k = 0; k < steps; k++)
                {
                    Complex a = Complex.FromPolarCoordinates(antenna, 2 * Math.PI * i / steps);
                    Complex r = Complex.FromPolarCoordinates(receiver, 2 * Math.PI * k / steps);
                    double db = -20 * Math.Log10((((1 - (s.S11 * a)) * (1 - (s.S22 * r))) - (s.S12 * s.S21 * a * r)).Magnitude);
                    (least, greatest) = (Math.Min(least, db), Math.Max(greatest, db));
                }
            }

            Assert.True(low <= least + 1e-6 && high >= greatest - 1e-6, $"{low} to {high} holds not {least} to {greatest}");
            Assert.Equal(least, low, 0.02);
            Assert.Equal(greatest, high, 0.02);
            Assert.True(low <= 1e-9 && high >= -1e-9);
        }, iter: 40);
}
