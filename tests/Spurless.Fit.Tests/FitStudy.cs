using System.Globalization;
using System.Numerics;
using System.Text;
using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit.Tests;

/// <summary>
/// Runs the fit on random cases and counts what came of it, against the truth and the Cramer-Rao widths, which are computed here with the
/// general library.
/// </summary>
internal sealed class FitStudy
{
    private const double Sigmas95 = 1.959964;

    private readonly List<Line> _lines = [];
    private readonly Lock _lock = new();

    private FitStudy(bool magnitudes) => Magnitudes = magnitudes;

    public bool Magnitudes { get; }

    /// <summary>One value of one case.</summary>
    /// <param name="Topology">Its family.</param>
    /// <param name="Number">The case.</param>
    /// <param name="Name">Part and quantity.</param>
    /// <param name="Bound">Width of the Cramer-Rao interval: upper end less lower end, over the value.</param>
    /// <param name="Width">The same of the fit's interval.</param>
    /// <param name="Held">Whether the interval holds the truth.</param>
    /// <param name="Identifiable">Whether the fit calls it identifiable.</param>
    public sealed record Line(FitTopology Topology, int Number, string Name, double Bound, double Width, bool Held, bool Identifiable);

    /// <summary>All values.</summary>
    public IReadOnlyList<Line> Lines => _lines;

    /// <summary>Values that count: Cramer-Rao width under 100 %.</summary>
    public IEnumerable<Line> Counted => _lines.Where(static l => l.Bound < 1);

    public double Coverage => Share(Counted, static l => l.Held);

    public double WidthRatio => Median(Counted.Select(static l => l.Width / l.Bound));

    public double NarrowIdentifiable => Share(_lines.Where(static l => l.Bound < 0.1), static l => l.Identifiable);

    public double WideIdentifiable => Share(_lines.Where(static l => l.Bound >= 1), static l => l.Identifiable);

    /// <summary>Runs cases.</summary>
    /// <param name="numbers">Which.</param>
    /// <param name="magnitudes">Magnitudes only, with noise of 0.2 dB.</param>
    public static FitStudy Run(IEnumerable<int> numbers, bool magnitudes)
    {
        FitStudy study = new(magnitudes);
        Parallel.ForEach(numbers, number => study.Add(FitCase.Make(number)));
        return study;
    }

    /// <summary>The table, one row a family and one for all.</summary>
    public string Table()
    {
        StringBuilder table = new();
        table.AppendLine("| family | values | counted | held | width : bound | narrow called identifiable | wide called identifiable |");
        table.AppendLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (FitTopology topology in Enum.GetValues<FitTopology>())
        {
            Row(topology.ToString(), _lines.Where(l => l.Topology == topology));
        }

        Row("all", _lines);
        return table.ToString();

        void Row(string name, IEnumerable<Line> lines)
        {
            Line[] all = [.. lines], counted = [.. all.Where(static l => l.Bound < 1)];
            table.AppendLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {name} | {all.Length} | {counted.Length} | {Percent(Share(counted, static l => l.Held))} | "
                    + $"{Median(counted.Select(static l => l.Width / l.Bound)):0.00} | "
                        + $"{Of(all.Where(static l => l.Bound < 0.1))} | {Of(all.Where(static l => l.Bound >= 1))} |"));
        }

        static string Of(IEnumerable<Line> lines)
        {
            Line[] all = [.. lines];
            return all.Length == 0
                ? "-"
                : string.Create(CultureInfo.InvariantCulture, $"{Percent(Share(all, static l => l.Identifiable))} of {all.Length}");
        }
    }

    private static string Percent(double share) =>
        double.IsNaN(share) ? "-" : string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} %");

    private static double Share(IEnumerable<Line> lines, Func<Line, bool> of) =>
        lines.Any() ? lines.Average(l => of(l) ? 1.0 : 0.0) : double.NaN;

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : sorted[sorted.Length / 2];
    }

    private void Add(FitCase one)
    {
        FitSweep sweep;
        if (Magnitudes)
        {
            (double[] s21, double[] s11) = one.Magnitudes();
            sweep = FitSweep.OfMagnitudes("case.csv", one.Grid, [.. s21], [.. s11]);
        }
        else
        {
            sweep = FitSweep.From(one.Sweep(), 50);
        }

        FitResult result = CircuitFit.TryRun(one.Traced, sweep,
            new FitOptions { Threads = 1, Advise = false, Errors = InstrumentErrors.PlanesOnly, Parasitics = false, EstimateFactor = 1 },
            out Refusal? problem)
            ?? throw new InvalidOperationException($"case {one.Number}: {problem}");
        double[] sigmas = Bounds(one, result, sweep);
        lock (_lock)
        {
            for (int i = 0; i < result.Values.Length; i++)
            {
                FittedValue v = result.Values[i];
                double truth = one.Truth(v.Part, v.Quantity);
                _lines.Add(new Line(
                    one.Topology,
                    one.Number,
                    $"{v.Part} {v.Quantity}",
                    2 * Math.Sinh(Sigmas95 * Math.Min(sigmas[i], 50)),
                    (v.High - v.Low) / v.Value,
                    truth >= v.Low && truth <= v.High,
                    v.Identifiable));
            }
        }
    }

    // Cramer-Rao: information at the truth with the true noise, gains (5 %) and planes (100 ps) unknown, estimates counted with their 10 %,
    // ranges not.
    private static double[] Bounds(FitCase one, FitResult result, FitSweep sweep)
    {
        (_, CircuitSolver? solver, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(one.Traced);
        double[] f = one.FrequenciesHz, values = solver!.NominalValues();
        foreach (FitUnknown u in unknowns)
        {
            values[u.Number] = one.Truth(u.Part, u.Quantity);
        }

        ScatteringMatrix[] s = new ScatteringMatrix[f.Length];
        GradientBuffer gradient = new(solver, f.Length, GradientParts.All);
        Assert.Null(solver.SolveWithGradient(f, values, solver.CreateWorkspace(), s, gradient));
        bool db = sweep.IsMagnitude;
        int n = unknowns.Count, traces = sweep.Traces.Length, gains = db ? traces : 2 * traces, all = n + gains + (db ? 0 : 2);
        List<double[]> rows = [];
        for (int t = 0; t < traces; t++)
        {
            SweepParameter p = sweep.Traces[t].Parameter;
            for (int i = 0; i < f.Length; i++)
            {
                Complex value = p switch { SweepParameter.S11 => s[i].S11, SweepParameter.S22 => s[i].S22, _ => s[i].S21 };
                double[] re = new double[all], im = new double[all];
                double weight = db ? 1 / 0.2 : Math.Sqrt(2) / 1e-3;
                for (int k = 0; k < n; k++)
                {
                    int number = unknowns[k].Number;
                    Complex d = values[number] * (p switch
                    {
                        SweepParameter.S11 => gradient.S11(number, i),
                        SweepParameter.S22 => gradient.S22(number, i),
                        _ => gradient.S21(number, i),
                    });
                    Complex by = db ? 20 / Math.Log(10) * (d / value) : d;
                    (re[k], im[k]) = (by.Real * weight, by.Imaginary * weight);
                }

                if (db)
                {
                    re[n + t] = weight;
                    rows.Add(re);
                    continue;
                }

                Complex gain = value * weight, delay = value * new Complex(0, -2 * Math.PI * f[i] * 100e-12) * weight;
                (re[n + (2 * t)], im[n + (2 * t)]) = (gain.Real, gain.Imaginary);
                (re[n + (2 * t) + 1], im[n + (2 * t) + 1]) = (-gain.Imaginary, gain.Real);
                for (int port = 0; port < 2; port++)
                {
                    int times = p switch { SweepParameter.S11 => 2 - (2 * port), SweepParameter.S22 => 2 * port, _ => 1 };
                    (re[n + gains + port], im[n + gains + port]) = (times * delay.Real, times * delay.Imaginary);
                }

                rows.Add(re);
                rows.Add(im);
            }
        }

        for (int k = 0; k < all; k++)
        {
            double[] row = new double[all];
            row[k] = k < n ? (
                one.Traced.Parts.First(p => p.Name == unknowns[k].Part).About is { } about && unknowns[k].Quantity != CircuitQuantity.Q
                    ? 1 / about
                    : 1e-6)
                : k < n + gains ? (db ? 1 / 0.43 : 1 / 0.05) : 1;
            rows.Add(row);
        }

        _ = result;

        // R of the QR decomposition, then rows of its inverse: the covariance is R^-1 R^-T.
        Matrix<double> r = Matrix<double>.Build.DenseOfRowArrays(rows).QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Thin).R;
        Matrix<double> inverse = r.Inverse();
        return [.. Enumerable.Range(0, n).Select(k => inverse.Row(k).L2Norm())];
    }
}
