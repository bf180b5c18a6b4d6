using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Prototypes;

/// <summary>
/// Predistorted prototypes, held to what they are for: with the loss in every element the response is the plain shape plus one loss at
/// every frequency (S. Darlington 1939, M. Dishal 1949; from memory).
/// </summary>
public class PredistortedTests
{
    // Butterworth's |S21|^2 = 1/(1 + w^2n), Chebyshev's 1/(1 + e^2 T^2): closed forms; the ladder by chain matrices of its own here.
    [Theory]
    [InlineData(2, null, 0.05)]
    [InlineData(2, null, 0.4)]
    [InlineData(3, null, 0.02)]
    [InlineData(3, null, 0.3)]
    [InlineData(4, null, 0.1)]
    [InlineData(5, null, 0.1)]
    [InlineData(2, 0.1, 0.3)]
    [InlineData(3, 0.01, 0.1)]
    [InlineData(3, 0.1, 0.2)]
    [InlineData(4, 0.1, 0.05)]
    [InlineData(5, 0.5, 0.03)]
    public void Lossy_ladder_has_the_lossless_shape_and_a_flat_loss(int order, double? ripple, double d)
    {
        Predistorted found = (ripple is { } db ? Predistorted.Chebyshev(order, db, d) : Predistorted.Butterworth(order, d))!;
        Assert.True(found.FlatLossDb > 0, $"{found.FlatLossDb} dB");
        for (double w = 0; w <= 3; w += 0.05)
        {
            double shape = ripple is { } r
                ? 10 * Math.Log10(1 + ((Math.Pow(10, r / 10) - 1) * Math.Pow(Polynomial(order, w), 2)))
                : 10 * Math.Log10(1 + Math.Pow(w, 2 * order));
            Assert.Equal(shape + found.FlatLossDb, LossDb(found.Prototype, new Complex(d, w)), 1e-6);
        }
    }

    // What has no loss in it passes all power somewhere, and nowhere more: the flat loss is the least that there can be.
    [Theory]
    [InlineData(3, 0.2)]
    [InlineData(4, 0.1)]
    [InlineData(5, 0.1)]
    public void Lossless_ladder_passes_all_power_at_its_best_and_no_more(int order, double d)
    {
        Predistorted found = Predistorted.Butterworth(order, d)!;
        double[] all = [.. Enumerable.Range(0, 20_001).Select(i => LossDb(found.Prototype, new Complex(0, i * 1e-4)))];
        Assert.InRange(all.Min(), -1e-9, 1e-5);
    }

    // Two resonators, worked out by hand: k stays 1/sqrt 2, and the loading of either end gives way to the loss, 1/q = 1/sqrt 2 - d.
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    public void Two_resonators_keep_their_coupling_and_load_the_ends_less(double d)
    {
        Prototype p = Predistorted.Butterworth(2, d)!.Prototype;
        Assert.Equal(Math.Sqrt(0.5), p.Coupling(1, 1), 1e-9);
        Assert.Equal(1 / (Math.Sqrt(0.5) - d), p.FirstQ(1), 1e-9);
        Assert.Equal(1 / (Math.Sqrt(0.5) - d), p.LastQ(1), 1e-9);
    }

    // With less and less loss it becomes the plain one: of the plain closed form q1 and qn alike, k of the plain.
    [Fact]
    public void Little_loss_gives_nearly_the_plain_loss_by_Cohn()
    {
        const double d = 0.005;
        Predistorted found = Predistorted.Butterworth(3, d)!;
        double cohn = DissipationLoss.Db(Prototype.Butterworth(3), 1, 1 / d);
        Assert.InRange(found.FlatLossDb, cohn, 3 * cohn);
    }

    [Theory]
    [InlineData(3, 0.5)] // the poles of three lie half a radian from the axis
    [InlineData(5, 0.31)]
    public void More_loss_than_the_poles_are_off_the_axis_leaves_no_filter(int order, double d) =>
        Assert.Null(Predistorted.Butterworth(order, d));

    // Real tanks of coils with a Q: Butterworth's corners within a tenth of a decibel, where the plain synthesis rounds them off.
    [Fact]
    public void Tanks_of_lossy_coils_keep_Butterworths_corners()
    {
        const double f0 = 145e6, width = 2e6, q = 250, coil = 19e-9;
        double d = f0 / (width * q);
        Predistorted sharp = Predistorted.Butterworth(3, d)!;
        double worst = Worst(sharp.Prototype, out double level), round = Worst(Prototype.Butterworth(3), out _);
        Assert.Equal(sharp.FlatLossDb, level, 0.15);
        Assert.True(worst < 0.15, $"{worst} dB");
        Assert.True(round > 5 * worst, $"{round} dB");

        // Greatest departure from the shape within the 3 dB edges, and the loss in the middle.
        double Worst(Prototype prototype, out double middle)
        {
            Circuit circuit = TankFilters.Make(prototype, f0, width, coil, 50, TankEnds.SeriesCapacitor, TankJoint.Capacitor)!.Circuit;
            CircuitSolver solver = CircuitSolver.Create(circuit with
            {
                Parts = [.. circuit.Parts.Select(static p => p is Inductor l ? l with { Loss = PartLoss.QualityFactor(q, f0) } : p)],
            });
            double Loss(double hz) => -20 * Math.Log10(solver.Solve([hz])[0].S21.Magnitude);

            // The pass-band's middle, for top capacitors shift it by a little.
            double Edge(double from, double to)
            {
                double wall = Loss(f0) + 10;
                for (int i = 0; i < 60; i++)
                {
                    double at = (from + to) / 2;
                    (from, to) = Loss(at) < wall ? (at, to) : (from, at);
                }

                return from;
            }

            double high = Edge(f0, 1.1 * f0), low = Edge(f0, 0.9 * f0), centre = Math.Sqrt(high * low);
            double bandwidth = (high - low) / Math.Pow(9, 1 / 6.0); // 10 dB down: 1 + w^6 = 10
            middle = Loss(centre);
            double at0 = middle;
            return Enumerable.Range(-20, 41).Max(i => Math.Abs(
                Loss(centre + (bandwidth / 2 * i / 20)) - at0 - (10 * Math.Log10(1 + Math.Pow(i / 20.0, 6)))));
        }
    }

    private static double Polynomial(int order, double w) =>
        w <= 1 ? Math.Cos(order * Math.Acos(w)) : Math.Cosh(order * Math.Acosh(w));

    // Transducer loss of a ladder that begins with a coil in line, between 1 ohm and the load of g(n+1).
    private static double LossDb(Prototype p, Complex s)
    {
        Complex a = 1, b = 0, c = 0, d = 1;
        for (int i = 1; i <= p.Order; i++)
        {
            Complex x = s * p.G(i);
            (a, b, c, d) = i % 2 == 1 ? (a, (a * x) + b, c, (c * x) + d) : (a + (b * x), b, c + (d * x), d);
        }

        double load = p.Order % 2 == 0 ? p.G(p.Order + 1) : 1 / p.G(p.Order + 1);
        Complex all = (a * load) + b + (c * load) + d;
        return 10 * Math.Log10(Math.Pow(all.Magnitude, 2) / (4 * load));
    }
}
