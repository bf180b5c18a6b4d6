using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit.Tests;

/// <summary>The families of the random circuits.</summary>
internal enum FitTopology
{
    TopCapacitor,
    SeriesMesh,
    InductiveCoupling,
    Traps,
    Stub,
}

/// <summary>
/// A random circuit as somebody traced it, and a sweep of what it truly is. The fit is given <see cref="Traced"/> and a sweep; the rest is
/// for the checks. Cases 0 to 199 with their seeds were committed before the fit was written.
/// </summary>
internal sealed class FitCase
{
    /// <summary>Number of cases.</summary>
    public const int Count = 200;

    /// <summary>Points of a sweep.</summary>
    public const int Points = 401;

    private const ulong FirstSeed = 20_301;
    private const double NoiseAmplitude = 1e-3;
    private const double DecibelNoise = 0.2;
    private const double MostGainError = 0.01;
    private const double MostOffsetSeconds = 20e-12;

    private readonly double[] _trueValues;
    private readonly CircuitSolver _solver;
    private readonly ulong _seed;

    private FitCase(int number, Circuit truth, Circuit traced, double centreHz, ulong seed)
    {
        Number = number;
        Traced = traced;
        _seed = seed;
        _solver = CircuitSolver.Create(truth);
        _trueValues = _solver.NominalValues();
        FrequenciesHz = [.. Enumerable.Range(0, Points).Select(i => centreHz * (0.6 + (i / (Points - 1.0))))];
    }

    /// <summary>Its number, which decides its topology and its seed.</summary>
    public int Number { get; }

    /// <summary>What kind of circuit it is.</summary>
    public FitTopology Topology => (FitTopology)(Number % 5);

    /// <summary>The circuit as traced: capacitors, couplings, lengths and coils' Q unknown, coils about 10 %.</summary>
    public Circuit Traced { get; }

    /// <summary>The sweep's frequencies, 0.6 to 1.6 of the centre.</summary>
    public double[] FrequenciesHz { get; }

    /// <summary>The true value of a number of a part.</summary>
    public double Truth(string part, CircuitQuantity quantity) => _trueValues[_solver.ParameterNumber(part, quantity)];

    /// <summary>Makes a case.</summary>
    /// <param name="number">0 to 199.</param>
    public static FitCase Make(int number)
    {
        ulong seed = (FirstSeed + (ulong)number) * 0xD1342543DE82EF95UL;
        FitCircuitMaker maker = new(new SeededNoise(seed), (FitTopology)(number % 5));
        (Circuit truth, Circuit traced) = maker.Make();
        return new FitCase(number, truth, traced, maker.CentreHz, seed);
    }

    /// <summary>
    /// The complex sweep: noise of -60 dB in every S-parameter, one gain error of each up to 1 %, an offset of each port up to 20 ps.
    /// </summary>
    public TouchstoneData Sweep()
    {
        SeededNoise noise = new(_seed ^ 0x5EED);
        Complex[] gains =
        [
            .. Enumerable.Range(0, 4).Select(
                _ => 1 + Complex.FromPolarCoordinates(MostGainError * noise.Uniform(), 2 * Math.PI * noise.Uniform())),
        ];
        double first = MostOffsetSeconds * noise.Between(-1, 1), second = MostOffsetSeconds * noise.Between(-1, 1);
        ScatteringMatrix[] points = TrueResponse();
        for (int i = 0; i < points.Length; i++)
        {
            double omega = 2 * Math.PI * FrequenciesHz[i];
            ScatteringMatrix s = points[i];
            points[i] = new(
                Seen(s.S11, gains[0], omega * 2 * first),
                Seen(s.S12, gains[1], omega * (first + second)),
                Seen(s.S21, gains[2], omega * (first + second)),
                Seen(s.S22, gains[3], omega * 2 * second));
        }

        return TouchstoneData.Create("case.s2p", 2, [.. FrequenciesHz], [.. points], [new Complex(50, 0)]);

        Complex Seen(Complex s, Complex gain, double phase) =>
            (s * gain * Complex.FromPolarCoordinates(1, -phase)) + (NoiseAmplitude / Math.Sqrt(2) * noise.Gauss());
    }

    /// <summary>Magnitudes in dB of S21 and S11 with noise of 0.2 dB, and the gain errors.</summary>
    public (double[] S21Db, double[] S11Db) Magnitudes()
    {
        SeededNoise noise = new(_seed ^ 0xDB5EED);
        double g21 = 20 * Math.Log10(1 + (MostGainError * noise.Between(-1, 1))),
        g11 = 20 * Math.Log10(1 + (MostGainError * noise.Between(-1, 1)));
        ScatteringMatrix[] points = TrueResponse();
        return (
            [.. points.Select(p => Db(p.S21) + g21 + (DecibelNoise * noise.Normal()))],
            [.. points.Select(p => Db(p.S11) + g11 + (DecibelNoise * noise.Normal()))]);

        static double Db(Complex s) => 20 * Math.Log10(s.Magnitude);
    }

    /// <summary>The frequencies as an immutable list.</summary>
    public ImmutableArray<double> Grid => [.. FrequenciesHz];

    private ScatteringMatrix[] TrueResponse()
    {
        ScatteringMatrix[] points = new ScatteringMatrix[Points];
        return _solver.Solve(FrequenciesHz, _trueValues, _solver.CreateWorkspace(), points) is { } fault
            ? throw new CircuitException(fault)
            : points;
    }
}
