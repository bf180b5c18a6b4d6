using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Tuning;
using Spurless.Numerics;

namespace Spurless.Design.Tests.Tuning;

/// <summary>
/// Specimens as they are drawn for a yield: within the parts' tolerances, even in them, independent, and the same for a seed.
/// </summary>
public class DrawTests
{
    private const int Specimens = 4_000;

    private static readonly CircuitSolver _solver = CircuitSolver.Create(new Circuit
    {
        Name = "three",
        PortIn = "a",
        PortOut = "b",
        Parts =
        [
            new Inductor
            {
                Name = "L1", From = "a", To = "b", Inductance = PartValue.Known(50e-9), Tolerance = PartTolerance.Uniform(0.1),
                Loss = PartLoss.QualityFactor(150, 145e6),
            },
            new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(22e-12),
                Tolerance = PartTolerance.Uniform(0.02) },
            new Capacitor { Name = "C2", From = "b", To = Circuit.Ground, Capacitance = PartValue.Known(22e-12) },
        ],
    });

    private static double[][] Drawn(ulong seed)
    {
        double[] nominal = _solver.NominalValues();
        CounterRandom random = new(seed, nominal.Length);
        double[][] all = new double[Specimens][];
        for (int i = 0; i < Specimens; i++)
        {
            TunedYield.Draw(_solver, nominal, all[i] = new double[nominal.Length], random, i);
        }

        return all;
    }

    /// <summary>Mean, standard deviation (w/sqrt 3) and ends of an even spread of half-width w; five standard errors of each.</summary>
    [Theory]
    [InlineData(1UL)]
    [InlineData(77UL)]
    public void Draw_is_even_within_the_tolerance(ulong seed)
    {
        double[] nominal = _solver.NominalValues();
        double[][] all = Drawn(seed);
        for (int p = 0; p < nominal.Length; p++)
        {
            CircuitParameter parameter = _solver.Parameters[p];
            double w = parameter is { Part: "L1", IsPartValue: true } ? 0.1 : parameter.Part == "C1" ? 0.02 : 0;
            double[] off = [.. all.Select(d => (d[p] / nominal[p]) - 1)];
            Assert.All(off, o => Assert.InRange(o, -w - 1e-12, w + 1e-12));
            if (w == 0)
            {
                Assert.All(off, static o => Assert.Equal(0, o)); // neither a part without a tolerance nor a quality spreads
                continue;
            }

            double mean = off.Average(), sigma = Math.Sqrt(off.Average(o => (o - mean) * (o - mean)));
            Assert.Equal(0, mean, 5 * w / Math.Sqrt(3.0 * Specimens));
            Assert.Equal(w / Math.Sqrt(3), sigma, 5 * w / Math.Sqrt(5.0 * Specimens));
            Assert.True(off.Max() > 0.99 * w && off.Min() < -0.99 * w);

            // Ten classes of equal width: 400 in each, chi squared of nine under 27.9 (0.1 %, table).
            double chi = off.GroupBy(o => Math.Min(9, (int)((o + w) / (2 * w) * 10))).Sum(static g => Math.Pow(g.Count() - 400, 2) / 400);
            Assert.InRange(chi, 0, 27.9);
        }
    }

    [Fact]
    public void Draw_of_two_parts_is_independent_and_of_one_seed_the_same()
    {
        double[] nominal = _solver.NominalValues();
        int coil = Enumerable.Range(0, nominal.Length).Single(static p => _solver.Parameters[p] is { Part: "L1", IsPartValue: true });
        int capacitor = Enumerable.Range(0, nominal.Length).Single(static p => _solver.Parameters[p].Part == "C1");
        double[][] all = Drawn(5);
        double product = all.Average(d => ((d[coil] / nominal[coil]) - 1) / 0.1 * (((d[capacitor] / nominal[capacitor]) - 1) / 0.02));
        Assert.Equal(0, product, 5 / (3 * Math.Sqrt(Specimens)));
        Assert.Equal(all, Drawn(5));
        Assert.NotEqual(all[0], Drawn(6)[0]);
    }
}
