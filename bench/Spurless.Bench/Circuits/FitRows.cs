using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Fit;

namespace Spurless.Bench.Circuits;

/// <summary>The row 'fit': three capacitively coupled tanks, 12 unknowns, 401 points of four complex S-parameters, 32 starts.</summary>
public static class FitRows
{
    private const string Subject = "Circuits";

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "fit, 12 unknowns, 401 points, 32 starts", "<= 1 s", static _ => Fit()),
    ];

    private static BenchResult Fit()
    {
        (Circuit traced, FitSweep sweep) = Case();
        FitResult? result = null;
        double seconds = Timing.Best(
            () => result = CircuitFit.TryRun(traced, sweep, new FitOptions { Starts = 32, Advise = false }, out _),
            TimeSpan.FromSeconds(3));
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 1 && result is { IsStructured: false, Values.Length: 12 },
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Environment.ProcessorCount} processors; explained to {result!.RmsResidualDb:0.0} "
                    + $"dB with noise of -60 dB; intervals included"));
    }

    // Seven capacitors and two Q unknown, three coils about 10 %: the demo's filter.
    private static (Circuit Traced, FitSweep Sweep) Case()
    {
        const double F0 = 145e6;
        List<Part> truth = [], traced = [];
        void Capacitor(string name, string from, string to, double pF)
        {
            Capacitor c = new()
            {
                Name = name,
                From = from,
                To = to,
                Capacitance = PartValue.Known(pF * 1e-12),
                Loss = PartLoss.QualityFactor(400, F0),
            };
            truth.Add(c);
            traced.Add(c with { Capacitance = PartValue.Unknown(0.5e-12, 100e-12) });
        }

        void Coil(string name, string node, double nH, double estimate, bool q)
        {
            Inductor l = new()
            {
                Name = name,
                From = node,
                To = Circuit.Ground,
                Inductance = PartValue.Known(nH * 1e-9),
                Loss = PartLoss.QualityFactor(160, F0),
            };
            truth.Add(l);
            traced.Add(
                l with
                {
                    Inductance = PartValue.Known(estimate * 1e-9),
                    About = 0.1,
                    Loss = q ? PartLoss.QualityFactor(PartValue.Unknown(), F0) : l.Loss,
                });
        }

        Capacitor("C1", "a", "b", 6.8);
        Coil("L1", "b", 27.6, 29, true);
        Capacitor("C2", "b", Circuit.Ground, 36);
        Capacitor("C3", "b", "c", 1.6);
        Coil("L2", "c", 28.6, 27, true);
        Capacitor("C4", "c", Circuit.Ground, 39);
        Capacitor("C5", "c", "e", 1.6);
        Coil("L3", "e", 27.6, 28, false);
        Capacitor("C6", "e", Circuit.Ground, 36);
        Capacitor("C7", "e", "d", 6.8);
        Circuit Of(List<Part> parts) => new() { Name = "fit", PortIn = "a", PortOut = "d", Parts = parts };
        double[] f = [.. Enumerable.Range(0, 401).Select(static i => 100e6 + (0.25e6 * i))];
        ScatteringMatrix[] s = CircuitSolver.Create(Of(truth)).Solve(f);
        Random random = new(1);
        Complex Seen(Complex z) =>
            z + Complex.FromPolarCoordinates(1e-3 * Math.Sqrt(-Math.Log(1 - random.NextDouble())), 2 * Math.PI * random.NextDouble());
        ScatteringMatrix[] seen = [.. s.Select(m => new ScatteringMatrix(Seen(m.S11), Seen(m.S12), Seen(m.S21), Seen(m.S22)))];
        return (Of(traced), FitSweep.From(TouchstoneData.Create("bench", 2, [.. f], [.. seen], [new Complex(50, 0)]), 50));
    }
}
