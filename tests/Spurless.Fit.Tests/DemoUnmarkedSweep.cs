using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Fit.Tests;

/// <summary>
/// Makes the demo's sweep of the unlabelled filter: the true values drawn from a fixed seed, then what a cheap analyser makes of them.
/// Nobody measured it. Committed with its seed before the fit was written.
/// </summary>
internal static class DemoUnmarkedSweep
{
    private const ulong Seed = 145_144;
    private const double FloorAmplitude = 2e-4;
    private const double TraceNoise = 5e-4;
    private const double MostGainError = 0.01;
    private const double MostOffsetSeconds = 20e-12;

    private static readonly (string Part, double Marked)[] Marked =
        [("C1", 6.8e-12), ("C2", 36e-12), ("C3", 1.6e-12), ("C4", 39e-12), ("C5", 1.6e-12), ("C6", 36e-12), ("C7", 6.8e-12)];

    // Each tank with what tunes it: its coil was bent until the filter passed 145 MHz as three-tank.circuit.yaml does.
    private static readonly (string Coil, double Henries, string[] Capacitors)[] Tanks =
        [("L1", 27.6e-9, ["C1", "C2", "C3"]), ("L2", 28.6e-9, ["C3", "C4", "C5"]), ("L3", 27.6e-9, ["C5", "C6", "C7"])];

    // What a coil of this size has across it (Medhurst's figure 0.46 pF per cm of 7 mm), and how well a tank is tuned.
    private const double CoilFarads = 0.33e-12;
    private const double TuningLeft = 0.002;

    private static readonly string[] Head =
    [
        "Part of the invented Quernmoss demo: nobody measured this. Computed from "
            + "unmarked.circuit.yaml with true values drawn from a fixed seed",
        "(capacitors within 2 % of E24 values, coils bent until the filter passes 145 MHz, "
            + "their Q 150 to 170), an analyser's noise and floor,",
        "a gain error up to 1 % in each S-parameter and a reference plane up to 20 ps off; "
            + "a test of the project makes it anew and compares.",
    ];

    /// <summary>The true values by part and quantity, in SI units.</summary>
    public static IReadOnlyDictionary<(string Part, CircuitQuantity Quantity), double> Truth()
    {
        SeededNoise noise = new(Seed);
        Dictionary<(string, CircuitQuantity), double> truth = [];
        foreach ((string part, double marked) in Marked)
        {
            truth[(part, CircuitQuantity.CapacitanceF)] = marked * (1 + (0.02 * noise.Between(-1, 1)));
        }

        foreach ((string coil, double henries, string[] capacitors) in Tanks)
        {
            double nominal = capacitors.Sum(static c => Marked.First(m => m.Part == c).Marked);
            double present = capacitors.Sum(c => truth[(c, CircuitQuantity.CapacitanceF)]) + CoilFarads;
            truth[(coil, CircuitQuantity.InductanceH)] = henries * nominal / present * (1 + (TuningLeft * noise.Between(-1, 1)));
            truth[(coil, CircuitQuantity.Q)] = noise.Between(150, 170);
        }

        return truth;
    }

    /// <summary>The sweep as a Touchstone file.</summary>
    /// <param name="circuitFile">Path of the traced circuit.</param>
    public static string Make(string circuitFile)
    {
        DiagnosticBag diagnostics = new();
        using FileStream stream = File.OpenRead(circuitFile);
        CircuitDocument document = CircuitReader.Read(stream, "unmarked.circuit.yaml", NoFiles, diagnostics)
            ?? throw new InvalidOperationException(string.Join('\n', diagnostics.InOrder()));
        CircuitSolver solver = CircuitSolver.Create(document.Circuit);
        double[] values = solver.NominalValues();
        foreach (((string part, CircuitQuantity quantity), double value) in Truth())
        {
            values[solver.ParameterNumber(part, quantity)] = value;
        }

        double[] frequencies = [.. Enumerable.Range(0, 401).Select(static i => 100e6 + (0.25e6 * i))];
        ScatteringMatrix[] points = new ScatteringMatrix[frequencies.Length];
        if (solver.Solve(frequencies, values, solver.CreateWorkspace(), points) is { } fault)
        {
            throw new CircuitException(fault);
        }

        SeededNoise noise = new(Seed + 1);
        Complex[] gains =
        [
            .. Enumerable.Range(0, 4).Select(
                _ => 1 + Complex.FromPolarCoordinates(MostGainError * noise.Uniform(), 2 * Math.PI * noise.Uniform())),
        ];

        // Less than a whole: a calibrated analyser shows no reflection above 1, so the two reflections' errors are losses.
        (gains[0], gains[3]) = (gains[0] / Math.Max(1, gains[0].Magnitude * 1.002), gains[3] / Math.Max(1, gains[3].Magnitude * 1.002));
        double first = MostOffsetSeconds * noise.Between(-1, 1), second = MostOffsetSeconds * noise.Between(-1, 1);
        for (int i = 0; i < points.Length; i++)
        {
            double omega = 2 * Math.PI * frequencies[i];
            ScatteringMatrix s = points[i];
            points[i] = new(
                Seen(s.S11, gains[0], 2 * first * omega),
                Seen(s.S12, gains[1], (first + second) * omega),
                Seen(s.S21, gains[2], (first + second) * omega),
                Seen(s.S22, gains[3], 2 * second * omega));
        }

        TouchstoneData data = TouchstoneData.Create("unmarked.s2p", 2, [.. frequencies], [.. points], [new Complex(50, 0)]);
        return TouchstoneWriter.TryWrite(
            data, new TouchstoneWriteOptions(Unit: TouchstoneUnit.MHz, Digits: 6, Comments: Head), out string text, out string problem)
            ? text
            : throw new InvalidOperationException(problem);

        Complex Seen(Complex s, Complex gain, double phase) =>
            (s * gain * Complex.FromPolarCoordinates(1, -phase) * (1 + (TraceNoise / Math.Sqrt(2) * noise.Gauss())))
                + (FloorAmplitude / Math.Sqrt(2) * noise.Gauss());
    }

    private static Stream? NoFiles(string path, out Refusal? refusal)
    {
        refusal = new Refusal($"'{path}' is not looked for", "name no file in the demo's circuit");
        return null;
    }
}
