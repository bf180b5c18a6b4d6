using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

public sealed class CircuitSolverPropertyTests
{
    private static readonly RandomCircuits.Kinds Everything = new(
        Lossy: true, Lines: true, Couplings: true, Transformers: true, Blocks: true);

    /// <summary>
    /// Against a dense solve by a general library of equations set up another way. 1e-8: both lose digits at resonances of high Q.
    /// </summary>
    [Fact]
    public void Solve_random_network_equals_dense_solve_of_a_general_library() =>
        Gen.Select(RandomCircuits.Of(Everything), RandomCircuits.Frequency).Sample((c, f) =>
        {
            ScatteringMatrix expected = DenseOracle.Solve(c, f);
            Near(expected, CircuitSolver.Create(c).Solve([f])[0], 1e-8 * (1 + Largest(expected)));
        }, iter: 400);

    [Fact]
    public void Solve_batch_kernel_equals_dense_solve_of_a_general_library() =>
        Gen.Select(RandomCircuits.Of(Everything with { Transformers = false, Blocks = false }), RandomCircuits.Frequency).Sample((c, f) =>
        {
            CircuitSolver solver = CircuitSolver.Create(c);
            Near(DenseOracle.Solve(c, f), solver.Solve([f])[0], 1e-9);
        }, iter: 400);

    [Fact]
    public void Solve_batch_kernel_and_pivoted_solver_agree() =>
        Gen.Select(RandomCircuits.Of(Everything with { Transformers = false, Blocks = false }, 20), RandomCircuits.Frequency)
            .Sample((c, f) =>
        {
            CircuitSolver solver = CircuitSolver.Create(c);
            Assert.Null(solver.Pivoted(f, solver.NominalValues(), solver.CreateWorkspace(), out ScatteringMatrix pivoted));
            Near(pivoted, solver.Solve([f])[0], 1e-10);
        }, iter: 400);

    [Fact]
    public void Solve_reciprocal_network_is_symmetric_and_passive() =>
        Gen.Select(RandomCircuits.Of(Everything with { Blocks = false }), RandomCircuits.Frequency).Sample((c, f) =>
        {
            ScatteringMatrix s = CircuitSolver.Create(c).Solve([f])[0];
            Assert.True((s.S21 - s.S12).Magnitude < 1e-10, $"S21 {s.S21}, S12 {s.S12}");
            Assert.True(s.LargestSingularValue < 1 + 1e-10);
        }, iter: 400);

    /// <summary>The pivoted solver does not assume reciprocity: S12 and S21 come from two different solutions there.</summary>
    [Fact]
    public void Solve_lossless_network_conserves_energy() =>
        Gen.Select(RandomCircuits.Of(new(Lossy: false, Lines: true, Couplings: true, Transformers: true)), RandomCircuits.Frequency)
            .Sample((c, f) =>
        {
            ScatteringMatrix s = CircuitSolver.Create(c).Solve([f])[0];
            Assert.Equal(1, Norm(s.S11) + Norm(s.S21), 1e-10);
            Assert.Equal(1, Norm(s.S22) + Norm(s.S12), 1e-10);
            Assert.True(((s.S11 * Complex.Conjugate(s.S12)) + (s.S21 * Complex.Conjugate(s.S22))).Magnitude < 1e-10);
        }, iter: 400);

    [Fact]
    public void Solve_values_over_twelve_decades_sixty_nodes_keep_energy_and_agree()
    {
        for (int seed = 1; seed <= 12; seed++)
        {
            Circuit c = RandomCircuits.Make(new(Lossy: false), 60, new Random(seed), decades: 10);
            CircuitSolver solver = CircuitSolver.Create(c);
            double[] f = [1e6, 30e6, 100e6, 145e6, 500e6, 2e9];
            ScatteringMatrix[] s = solver.Solve(f);
            SolverWorkspace w = solver.CreateWorkspace();
            for (int i = 0; i < f.Length; i++)
            {
                Assert.Equal(1, Norm(s[i].S11) + Norm(s[i].S21), 1e-10);
                Assert.Null(solver.Pivoted(f[i], solver.NominalValues(), w, out ScatteringMatrix pivoted));
                Near(pivoted, s[i], 1e-9);
            }
        }
    }

    [Fact]
    public void Solve_many_frequencies_equals_one_at_a_time()
    {
        Circuit c = RandomCircuits.Make(Everything with { Transformers = false, Blocks = false }, 12, new Random(7));
        CircuitSolver solver = CircuitSolver.Create(c);
        double[] f = [.. Enumerable.Range(0, 37).Select(static i => 50e6 + (i * 3.1e6))];
        ScatteringMatrix[] together = solver.Solve(f);
        for (int i = 0; i < f.Length; i++)
        {
            Assert.Equal(solver.Solve([f[i]])[0], together[i]);
        }
    }

    /// <summary>
    /// Central differences in two step sizes with Richardson's extrapolation: error about h^4 times the fifth derivative, and rounding
    /// 1e-16 / h. Both solvers, all kinds of parts.
    /// </summary>
    [Fact]
    public void SolveWithGradient_equals_finite_differences() =>
        Gen.Select(RandomCircuits.Of(Everything, 6), RandomCircuits.Frequency).Sample((c, f) => Differences(c, f), iter: 150);

    [Fact]
    public void SolveWithGradient_batch_kernel_equals_finite_differences() =>
        Gen
            .Select(RandomCircuits.Of(Everything with { Blocks = false, Transformers = false }, 8), RandomCircuits.Frequency)
            .Sample((c, f) => Differences(c, f), iter: 150);

    [Fact]
    public void SolveWithGradient_batch_kernel_and_pivoted_solver_agree()
    {
        // A transformer of equal turns between a node of its own and ground changes nothing but the way the network is solved.
        for (int seed = 1; seed < 40; seed++)
        {
            Circuit c = RandomCircuits.Make(Everything with { Blocks = false, Transformers = false }, 7, new Random(seed));
            Circuit pivoted = c with
            {
                Parts = [.. c.Parts, new Resistor { Name = "RX", From = "x", To = Circuit.Ground, Resistance = PartValue.Known(1e15) },
                    new Transformer
                    {
                        Name = "XX",
                        FirstTurns = 1,
                        SecondTurns = 1,
                        FirstFrom = "x",
                        FirstTo = Circuit.Ground,
                        SecondFrom = "n0",
                        SecondTo = Circuit.Ground,
                    }],
            };
            double[] f = [43e6, 101e6, 333e6];
            CircuitSolver one = CircuitSolver.Create(c), two = CircuitSolver.Create(pivoted);
            GradientBuffer a = new(one, 3, GradientParts.All), b = new(two, 3, GradientParts.All);
            ScatteringMatrix[] s = new ScatteringMatrix[3];
            SolverWorkspace w = two.CreateWorkspace();
            Assert.Null(one.SolveWithGradient(f, one.NominalValues(), one.CreateWorkspace(), s, a));
            Assert.Null(two.SolveWithGradient(f, two.NominalValues(), w, s, b));
            Assert.Equal(3, w.PivotedPoints);
            for (int p = 0; p < one.Parameters.Count; p++)
            {
                double x = one.NominalValues()[p];
                for (int i = 0; i < 3; i++)
                {
                    Close(a.S11(p, i) * x, b.S11(p, i) * x, 1e-9);
                    Close(a.S21(p, i) * x, b.S21(p, i) * x, 1e-9);
                    Close(a.S22(p, i) * x, b.S22(p, i) * x, 1e-9);
                }
            }
        }
    }

    private static void Differences(Circuit c, double f)
    {
        CircuitSolver solver = CircuitSolver.Create(c);
        SolverWorkspace w = solver.CreateWorkspace();
        GradientBuffer gradient = new(solver, 1, GradientParts.All);
        ScatteringMatrix[] s = new ScatteringMatrix[1];
        double[] values = solver.NominalValues();
        Assert.Null(solver.SolveWithGradient([f], values, w, s, gradient));
        Near(solver.Solve([f])[0], s[0], 1e-12 * (1 + Largest(s[0])));
        for (int p = 0; p < values.Length; p++)
        {
            double x = values[p];
            (Complex d11, Complex d21, Complex d22, double spread) = Slope(1e-3);
            (Complex e11, Complex e21, Complex e22, _) = Slope(5e-4);

            // Where the difference itself has not settled (a sharp resonance within the step) it proves nothing to more digits than that.
            double allowed = (1e-7 * (1 + spread)) + (0.2 * ((d21 - e21).Magnitude + (d11 - e11).Magnitude + (d22 - e22).Magnitude));
            Close(((4 * e11) - d11) / 3, gradient.S11(p, 0) * x, allowed);
            Close(((4 * e21) - d21) / 3, gradient.S21(p, 0) * x, allowed);
            Close(((4 * e22) - d22) / 3, gradient.S22(p, 0) * x, allowed);

            (Complex, Complex, Complex, double) Slope(double h)
            {
                values[p] = x * (1 + h);
                Assert.Null(solver.Solve([f], values, w, s));
                ScatteringMatrix up = s[0];
                values[p] = x * (1 - h);
                Assert.Null(solver.Solve([f], values, w, s));
                ScatteringMatrix down = s[0];
                values[p] = x;
                return ((up.S11 - down.S11) / (2 * h), (up.S21 - down.S21) / (2 * h), (up.S22 - down.S22) / (2 * h), Largest(up));
            }
        }
    }

    private static double Norm(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);

    private static double Largest(ScatteringMatrix s) =>
        Math.Max(Math.Max(s.S11.Magnitude, s.S21.Magnitude), Math.Max(s.S12.Magnitude, s.S22.Magnitude));

    private static void Near(ScatteringMatrix expected, ScatteringMatrix actual, double tolerance)
    {
        Close(expected.S11, actual.S11, tolerance);
        Close(expected.S12, actual.S12, tolerance);
        Close(expected.S21, actual.S21, tolerance);
        Close(expected.S22, actual.S22, tolerance);
    }

    private static void Close(Complex expected, Complex actual, double tolerance) =>
        Assert.True((expected - actual).Magnitude <= tolerance, $"expected {expected}, got {actual}, tolerance {tolerance}");
}
