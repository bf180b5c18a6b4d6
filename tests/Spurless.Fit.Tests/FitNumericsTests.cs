using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using Spurless.Numerics;
using Complex = System.Numerics.Complex;

namespace Spurless.Fit.Tests;

/// <summary>The numerics under the fit against finite differences, the general library and hand figures.</summary>
public sealed class FitNumericsTests
{
    [Theory]
    [InlineData(0, false)]
    [InlineData(1, false)]
    [InlineData(2, false)]
    [InlineData(3, true)]
    [InlineData(4, false)]
    [InlineData(4, true)]
    public void Gradient_is_that_of_finite_differences(int number, bool magnitudes)
    {
        (FitModel model, double[] x) = At(number, magnitudes, whole: true);
        FitWorkspace w = model.CreateWorkspace();
        SeededNoise random = new(77);
        for (int i = 0; i < model.Unknowns.Length; i++)
        {
            x[i] += 0.01 * random.Between(-1, 1);
        }

        double[] a = new double[model.Count * model.Count], g = new double[model.Count];
        double cost = model.Normal(x, w, a, g);
        Assert.Equal(cost, model.Cost(x, w), 1e-9 * cost);
        for (int i = 0; i < model.Count; i++)
        {
            // Half of the cost's derivative is J^T r; central differences, step 1e-5, error of the order of the square of it.
            double step = 1e-5;
            double[] up = [.. x], down = [.. x];
            up[i] += step;
            down[i] -= step;
            double numeric = (model.Cost(up, w) - model.Cost(down, w)) / (4 * step);
            Assert.InRange(g[i] - numeric, -2e-4 * (Math.Abs(numeric) + Math.Sqrt(cost)), 2e-4 * (Math.Abs(numeric) + Math.Sqrt(cost)));
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Minimum_is_never_worse_than_that_of_the_general_librarys_optimiser_from_the_truth(int number)
    {
        (FitModel model, double[] truth) = At(number, magnitudes: false);
        FitWorkspace w = model.CreateWorkspace();
        double[] own = [.. truth];
        double found = BoundedLeastSquares.Run(new FitSquares(model, w), own, 200, 1e-10, CancellationToken.None).Cost;

        // MathNet.Numerics 5.0.0, BFGS within bounds on the same cost with its own gradient, scaled so that one unit is about one sigma.
        double[] a = new double[model.Count * model.Count], g = new double[model.Count];
        model.Normal(truth, w, a, g);
        double[] scale = [.. Enumerable.Range(0, model.Count).Select(i => 1 / Math.Sqrt(a[(i * model.Count) + i]))];
        double[] Place(Vector<double> z) => [.. z.Select((v, i) => truth[i] + (v * scale[i]))];
        IObjectiveFunction objective = ObjectiveFunction.Gradient(
            z => model.Cost(Place(z), w),
            z =>
            {
                model.Normal(Place(z), w, a, g);
                return Vector<double>.Build.DenseOfEnumerable(g.Select((v, i) => 2 * v * scale[i]));
            });
        double theirs;
        try
        {
            theirs =
                new BfgsMinimizer(1e-6, 1e-8, 1e-10, 2000)
                    .FindMinimum(objective, Vector<double>.Build.Dense(model.Count)).FunctionInfoAtMinimum.Value;
        }
        catch (OptimizationException)
        {
            // Its line search gives up at the bottom: the place it stood at counts.
            theirs = objective.Value;
        }

        Assert.True(found <= theirs * (1 + 1e-6), $"own {found}, library {theirs}");
    }

    [Fact]
    public void Search_comes_to_the_minimum_that_lies_by_the_truth()
    {
        for (int number = 0; number < 5; number++)
        {
            (FitModel model, double[] truth) = At(number, magnitudes: false);
            double bottom = BoundedLeastSquares.Run(new FitSquares(model, model.CreateWorkspace()), truth, 200, 1e-10,
                CancellationToken.None).Cost;
            TraceNoise[] noise = [.. model.Data.Parameters.Select(static _ => new TraceNoise(1e-6, 0))];
            FitSearch search = new(Problem(FitCase.Make(number), whole: false), model.Data, noise, 5, 32, 0);
            Assert.InRange(search.Run(null, CancellationToken.None)[0].Cost, 0, (bottom * 1.0001) + 0.1);
        }
    }

    [Fact]
    public void Noise_is_found_from_third_differences_in_both_its_parts()
    {
        // White noise of 2e-3 plus one part in 200 of the signal, on a bent curve and an uneven grid; 4,000 points: 3 % of scatter in a
        // variance.
        SeededNoise random = new(91);
        double[] f = [.. Enumerable.Range(0, 4000).Select(i => 1e8 + (1e4 * i) + (3e3 * Math.Sin(i)))];
        Complex[] signal = [.. f.Select(static v => Complex.FromPolarCoordinates(0.5 + (0.5 * Math.Cos(v / 8e6)), v / 5e6))];
        Complex[] seen = [.. signal.Select(s => s + (2e-3 / Math.Sqrt(2) * random.Gauss()) + (s * (5e-3 / Math.Sqrt(2)) * random.Gauss()))];
        double[] growth = [.. signal.Select(static s => s.Magnitude * s.Magnitude)];
        bool[] used = [.. f.Select(static _ => true)];
        TraceNoise noise = NoiseEstimate.Of(
            f, [.. seen.Select(static s => s.Real)], [.. seen.Select(static s => s.Imaginary)], growth, used);
        Assert.InRange(Math.Sqrt(noise.Floor), 1.8e-3, 2.2e-3);
        Assert.InRange(Math.Sqrt(noise.Share), 4.6e-3, 5.4e-3);
    }

    [Fact]
    public void Eigenvalues_are_those_of_the_general_library()
    {
        SeededNoise random = new(5);
        const int N = 12;
        Matrix<double> b = Matrix<double>.Build.Dense(N, N, (_, _) => random.Normal());
        Matrix<double> a = b * b.Transpose();
        (double[] values, double[] vectors) = SymmetricEigen.Of(a.ToRowMajorArray(), N);
        double[] theirs = [.. a.Evd(Symmetricity.Symmetric).EigenValues.Select(static v => v.Real).Order()];
        for (int k = 0; k < N; k++)
        {
            Assert.Equal(theirs[k], values[k], 1e-9 * theirs[^1]);
            Vector<double> v = Vector<double>.Build.Dense(N, i => vectors[(i * N) + k]);
            Assert.InRange(((a * v) - (values[k] * v)).L2Norm(), 0, 1e-9 * theirs[^1]);
        }
    }

    private static FitProblem Problem(FitCase one, bool whole) => FitProblem.TryMake(
        one.Traced, s => FitUnknown.In(one.Traced, s), whole, whole ? InstrumentErrors.Of(Calibration.Poor) : InstrumentErrors.PlanesOnly)!;

    private static (FitModel Model, double[] Truth) At(int number, bool magnitudes, bool whole = false)
    {
        FitCase one = FitCase.Make(number);
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(one.Traced);
        FitData data;
        if (magnitudes)
        {
            (double[] s21, double[] s11) = one.Magnitudes();
            data = new(FitSweep.OfMagnitudes("case", one.Grid, [.. s21], [.. s11]));
        }
        else
        {
            data = new(FitSweep.From(one.Sweep(), 50));
        }

        for (int t = 0; t < data.Parameters.Length; t++)
        {
            Array.Fill(data.Weight[t], magnitudes ? 5 : Math.Sqrt(2) * 1e3, 0, data.Points);
        }

        FitProblem problem = Problem(one, whole);
        FitModel model = problem.Fine(data);
        double[] x = problem.Place([.. unknowns.Select(u => u.To(one.Truth(u.Part, u.Quantity)))], model.Count);
        SeededNoise random = new(77);

        // Whole: with parasitics and an instrument that is off by about a sigma in everything.
        for (int i = model.Unknowns.Length; whole && i < model.Count; i++)
        {
            x[i] = model.Instrument!.Sigmas[i - model.Unknowns.Length] * random.Between(-1, 1);
        }

        return (model, x);
    }
}
