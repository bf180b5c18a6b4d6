using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit.Tests;

/// <summary>What is wrong with a hard case besides instrument and parasitics.</summary>
internal enum HardKind
{
    /// <summary>Nothing.</summary>
    Plain,

    /// <summary>Every coil's estimate is off by two of its sigmas, up or down by chance.</summary>
    EstimatesOff,

    /// <summary>One capacitor is two side by side, both traced with nothing known of either.</summary>
    ParallelParts,

    /// <summary>One capacitor that is there was not traced.</summary>
    MissingPart,
}

/// <summary>
/// A random circuit as a person at home measures it: the circuits of <see cref="FitCircuitMaker"/>, every capacitor with 0.3 to 1.5 nH in
/// series that
/// nobody traced, a calibration whose residuals (directivity, match of source and load, tracking) are -35 to -45 dB, each turning as a
/// reflection
/// within 1 ns does, noise of -60 dB, gains off by up to 1 %, planes by up to 20 ps. Numbers, seeds and this generator were committed
/// before any fit of them was run.
/// </summary>
internal sealed class HardCase
{
    private const ulong FirstSeed = 51_977;
    private const double NoiseAmplitude = 1e-3;

    private readonly Circuit _truth;
    private readonly SeededNoise _noise;

    private HardCase(int number, Circuit truth, Circuit traced, double centreHz, SeededNoise noise)
    {
        Number = number;
        _truth = truth;
        Traced = traced;
        _noise = noise;
        FrequenciesHz = [.. Enumerable.Range(0, FitCase.Points).Select(i => centreHz * (0.6 + (i / (FitCase.Points - 1.0))))];
    }

    /// <summary>Its number: the family by the remainder of 5, what is wrong by that of 4.</summary>
    public int Number { get; }

    /// <summary>Its family.</summary>
    public FitTopology Topology => (FitTopology)(Number % 5);

    /// <summary>What is wrong with it.</summary>
    public HardKind Kind => (HardKind)(Number % 4);

    /// <summary>The circuit as traced.</summary>
    public Circuit Traced { get; }

    /// <summary>The part that is there and was not traced; null where all were.</summary>
    public Capacitor? Missing => _truth.Parts.OfType<Capacitor>().FirstOrDefault(static c => c.Name == "missing");

    /// <summary>Frequencies of the sweep in hertz.</summary>
    public ImmutableArray<double> FrequenciesHz { get; }

    /// <summary>Makes a case.</summary>
    public static HardCase Make(int number)
    {
        ulong seed = (FirstSeed + (ulong)number) * 0x9E3779B97F4A7C15UL;
        SeededNoise noise = new(seed);
        FitCircuitMaker maker = new(noise, (FitTopology)(number % 5));
        (Circuit truth, Circuit traced) = maker.Make();
        switch ((HardKind)(number % 4))
        {
            case HardKind.EstimatesOff:
                traced = traced with
                {
                    Parts = [.. traced.Parts.Select(p => p is Inductor l
                    ? l with { Inductance = Off((Inductor)truth.Parts.First(t => t.Name == l.Name), noise) } : p)]
                };
                break;
            case HardKind.ParallelParts:
                {
                    Capacitor[] all = [.. truth.Parts.OfType<Capacitor>()];
                    Capacitor split = all[(int)(noise.Uniform() * all.Length)], open =
                        (Capacitor)traced.Parts.First(p => p.Name == split.Name);
                    double share = noise.Between(0.15, 0.85), farads = split.Capacitance.Require();
                    Capacitor Half(double part) => split with { Capacitance = PartValue.Known(part * farads) };
                    truth = truth with
                    {
                        Parts = [.. truth.Parts.Select(p => p == split ? Half(share) : p),
                        Half(1 - share) with { Name = split.Name + "b" }]
                    };
                    traced = traced with { Parts = [.. traced.Parts, open with { Name = split.Name + "b" }] };
                    break;
                }

            case HardKind.MissingPart:
                {
                    string[] nodes = [.. truth.Parts.SelectMany(static p => p.Nodes).Append(Circuit.Ground).Distinct()];
                    int i = (int)(noise.Uniform() * nodes.Length), j = (i + 1 + (int)(noise.Uniform() * (nodes.Length - 1))) % nodes.Length;
                    Capacitor[] all = [.. truth.Parts.OfType<Capacitor>()];
                    double least = all.Min(static c => c.Capacitance.Require());
                    Capacitor missing = new()
                    {
                        Name = "missing",
                        From = nodes[i],
                        To = nodes[j],
                        Capacitance =
                        PartValue.Known(least * noise.Ratio(0.1, 1)),
                        Loss = all[0].Loss
                    };
                    truth = truth with { Parts = [.. truth.Parts, missing] };
                    break;
                }

            default:
                break;
        }

        truth = truth with
        {
            Parts = [.. truth.Parts.Select(p => p is Capacitor c
            ? c with { SeriesInductanceH = noise.Between(0.3e-9, 1.5e-9) } : p)]
        };
        return new HardCase(number, truth, traced, maker.CentreHz, noise);
    }

    /// <summary>The true value of a number of a part; null of one that is not there.</summary>
    public double Truth(string part, CircuitQuantity quantity)
    {
        CircuitSolver solver = CircuitSolver.Create(_truth);
        return solver.NominalValues()[solver.ParameterNumber(part, quantity)];
    }

    /// <summary>The sweep; asked for once.</summary>
    public TouchstoneData Sweep()
    {
        double[] f = [.. FrequenciesHz];
        ScatteringMatrix[] s = new ScatteringMatrix[f.Length];
        CircuitSolver solver = CircuitSolver.Create(_truth);
        if (solver.Solve(f, solver.NominalValues(), solver.CreateWorkspace(), s) is { } fault)
        {
            throw new CircuitException(fault);
        }

        Turning[] directivity = [Residual(), Residual()], source = [Residual(), Residual()], load = [Residual(), Residual()];
        Turning[] tracking = [Residual(), Residual(), Residual(), Residual()];
        Complex[] gains = [.. Enumerable.Range(0, 4).Select(_ => 1
            + Complex.FromPolarCoordinates(0.01 * _noise.Uniform(), 2 * Math.PI * _noise.Uniform()))];
        double[] planes = [20e-12 * _noise.Between(-1, 1), 20e-12 * _noise.Between(-1, 1)];
        ScatteringMatrix[] seen = new ScatteringMatrix[f.Length];
        for (int i = 0; i < f.Length; i++)
        {
            // The circuit between two ports whose reflections are not quite zero: exact, and not to first order as the fit has it.
            (Complex s11, Complex s21, Complex s12, Complex s22) = (s[i].S11, s[i].S21, s[i].S12, s[i].S22);
            (Complex m11, Complex m21) = Driven(s11, s21, s12, s22, source[0].At(f[i]), load[1].At(f[i]));
            (Complex m22, Complex m12) = Driven(s22, s12, s21, s11, source[1].At(f[i]), load[0].At(f[i]));
            double turn = -2 * Math.PI * f[i];
            Complex Out(Complex m, int t, double plane) => (m * gains[t] * (1 + tracking[t].At(f[i])) * Complex.FromPolarCoordinates(1,
                turn * plane)) + (NoiseAmplitude / Math.Sqrt(2) * _noise.Gauss());
            seen[i] = new ScatteringMatrix(
                Out(m11, 0, 2 * planes[0]) + directivity[0].At(f[i]),
                Out(m12, 1, planes[0] + planes[1]),
                Out(m21, 2, planes[0] + planes[1]),
                Out(m22, 3, 2 * planes[1]) + directivity[1].At(f[i]));
        }

        return TouchstoneData.Create("hard.s2p", 2, FrequenciesHz, [.. seen], [new Complex(50, 0)]);
    }

    // A twelve-term model's forward half (a textbook formula, from memory): source match in front, load match behind.
    private static (Complex Reflected, Complex Through) Driven(Complex s11, Complex s21, Complex s12, Complex s22, Complex source,
        Complex load)
    {
        Complex reflection = s11 + (s21 * s12 * load / (1 - (s22 * load)));
        Complex through = s21 / (1 - (s22 * load));
        Complex again = 1 / (1 - (source * reflection));
        return (reflection * again, through * again);
    }

    private static PartValue Off(Inductor truth, SeededNoise noise) =>
        PartValue.Known(truth.Inductance.Require() * Math.Exp(0.2 * (noise.Uniform() < 0.5 ? -1 : 1)));

    private Turning Residual() => new(Math.Pow(10, _noise.Between(-45, -35) / 20), 2 * Math.PI * _noise.Uniform(),
        _noise.Between(-1e-9, 1e-9));

    private readonly record struct Turning(double Amplitude, double Phase, double DelayS)
    {
        public Complex At(double hertz) => Complex.FromPolarCoordinates(Amplitude, Phase - (2 * Math.PI * hertz * DelayS));
    }
}
