using System.Numerics;
using CsCheck;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit.Tests;

/// <summary>
/// What a sweep's noise, its floor, leakage and an error of the model are taken for: laws that any such estimate keeps, and sweeps made
/// so that the answer is known.
/// </summary>
public sealed class FitNoiseTests
{
    private const int Points = 201;
    private static readonly double[] Frequencies = DemoFilter.Grid(100e6, 200e6, Points);

    // Third differences know nothing of a curve of the second degree, on any grid; the noise is as large as the numbers are written.
    [Fact]
    public void Noise_does_not_know_a_parabola_under_it_and_grows_with_its_scale() =>
        Gen.Select(Gen.Int[1, 1_000_000], Gen.Double[-3, 3].Array[3], Gen.Double[-4, 1]).Sample(
            static (seed, bend, decades) =>
            {
                SeededNoise random = new((ulong)seed);
                double[] f = [.. Frequencies.Select(v => v + (1e5 * random.Uniform()))], growth = new double[Points];
                Complex[] noise = [.. f.Select(_ => random.Gauss())];
                bool[] used = [.. f.Select(static _ => true)];
                Array.Fill(growth, 1);
                double scale = Math.Pow(10, decades);
                double Bend(double v) => bend[0] + (bend[1] * (v - f[0]) / 1e8) + (bend[2] * Math.Pow((v - f[0]) / 1e8, 2));

                TraceNoise plain = NoiseEstimate.Of(
                    f, [.. noise.Select(static n => n.Real)], [.. noise.Select(static n => n.Imaginary)], growth, used);
                TraceNoise bent = NoiseEstimate.Of(
                    f, [.. noise.Select((n, i) => scale * (n.Real + Bend(f[i])))],
                    [.. noise.Select((n, i) => scale * (n.Imaginary - Bend(f[i])))], growth, used);

                double before = plain.Floor + plain.Share, after = bent.Floor + bent.Share;
                Assert.InRange(after / (before * scale * scale), 1 - 1e-6, 1 + 1e-6);

                // Real and imaginary part have a variance of 1 each: 2 in all, by 197 differences of which a third or so are independent.
                Assert.InRange(before, 1.2, 3.0);
            });

    [Fact]
    public void Noise_of_too_few_points_is_not_known_and_points_that_do_not_count_do_not()
    {
        SeededNoise random = new(7);
        double[] re = [.. Frequencies.Select(_ => random.Normal())], im = new double[Points], growth = new double[Points];
        bool[] used = [.. Frequencies.Select(static (_, i) => i % 4 != 3)];
        Assert.Equal(default, NoiseEstimate.Of(Frequencies, re, im, growth, used));
        Assert.Equal(default, NoiseEstimate.Of(Frequencies.AsSpan(0, 10), re, im, growth, [.. Enumerable.Repeat(true, 10)]));

        // A half that is wild and does not count changes nothing.
        bool[] half = [.. Frequencies.Select(static (_, i) => i < 100)];
        TraceNoise before = NoiseEstimate.Of(Frequencies, re, im, growth, half);
        for (int i = 100; i < Points; i++)
        {
            re[i] *= 1e6;
        }

        Assert.Equal(before, NoiseEstimate.Of(Frequencies, re, im, growth, half));
    }

    // Where over nine points no more than four times the floor's power stands, nothing of the circuit is seen; reflections are never
    // left out. Counted here point by point.
    [Fact]
    public void Points_in_the_floor_are_those_over_which_little_more_than_the_floor_stands() =>
        Gen.Select(Gen.Int[1, 100_000], Gen.Double[-80, -30], Gen.Double[0.05, 0.4]).Sample(static (seed, floorDb, width) =>
        {
            FitData data = Data(i =>
            {
                double away = ((double)i / (Points - 1)) - 0.5;
                Complex pass = 1 / new Complex(1, 20 * away / width);
                return new ScatteringMatrix(0.01, pass * pass, pass * pass, 0.01);
            }, Math.Pow(10, floorDb / 20), (ulong)seed);
            TraceNoise[] noise = SweepWeights.Set(data, null);

            int[] left = SweepWeights.LeaveOutFloor(data, noise);

            for (int t = 0; t < 4; t++)
            {
                bool transmission = data.Parameters[t] is SweepParameter.S21 or SweepParameter.S12;
                int wanted = 0;
                for (int i = 0; i < Points; i++)
                {
                    int[] near = [.. Enumerable.Range(i - 4, 9).Where(static k => k is >= 0 and < Points)];
                    bool floor = transmission && near.Average(k => Square(data, t, k)) < 4 * noise[t].Floor;
                    wanted += floor ? 1 : 0;
                    Assert.Equal(floor, data.Weight[t][i] == 0);
                }

                Assert.Equal(wanted, left[t]);
            }
        });

    // White noise is no error of the model; what bends slowly through the sweep is, and it is as large as it was made: the rms of a
    // sine is its amplitude over the root of two.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, 0.004)]
    [InlineData(3, 0.02)]
    [InlineData(9, 0.01)]
    public void Left_over_is_what_bends_slowly_and_not_the_noise(int waves, double amplitude)
    {
        ScatteringMatrix[] truth = DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies);
        (FitModel model, FitWorkspace w) = Fitted(i =>
        {
            double error = amplitude * Math.Sin(2 * Math.PI * waves * i / Points);
            return truth[i] with { S11 = truth[i].S11 + error };
        }, 1e-3);

        double[] over = ModelError.LeftOver(model, new double[model.Count], w);
        FitData counted = ModelError.Counted(model, new double[model.Count], w, out double widened);

        Assert.All(over[1..], static o => Assert.Equal(0, o));
        Assert.InRange(over[0], amplitude / Math.Sqrt(2) * 0.9, amplitude / Math.Sqrt(2) * 1.1);
        Assert.Equal(amplitude > 0, widened > 1);
        for (int i = 0; i < Points; i++)
        {
            Assert.Equal(model.Data.Weight[1][i], counted.Weight[1][i]);
            Assert.True(amplitude == 0 ? counted.Weight[0][i] == model.Data.Weight[0][i] : counted.Weight[0][i] < model.Data.Weight[0][i]);
        }
    }

    [Fact]
    public void A_single_wild_point_is_no_error_of_the_model()
    {
        ScatteringMatrix[] truth = DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies);
        (FitModel model, FitWorkspace w) = Fitted(i => i == 70 ? truth[i] with { S11 = truth[i].S11 + 0.5 } : truth[i], 1e-3);

        // Of its neighbours' noise something may be alike by chance: next to nothing of the half that the point is off.
        Assert.InRange(ModelError.LeftOver(model, new double[model.Count], w)[0], 0, 0.005);
    }

    // Leakage holds a transmission up under some level while all above is explained: only what lies under it goes, and of transmissions
    // alone.
    [Theory]
    [InlineData(-60)]
    [InlineData(-70)]
    public void Leakage_takes_out_what_lies_under_it_and_nothing_that_is_explained(double leakageDb)
    {
        ScatteringMatrix[] truth = DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies);
        double leak = Math.Pow(10, leakageDb / 20);
        (FitModel model, FitWorkspace w) = Fitted(
            i => truth[i].S21.Magnitude < leak ? truth[i] with { S21 = leak } : truth[i], 3e-5);

        int[] left = LeakageCheck.LeaveOut(model, new double[model.Count], w);

        Assert.Equal((0, 0, 0), (left[0], left[2], left[3]));
        Assert.Equal(left[1], model.Data.Weight[1][..Points].Count(static v => v == 0));
        for (int i = 0; i < Points; i++)
        {
            // Levels are looked at in steps of 2.5 dB, 5 dB of them at a time.
            double level = 20 * Math.Log10(truth[i].S21.Magnitude);
            Assert.True(
                (level < leakageDb && model.Data.Weight[1][i] == 0) || (level > leakageDb + 5.5 && model.Data.Weight[1][i] > 0)
                    || (level >= leakageDb && level <= leakageDb + 5.5),
                $"{level} dB");
        }
    }

    [Fact]
    public void Without_leakage_nothing_is_taken_out()
    {
        ScatteringMatrix[] truth = DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies);
        (FitModel model, FitWorkspace w) = Fitted(i => truth[i], 3e-5);

        Assert.All(LeakageCheck.LeaveOut(model, new double[model.Count], w), static l => Assert.Equal(0, l));
    }

    private static (FitModel Model, FitWorkspace Memory) Fitted(Func<int, ScatteringMatrix> measured, double noise)
    {
        FitData data = Data(measured, noise, 11);
        foreach (double[] weight in data.Weight)
        {
            // One over the sigma of each part of a complex number.
            Array.Fill(weight, Math.Sqrt(2) / noise, 0, Points);
        }

        FitModel model = new(CircuitSolver.Create(DemoFilter.ThreeTanks), [], data, InstrumentErrors.PlanesOnly);
        FitWorkspace w = model.CreateWorkspace();
        model.Cost(new double[model.Count], w);
        return (model, w);
    }

    private static FitData Data(Func<int, ScatteringMatrix> of, double noise, ulong seed)
    {
        SeededNoise random = new(seed);
        Complex Seen(Complex s) => s + (noise / Math.Sqrt(2) * random.Gauss());
        ScatteringMatrix[] points = [.. Frequencies.Select((_, i) => of(i)).Select(s =>
            new ScatteringMatrix(Seen(s.S11), Seen(s.S12), Seen(s.S21), Seen(s.S22)))];
        return new FitData(FitSweep.From(
            TouchstoneData.Create("made.s2p", 2, [.. Frequencies], [.. points], [new Complex(50, 0)]), 50));
    }

    private static double Square(FitData data, int t, int i) =>
        (data.Real[t][i] * data.Real[t][i]) + (data.Imaginary[t][i] * data.Imaginary[t][i]);
}
