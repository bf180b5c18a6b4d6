using CsCheck;
using Google.OrTools.LinearSolver;
using Spurless.Mixing.Cures;

namespace Spurless.Mixing.Tests.Cures;

/// <summary>
/// The closed form against a general library's solver of linear programs (GLOP of OR-Tools) and against a grid.
/// </summary>
public sealed class LeastAttenuationTests
{
    private const double Tolerance = 1e-6;

    private static readonly Gen<(double[] Ease, FallNeeded[] Products)> _problems =
        Gen.Int[1, 7].SelectMany(static carriers => Gen.Select(
            Gen.Double[0.05, 60].Array[carriers],
            Gen.Select(
                Gen.Int[0, carriers - 1].Array[1, 4],
                Gen.Int[1, 4].Array[4],
                Gen.Double[-5, 90],
                static (which, times, fall) =>
                {
                    int[] distinct = [.. which.Distinct()];
                    return new FallNeeded(distinct, times[..distinct.Length], fall);
                }).Array[1, 12]));

    [Fact]
    public void Of_any_problem_is_the_solution_of_the_linear_programs_one_after_the_other() =>
        _problems.Sample(static (ease, products) =>
        {
            double[] needed = LeastAttenuation.Of(products, ease);
            double[] expected = OneAfterTheOther(ease, products);
            Assert.Equal(expected.Length, needed.Length);
            for (int i = 0; i < needed.Length; i++)
            {
                // What the linear programs leave out as nothing is a ratio of up to Tolerance, in dB that times what the filter does there.
                double within = Tolerance * (Math.Max(1, expected[i]) + ease[i]);
                Assert.True(Math.Abs(expected[i] - needed[i]) <= within, $"carrier {i}: {needed[i]}, not {expected[i]}");
            }
        }, iter: 200);

    [Fact]
    public void Of_any_problem_lets_every_product_fall_far_enough_and_no_carrier_can_be_lowered() =>
        _problems.Sample(static (ease, products) =>
        {
            double[] needed = LeastAttenuation.Of(products, ease);
            Assert.All(products, p => Assert.True(Fall(p, needed) >= p.FallDb - 1e-9));
            for (int i = 0; i < needed.Length; i++)
            {
                if (needed[i] > 0)
                {
                    Assert.Contains(products, p => p.Carriers.Contains(i) && Math.Abs(Fall(p, needed) - p.FallDb) < 1e-6);
                }
            }
        });

    // By hand: 2A - B must fall 30 dB, A is twice as easy as B, so r (2 * 2 + 1) = 30, r = 6. A + C - D must fall 20: A gives 12, C and D
    // alike give 8.
    [Fact]
    public void Of_two_products_is_what_one_reckons_by_hand()
    {
        double[] needed = LeastAttenuation.Of(
            [new([0, 1], [2, 1], 30), new([0, 2, 3], [1, 1, 1], 20)], [2, 1, 1, 1]);

        Assert.Equal([12, 6, 4, 4], needed.Select(static n => Math.Round(n, 9)));
    }

    // No point of a fine grid that holds every product asks less of the filter where it is asked most.
    [Fact]
    public void Of_three_carriers_no_point_of_a_grid_asks_less() =>
        Gen.Select(
            Gen.Double[1, 30].Array[3],
            Gen.Select(Gen.Int[0, 3].Array[3], Gen.Double[5, 40]).Array[1, 4]).Sample(static (ease, rows) =>
        {
            FallNeeded[] products =
            [
                .. rows.Where(static r => r.Item1.Sum() > 0).Select(static r => new FallNeeded(
                    [.. Enumerable.Range(0, 3).Where(i => r.Item1[i] > 0)], [.. r.Item1.Where(static k => k > 0)], r.Item2)),
            ];
            double[] needed = LeastAttenuation.Of(products, ease);
            double greatest = Enumerable.Range(0, 3).Max(i => needed[i] / ease[i]);
            const int Steps = 24;
            for (int n = 0; n < Steps * Steps * Steps; n++)
            {
                double[] point = [.. Enumerable.Range(0, 3).Select(i => 40.0 / Steps * (n / (int)Math.Pow(Steps, i) % Steps))];
                if (products.All(p => Fall(p, point) >= p.FallDb))
                {
                    Assert.True(Enumerable.Range(0, 3).Max(i => point[i] / ease[i]) >= greatest - 1e-9);
                }
            }
        }, iter: 60);

    private static double Fall(FallNeeded product, double[] attenuation) =>
        product.Carriers.Select((c, t) => product.Times[t] * attenuation[c]).Sum();

    // Minimise the greatest ratio; those that must have it are fixed there; again for the rest.
    private static double[] OneAfterTheOther(double[] ease, FallNeeded[] products)
    {
        double[] found = new double[ease.Length];
        bool[] done = new bool[ease.Length];
        while (!done.All(static d => d))
        {
            double greatest = Minimum(ease, products, found, done, alone: -1, limit: double.PositiveInfinity);
            int[] free = [.. Enumerable.Range(0, ease.Length).Where(i => !done[i])];
            if (greatest < Tolerance)
            {
                break; // what is left is nothing, as far as the solver knows
            }

            int[] bound =
            [
                .. free.Where(i => Minimum(ease, products, found, done, alone: i, limit: greatest) > greatest * (1 - 1e-7)),
            ];
            Assert.NotEmpty(bound);
            foreach (int i in bound)
            {
                (done[i], found[i]) = (true, greatest * ease[i]);
            }
        }

        return found;
    }

    /// <summary>The least of the greatest ratio, or of one carrier's ratio where all are limited.</summary>
    private static double Minimum(double[] ease, FallNeeded[] products, double[] found, bool[] done, int alone, double limit)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        Variable greatest = solver.MakeNumVar(0, double.PositiveInfinity, "t");
        Variable[] a =
        [
            .. ease.Select((e, i) => done[i]
                ? solver.MakeNumVar(found[i], found[i], $"a{i}")
                : solver.MakeNumVar(0, double.IsFinite(limit) ? limit * e * (1 + 1e-10) : double.PositiveInfinity, $"a{i}")),
        ];
        foreach (FallNeeded product in products)
        {
            Constraint falls = solver.MakeConstraint(product.FallDb, double.PositiveInfinity, "falls");
            for (int t = 0; t < product.Carriers.Count; t++)
            {
                falls.SetCoefficient(a[product.Carriers[t]], product.Times[t]);
            }
        }

        for (int i = 0; i < a.Length; i++)
        {
            if (!done[i] && (alone < 0 || alone == i))
            {
                Constraint under = solver.MakeConstraint(double.NegativeInfinity, 0, "under");
                under.SetCoefficient(a[i], 1 / ease[i]);
                under.SetCoefficient(greatest, -1);
            }
        }

        solver.Objective().SetCoefficient(greatest, 1);
        solver.Objective().SetMinimization();
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return greatest.SolutionValue();
    }
}
