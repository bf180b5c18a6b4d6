using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// Makes the demo's 'measured' sweep of the traced filter: values a little off the traced ones, a leaking fixture, an analyser's noise.
/// Nobody measured it.
/// </summary>
internal static class DemoSweep
{
    private const int Seed = 145_050;
    private const double ValueSpread = 0.012;
    private const double ReflectionLeft = 0.997;
    private const double FixtureLeakage = 3e-5;
    private const double FixtureDelaySeconds = 0.3e-9;
    private const double NoiseFloor = 8e-6;
    private const double TraceNoise = 3e-4;

    private static readonly string[] Head =
    [
        "Part of the invented Quernmoss demo: nobody measured this. Computed from three-tank.circuit.yaml with values a little off",
        "the traced ones, the leakage of a fixture and an analyser's noise, "
            + "all from a fixed seed; a test of the project makes it anew and compares.",
    ];

    /// <summary>The sweep as a Touchstone file.</summary>
    /// <param name="circuitFile">Path of the traced circuit.</param>
    public static string Make(string circuitFile)
    {
        DiagnosticBag diagnostics = new();
        using FileStream stream = File.OpenRead(circuitFile);
        CircuitDocument document = CircuitReader.Read(stream, "three-tank.circuit.yaml", NoFiles, diagnostics)
            ?? throw new InvalidOperationException(string.Join('\n', diagnostics.InOrder()));
        CircuitSolver solver = CircuitSolver.Create(document.Circuit);
        SeededNoise noise = new(Seed);
        double[] values = solver.NominalValues();
        for (int i = 0; i < values.Length; i++)
        {
            values[i] *= solver.Parameters[i].Quantity == CircuitQuantity.Q
                ? 0.85 + (0.15 * noise.Uniform())
                : 1 + (ValueSpread * ((2 * noise.Uniform()) - 1));
        }

        double[] frequencies = [.. Frequencies()];
        ScatteringMatrix[] points = new ScatteringMatrix[frequencies.Length];
        if (solver.Solve(frequencies, values, solver.CreateWorkspace(), points) is { } fault)
        {
            throw new CircuitException(fault);
        }

        for (int i = 0; i < points.Length; i++)
        {
            Complex leak = Complex.FromPolarCoordinates(FixtureLeakage, -2 * Math.PI * frequencies[i] * FixtureDelaySeconds);
            ScatteringMatrix s = points[i];
            points[i] = new ScatteringMatrix(
                Seen(s.S11 * ReflectionLeft, noise),
                Seen(s.S12 + leak, noise),
                Seen(s.S21 + leak, noise),
                Seen(s.S22 * ReflectionLeft, noise));
        }

        TouchstoneData data = TouchstoneData.Create("three-tank.s2p", 2, [.. frequencies], [.. points], [new Complex(50, 0)]);
        return TouchstoneWriter.TryWrite(
            data, new TouchstoneWriteOptions(Unit: TouchstoneUnit.MHz, Digits: 6, Comments: Head), out string text, out string problem)
            ? text
            : throw new InvalidOperationException(problem);
    }

    /// <summary>Coarse from 40 to 500 MHz, fine about the pass band.</summary>
    private static IEnumerable<double> Frequencies()
    {
        for (int quarter = 40 * 4; quarter <= 500 * 4; quarter++)
        {
            if (quarter % 4 == 0 || quarter is >= 120 * 4 and <= 180 * 4)
            {
                yield return quarter * 0.25e6;
            }
        }
    }

    private static Complex Seen(Complex s, SeededNoise noise) => (s * (1 + (TraceNoise * noise.Gauss()))) + (NoiseFloor * noise.Gauss());

    private static Stream? NoFiles(string path, out Refusal? refusal)
    {
        refusal = new Refusal($"'{path}' is not looked for", "name no file in the demo's circuit");
        return null;
    }

    /// <summary>A generator of the test's own (SplitMix64, from memory), so that no version of a library can change the file.</summary>
    private sealed class SeededNoise(ulong state)
    {
        private ulong _state = state;

        /// <summary>From 0 to below 1.</summary>
        public double Uniform()
        {
            _state += 0x9E3779B97F4A7C15UL;
            ulong z = _state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
        }

        /// <summary>Complex, each part normal with a sigma of 1 (polar form of Box and Muller).</summary>
        public Complex Gauss() => Complex.FromPolarCoordinates(Math.Sqrt(-2 * Math.Log(1 - Uniform())), 2 * Math.PI * Uniform());
    }
}
