using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;
using Spurless.Tests.Common;

namespace Spurless.Fit.Tests;

/// <summary>The demo's files, and sweeps made of circuits for single tests.</summary>
internal static class DemoFilter
{
    public static string Folder => Path.Combine(TestData.Path(""), "..", "..", "demo", "filters");

    public static string Text => File.ReadAllText(Path.Combine(Folder, "unmarked.circuit.yaml"));

    public static Circuit Traced => Read(Text);

    public static FitSweep Sweep => FitSweep.From(Touchstone(File.ReadAllText(Path.Combine(Folder, "unmarked.s2p"))), 50);

    public static Circuit Read(string text)
    {
        DiagnosticBag diagnostics = new();
        return CircuitReader.Read(text, "test.circuit.yaml", NoFiles, diagnostics)?.Circuit ?? throw new InvalidOperationException(
            string.Join('\n', diagnostics.InOrder()));
    }

    public static TouchstoneData Touchstone(string text, string name = "sweep.s2p")
    {
        DiagnosticBag diagnostics = new();
        using MemoryStream stream = new(System.Text.Encoding.UTF8.GetBytes(text));
        return TouchstoneReader.Read(stream, name, diagnostics) ?? throw new InvalidOperationException(
            string.Join('\n', diagnostics.InOrder()));
    }

    /// <summary>A symmetric filter of three tanks, all values known: the published demo's figures.</summary>
    public static Circuit ThreeTanks => Read(File.ReadAllText(Path.Combine(Folder, "three-tank.circuit.yaml")));

    /// <summary>A complex sweep of a circuit with noise.</summary>
    public static FitSweep Complex(
        Circuit circuit, ulong seed, double noise = 1e-3, double fromHz = 100e6, double toHz = 200e6, int points = 401)
    {
        SeededNoise random = new(seed);
        double[] f = Grid(fromHz, toHz, points);
        ScatteringMatrix[] s = Response(circuit, f);
        Complex Seen(Complex z) => z + (noise / Math.Sqrt(2) * random.Gauss());
        ScatteringMatrix[] seen = [.. s.Select(m => new ScatteringMatrix(Seen(m.S11), Seen(m.S12), Seen(m.S21), Seen(m.S22)))];
        return FitSweep.From(TouchstoneData.Create("made.s2p", 2, [.. f], [.. seen], [new Complex(50, 0)]), 50);
    }

    /// <summary>A sweep of magnitudes of a circuit with noise in dB.</summary>
    public static FitSweep Magnitudes(Circuit circuit, ulong seed, bool returnLoss, double noiseDb = 0.05)
    {
        SeededNoise random = new(seed);
        double[] f = Grid(130e6, 165e6, 401);
        ScatteringMatrix[] s = Response(circuit, f);
        ImmutableArray<double> Seen(Func<ScatteringMatrix, Complex> of) =>
            [.. s.Select(m => (20 * Math.Log10(of(m).Magnitude)) + (noiseDb * random.Normal()))];
        return FitSweep.OfMagnitudes("made.csv", [.. f], Seen(static m => m.S21), returnLoss ? Seen(static m => m.S11) : []);
    }

    public static double[] Grid(double from, double to, int points) =>
        [.. Enumerable.Range(0, points).Select(i => from + ((to - from) * i / (points - 1)))];

    public static ScatteringMatrix[] Response(Circuit circuit, double[] f) => CircuitSolver.Create(circuit).Solve(f);

    /// <summary>The circuit with its capacitors unknown, all else as it is.</summary>
    public static Circuit CapacitorsUnknown(Circuit circuit) => circuit with
    {
        Parts = [.. circuit.Parts.Select(static p => p is Capacitor c ? c with { Capacitance = PartValue.Unknown(0.3e-12, 200e-12) } : p)],
    };

    private static Stream? NoFiles(string path, out Refusal? refusal)
    {
        refusal = new Refusal($"'{path}' is not looked for", "name none");
        return null;
    }
}
