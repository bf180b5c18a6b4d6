using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

public sealed class KnownResponseTests
{
    /// <summary>
    /// Closed form 10 lg(1 + W^2n); elements g_k = 2 sin((2k - 1) pi / 2n) (standard formulas, from memory; the table of docs/checks.md 3.2
    /// was computed apart, tolerance 0.001 dB).
    /// </summary>
    [Theory]
    [InlineData(2, 7.827, 12.304, 19.138, 27.966)]
    [InlineData(3, 10.931, 18.129, 28.633, 41.938)]
    [InlineData(4, 14.254, 24.099, 38.170, 55.918)]
    [InlineData(5, 17.684, 30.107, 47.712, 69.897)]
    public void Solve_Butterworth_ladder_has_the_closed_form(int n, double at15, double at2, double at3, double at5)
    {
        double[] g = [.. Enumerable.Range(1, n).Select(k => 2 * Math.Sin(((2 * k) - 1) * Math.PI / (2 * n)))];
        double[] loss = Ladder(g, 1, static (w, n) => 1 + Math.Pow(w, 2 * n));
        AssertTable([at15, at2, at3, at5], loss);
    }

    /// <summary>
    /// Closed form 10 lg(1 + e^2 T_n^2(W)); elements by the standard recursion (from memory; printed g in docs/checks.md 3.1 to four
    /// digits, attenuations in 3.2).
    /// </summary>
    [Theory]
    [InlineData(2, 0.01, 0.4489, 0.121, 0.465, 2.217, 8.152)]
    [InlineData(3, 0.01, 0.6292, 0.743, 4.080, 13.728, 27.350)]
    [InlineData(4, 0.1, 1.1088, 11.419, 23.427, 38.896, 57.299)]
    [InlineData(5, 0.1, 1.1468, 19.499, 34.848, 54.207, 77.211)]
    [InlineData(4, 0.5, 1.6703, 18.350, 30.603, 46.088, 64.491)]
    [InlineData(5, 0.5, 1.7058, 26.651, 42.039, 61.399, 84.403)]
    public void Solve_Chebyshev_ladder_has_the_closed_form(
        int n, double rippleDb, double g1, double at15, double at2, double at3, double at5)
    {
        (double[] g, double load) = Chebyshev(n, rippleDb);
        Assert.Equal(g1, g[0], 5.1e-5);
        double e2 = Math.Pow(10, rippleDb / 10) - 1;
        double[] loss = Ladder(g, load, (w, n) =>
        {
            double t = w <= 1 ? Math.Cos(n * Math.Acos(w)) : Math.Cosh(n * Math.Acosh(w));
            return 1 + (e2 * t * t);
        });
        AssertTable([at15, at2, at3, at5], loss);
    }

    /// <summary>docs/checks.md 3.4: MHz, S21 in dB of F3 lossless and with Q 200, of F2 lossless and with Q 200.</summary>
    [Theory]
    [InlineData(100, -85.050, -85.056, -63.859, -63.862)]
    [InlineData(120, -61.150, -61.172, -47.427, -47.440)]
    [InlineData(130, -44.496, -44.565, -36.176, -36.217)]
    [InlineData(136, -29.734, -29.943, -26.437, -26.553)]
    [InlineData(140, -14.051, -14.868, -16.623, -16.980)]
    [InlineData(142, -2.894, -5.247, -9.484, -10.334)]
    [InlineData(144, -0.070, -1.984, -1.559, -3.565)]
    [InlineData(146, 0.000, -1.684, 0.000, -1.782)]
    [InlineData(148, -0.057, -1.848, -1.389, -3.290)]
    [InlineData(150, -1.743, -3.991, -8.007, -8.906)]
    [InlineData(152, -10.310, -11.299, -13.998, -14.408)]
    [InlineData(156, -23.224, -23.499, -21.817, -21.964)]
    [InlineData(170, -42.563, -42.610, -34.080, -34.108)]
    [InlineData(200, -56.433, -56.445, -42.787, -42.794)]
    public void Solve_golden_bandpass_filters_have_their_response(double mhz, double f3, double f3Lossy, double f2, double f2Lossy)
    {
        // The values are printed to 1e-4 pF; that moves a skirt by up to some 0.003 dB.
        Assert.Equal(f3, Db(F3, mhz, double.PositiveInfinity), 0.005);
        Assert.Equal(f3Lossy, Db(F3, mhz, 200), 0.005);
        Assert.Equal(f2, Db(F2, mhz, double.PositiveInfinity), 0.005);
        Assert.Equal(f2Lossy, Db(F2, mhz, 200), 0.005);

        static Circuit F3(double q, double hz) => KnownCircuits.TopCoupled(5.2235, 1.1222, [23.6460, 27.4637, 23.6460], 40e-9, q, hz);
        static Circuit F2(double q, double hz) => KnownCircuits.TopCoupled(4.0274, 0.7194, [25.0942, 25.0942], 40e-9, q, hz);
        static double Db(Func<double, double, Circuit> filter, double mhz, double q) =>
            -CircuitSolver.Create(filter(q, mhz * 1e6)).Solve([mhz * 1e6])[0].InsertionLossDb;
    }

    /// <summary>docs/checks.md 9: figures by nodal analysis outside the program, tolerance 0.1 dB.</summary>
    [Theory]
    [InlineData(145.05, -2.92)]
    [InlineData(153.35, -20.1)]
    [InlineData(157.5, -29.0)]
    [InlineData(158.3, -30.3)]
    [InlineData(171.55, -44.5)]
    [InlineData(160.525, -33.7)]
    [InlineData(466.1, -69.6)]
    [InlineData(94.2, -89.6)]
    [InlineData(50.85, -138)]
    [InlineData(148.6125, -5.4)]
    [InlineData(121.85, -56.3)]
    [InlineData(430.9125, -69.2)]
    public void Solve_demo_filter_has_its_figures(double mhz, double s21Db) =>
        Assert.Equal(s21Db, -CircuitSolver.Create(KnownCircuits.Demo()).Solve([mhz * 1e6])[0].InsertionLossDb, mhz < 60 ? 0.5 : 0.1);

    [Fact]
    public void Solve_demo_filter_edges_and_return_loss()
    {
        CircuitSolver solver = CircuitSolver.Create(KnownCircuits.Demo());
        Assert.Equal(24.0, solver.Solve([145.05e6])[0].ReturnLoss1Db, 0.1);
        double[] f = [.. Enumerable.Range(0, 20001).Select(static i => 140e6 + (i * 500.0))];
        ScatteringMatrix[] s = solver.Solve(f);
        double least = s.Min(static x => x.InsertionLossDb);
        double[] inside = [.. f.Where((_, i) => s[i].InsertionLossDb <= least + (10 * Math.Log10(2)))];
        Assert.Equal(141.217e6, inside[0], 5e3);
        Assert.Equal(148.831e6, inside[^1], 5e3);
    }

    /// <summary>
    /// A lossless tank in series with the line at its resonance, exactly on the point: an open; the same tuned circuit in series: a
    /// through.
    /// </summary>
    [Fact]
    public void Solve_resonance_exactly_on_a_point()
    {
        // w = 1e9, L = 10 nH, C = 100 pF: w L = 1 / (w C) = 10 ohm to the last bit or nearly.
        double f = 1e9 / (2 * Math.PI);
        PartValue l = PartValue.Known(10e-9), c = PartValue.Known(100e-12);
        Circuit trap = new()
        {
            Name = "trap",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Inductor { Name = "L1", From = "a", To = "b", Inductance = l },
                new Capacitor { Name = "C1", From = "a", To = "b", Capacitance = c },
            ],
        };
        ScatteringMatrix s = CircuitSolver.Create(trap).Solve([f])[0];
        Assert.True(s.S21.Magnitude < 1e-12);
        Assert.Equal(1, s.S11.Magnitude, 1e-12);
        Circuit series = trap with
        {
            Parts =
            [
                new Inductor { Name = "L1", From = "a", To = "m", Inductance = l },
                new Capacitor { Name = "C1", From = "m", To = "b", Capacitance = c },
            ],
        };
        CircuitSolver solver = CircuitSolver.Create(series);
        SolverWorkspace w = solver.CreateWorkspace();
        ScatteringMatrix[] one = new ScatteringMatrix[1];
        Assert.Null(solver.Solve([f], solver.NominalValues(), w, one));
        Assert.Equal(1, one[0].S21.Magnitude, 1e-12);
        Assert.True(w.PivotedPoints == 1, "the batch kernel must notice that its pivot vanishes");

        // The same as one part: a capacitor with series inductance is a short there.
        Circuit part = trap with
        {
            Parts = [new Capacitor { Name = "C1", From = "a", To = "b", Capacitance = c, SeriesInductanceH = 10e-9 }],
        };
        Assert.Equal(1, CircuitSolver.Create(part).Solve([f])[0].S21.Magnitude, 1e-12);
    }

    /// <summary>
    /// Lossless line of 100 ohm between 50 ohm: a quarter wave shows Z0^2/50 = 200 ohm, S11 = (200 - 50) / (200 + 50) = 0.6; a half wave is
    /// a through with turned phase. A matched line of 50 ohm only delays and loses.
    /// </summary>
    [Fact]
    public void Solve_lines_have_their_closed_forms()
    {
        double f = 100e6, wave = 299792458 / f;
        Circuit Line(double z0, double length, LineLoss loss = default) => new()
        {
            Name = "line",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Line { Name = "W1", From = "a", To = "b", ImpedanceOhm = z0, Length = PartValue.Known(length), Loss = loss }],
        };
        ScatteringMatrix quarter = CircuitSolver.Create(Line(100, wave / 4)).Solve([f])[0];
        Assert.Equal(0.6, quarter.S11.Real, 1e-12);
        Assert.Equal(0.8, quarter.S21.Magnitude, 1e-12);
        ScatteringMatrix half = CircuitSolver.Create(Line(100, wave / 2)).Solve([f])[0];
        Assert.True((half.S21 + 1).Magnitude < 1e-12);
        ScatteringMatrix full = CircuitSolver.Create(Line(100, wave)).Solve([f])[0];
        Assert.True((full.S21 - 1).Magnitude < 1e-12);
        ScatteringMatrix lossy = CircuitSolver.Create(Line(50, 10, LineLoss.At(0.1, 100e6))).Solve([f])[0];
        Assert.Equal(1.0, lossy.InsertionLossDb, 1e-12);
        Assert.True(lossy.S11.Magnitude < 1e-12);

        // Four times the frequency: twice the loss, by the square root.
        Assert.Equal(2.0, CircuitSolver.Create(Line(50, 10, LineLoss.At(0.1, 100e6))).Solve([4 * f])[0].InsertionLossDb, 1e-11);

        // A quarter-wave open stub is a short, a shorted one nothing.
        Circuit Stub(StubEnd end) => Line(50, 1e-3) with
        {
            Parts = [new Line { Name = "W1", From = "a", To = "b", ImpedanceOhm = 50, Length = PartValue.Known(wave / 2) },
                new Stub
                {
                    Name = "W2",
                    From = "b",
                    To = Circuit.Ground,
                    ImpedanceOhm = 75,
                    Length = PartValue.Known(wave / 4),
                    End = end,
                }],
        };
        Assert.True(CircuitSolver.Create(Stub(StubEnd.Open)).Solve([f])[0].S21.Magnitude < 1e-12);
        Assert.Equal(1, CircuitSolver.Create(Stub(StubEnd.Short)).Solve([f])[0].S21.Magnitude, 1e-12);
    }

    /// <summary>4 : 1 in turns makes 800 ohm of 50: S11 = (800 - 50) / (800 + 50), hand calculation.</summary>
    [Fact]
    public void Solve_transformer_and_tight_coupling_agree_with_the_turns()
    {
        Circuit c = new()
        {
            Name = "x",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Transformer
                {
                    Name = "X1",
                    FirstTurns = 4,
                    SecondTurns = 1,
                    FirstFrom = "a",
                    FirstTo = Circuit.Ground,
                    SecondFrom = "b",
                    SecondTo = Circuit.Ground,
                },
            ],
        };
        ScatteringMatrix s = CircuitSolver.Create(c).Solve([145e6])[0];
        Assert.Equal(750.0 / 850, s.S11.Real, 1e-14);
        Assert.Equal(-750.0 / 850, s.S22.Real, 1e-14);

        // Large windings, tightly coupled, do the same to within 1 - k and the magnetising current.
        Circuit windings = c with
        {
            Parts =
            [
                new Inductor { Name = "L1", From = "a", To = Circuit.Ground, Inductance = PartValue.Known(16e-3) },
                new Inductor { Name = "L2", From = "b", To = Circuit.Ground, Inductance = PartValue.Known(1e-3) },
                new Coupling { Name = "M", Coefficient = PartValue.Known(1 - 1e-9), First = "L1", Second = "L2" },
            ],
        };
        ScatteringMatrix near = CircuitSolver.Create(windings).Solve([145e6])[0];
        Assert.True((near.S21 - s.S21).Magnitude < 1e-3 && near.S21.Real > 0);
        CircuitSolver turned = CircuitSolver.Create(
            windings with
            {
                Parts = [windings.Parts[0], ((Inductor)windings.Parts[1]) with { From = Circuit.Ground, To = "b" }, windings.Parts[2]],
            });
        Assert.True((turned.Solve([145e6])[0].S21 + near.S21).Magnitude < 1e-9);
    }

    /// <summary>A block set in line is the block; a through block is a wire.</summary>
    [Fact]
    public void Solve_block_in_line_is_the_block()
    {
        CircuitTwoPort demo = new(CircuitSolver.Create(KnownCircuits.Demo()));
        Circuit twice = new()
        {
            Name = "t",
            PortIn = "a",
            PortOut = "b",
            Parts = [new TwoPortBlock { Name = "N1", From = "a", To = "b", Source = demo }],
        };
        ScatteringMatrix expected = demo.At(150e6), actual = CircuitSolver.Create(twice).Solve([150e6])[0];
        Assert.True((expected.S21 - actual.S21).Magnitude < 1e-13 && (expected.S11 - actual.S11).Magnitude < 1e-13);
    }

    [Fact]
    public void CircuitTwoPort_leakage_caps_the_rejection()
    {
        CircuitTwoPort sealedOne = new(CircuitSolver.Create(KnownCircuits.Demo())),
        leaky = new(CircuitSolver.Create(KnownCircuits.Demo() with { LeakageDb = 60 }));
        Assert.Equal(60, leaky.At(50.85e6).InsertionLossDb, 1e-9);
        Assert.True(sealedOne.At(50.85e6).InsertionLossDb > 130);
        Assert.Equal(sealedOne.At(145.05e6), leaky.At(145.05e6));
    }

    [Fact]
    public void Solve_allocates_nothing()
    {
        Circuit c = RandomCircuits.Make(new(Lossy: true, Lines: true, Couplings: true, Transformers: false), 12, new Random(3));
        Circuit pivoted = KnownCircuits.LowPass([1.1088, 1.3062, 1.7704, .8181], 1.3554, 1e9);
        foreach (Circuit circuit in new[] { c, pivoted, KnownCircuits.Demo() })
        {
            CircuitSolver solver = CircuitSolver.Create(circuit);
            SolverWorkspace w = solver.CreateWorkspace();
            double[] f = [.. Enumerable.Range(1, 100).Select(static i => i * 5e6)], values = solver.NominalValues();
            ScatteringMatrix[] s = new ScatteringMatrix[100];
            GradientBuffer gradient = new(solver, 100, GradientParts.All);
            long used = 0;
            for (int run = 0; run < 3; run++)
            {
                long before = GC.GetAllocatedBytesForCurrentThread();
                solver.Solve(f, values, w, s);
                solver.SolveWithGradient(f, values, w, s, gradient);
                used = GC.GetAllocatedBytesForCurrentThread() - before;
            }

            Assert.Equal(0, used);
        }
    }

    private static (double[] G, double Load) Chebyshev(int n, double rippleDb)
    {
        double beta = Math.Log(1 / Math.Tanh(rippleDb * Math.Log(10) / 40)), gamma = Math.Sinh(beta / (2 * n));
        double A(int k) => Math.Sin(((2 * k) - 1) * Math.PI / (2 * n));
        double B(int k) => (gamma * gamma) + Math.Pow(Math.Sin(k * Math.PI / n), 2);
        double[] g = new double[n];
        g[0] = 2 * A(1) / gamma;
        for (int k = 2; k <= n; k++)
        {
            g[k - 1] = 4 * A(k - 1) * A(k) / (B(k - 1) * g[k - 2]);
        }

        return (g, n % 2 == 1 ? 1 : Math.Pow(1 / Math.Tanh(beta / 4), 2));
    }

    // Returns the loss at W = 1.5, 2, 3, 5, having held a whole grid to the closed form.
    private static double[] Ladder(double[] g, double load, Func<double, int, double> power)
    {
        const double omega = 2 * Math.PI * 150e6;
        CircuitSolver solver = CircuitSolver.Create(KnownCircuits.LowPass(g, load, omega));
        double[] w = [1.5, 2, 3, 5, .. Enumerable.Range(1, 60).Select(static i => i * 0.05)];
        ScatteringMatrix[] s = solver.Solve([.. w.Select(static x => x * 150e6)]);
        for (int i = 0; i < w.Length; i++)
        {
            Assert.Equal(10 * Math.Log10(power(w[i], g.Length)), s[i].InsertionLossDb, 1e-9);
        }

        return [.. s.Take(4).Select(static x => x.InsertionLossDb)];
    }

    private static void AssertTable(double[] expected, double[] actual)
    {
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], actual[i], 0.001);
        }
    }
}
