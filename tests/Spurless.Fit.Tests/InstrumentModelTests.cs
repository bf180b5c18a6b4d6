using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Complex = System.Numerics.Complex;

namespace Spurless.Fit.Tests;

/// <summary>
/// What an instrument with residual errors shows, against the wave equations of a two-port between two ports that reflect, solved by the
/// general library: a port that drives with the match s and one that listens with the match l.
/// </summary>
public sealed class InstrumentModelTests
{
    private const int Points = 40;
    private static readonly double[] Frequencies = DemoFilter.Grid(120e6, 420e6, Points);

    // A sweep made by the wave equations with the errors at some place of the unknowns leaves nothing at that place: the cost there is
    // what is known beforehand of the errors, the sum of their squares in sigmas, and no more.
    [Fact]
    public void Cost_at_the_errors_a_sweep_was_made_with_is_what_is_known_beforehand_of_them() =>
        Gen.Select(Gen.Double[-1.5, 1.5].Array[100], Gen.OneOf(Calibration.Good, Calibration.Usual, Calibration.Poor)).Sample(
                static (sigmas, calibration) =>
                {
                    ScatteringMatrix[] truth = DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies);
                    FitModel blank = Model(truth, calibration);
                    double[] x = Place(blank, sigmas);
                    FitModel model = Model(Measured(blank, x, truth), calibration);
                    FitWorkspace w = model.CreateWorkspace();
                    model.Cost(x, w);
                    model.Data.Renew(w.S);

                    double beforehand = 0;
                    for (int i = model.Unknowns.Length; i < model.Count; i++)
                    {
                        double z = x[i] / model.Instrument!.Sigmas[i - model.Unknowns.Length];
                        beforehand += z * z;
                    }

                    Assert.Equal(beforehand, model.Cost(x, w), 1e-6 * beforehand);
                    for (int t = 0; t < 4; t++)
                    {
                        model.Residuals(x, t, w);
                        Assert.All(w.Re[..Points], static r => Assert.Equal(0, r, 1e-6));
                        Assert.All(w.Im[..Points], static r => Assert.Equal(0, r, 1e-6));
                    }
                },
                iter: 20);

    // Each error by itself has the size beforehand that its calibration states: 20 lg of the rms is what the figure says in decibels.
    [Theory]
    [InlineData(Calibration.Good, -46, -42, -42)]
    [InlineData(Calibration.Usual, -38, -36, -36)]
    [InlineData(Calibration.Poor, -30, -26, -24)]
    [InlineData(Calibration.None, -20, -16, -16)]
    public void Sizes_of_the_errors_are_the_calibrations_figures(Calibration calibration, double directivity, double source, double load)
    {
        FitModel model = Model(DemoFilter.Response(DemoFilter.ThreeTanks, Frequencies), calibration);
        FitInstrument own = model.Instrument!;
        double[] shares = new SmoothTerms(Frequencies, Points).Shares;
        double whole = Math.Sqrt(shares.Sum(static s => s * s));
        foreach ((InstrumentFigure figure, double db) in new[]
        {
            (InstrumentFigure.Directivity, directivity), (InstrumentFigure.SourceMatch, source), (InstrumentFigure.LoadMatch, load),
        })
        {
            (InstrumentError Error, int At, bool IsComplex)[] both = [.. own.Named.Where(n => n.Error.Figure == figure)];
            Assert.Equal([1, 2], both.Select(static n => n.Error.Port));
            foreach ((_, int at, _) in both)
            {
                // Real and imaginary part of each polynomial.
                double power = Enumerable.Range(0, 2 * shares.Length).Sum(k => Math.Pow(own.Sigmas[at - model.Unknowns.Length + k], 2));
                Assert.Equal(db, 20 * Math.Log10(Math.Sqrt(power) / whole), 1e-9);
            }
        }
    }

    // Magnitudes have no phases: gains in dB and tracking alone, no delays, no directivity.
    [Fact]
    public void Magnitudes_have_gains_in_decibels_and_no_planes()
    {
        FitSweep sweep = DemoFilter.Magnitudes(DemoFilter.ThreeTanks, 4, returnLoss: true);
        FitInstrument own = new(new FitData(sweep), InstrumentErrors.Of(Calibration.Usual), 3);

        Assert.Equal(-1, own.DelayAt);
        Assert.Equal([3, 4], own.GainAt);
        Assert.Equal(0.43, own.Sigmas[0]);
        Assert.DoesNotContain(own.Named, static n => n.Error.Figure == InstrumentFigure.ReferencePlane);
        Assert.All(own.Terms(1), static t => Assert.Equal((ErrorKind.Tracking, false), (t.Kind, t.Imaginary)));
    }

    private static FitModel Model(ScatteringMatrix[] measured, Calibration calibration)
    {
        TouchstoneData file = TouchstoneData.Create("made.s2p", 2, [.. Frequencies], [.. measured], [new Complex(50, 0)]);
        FitData data = new(FitSweep.From(file, 50));
        foreach (double[] weight in data.Weight)
        {
            Array.Fill(weight, 1e3, 0, Points);
        }

        return new FitModel(CircuitSolver.Create(DemoFilter.ThreeTanks), [], data, InstrumentErrors.Of(calibration));
    }

    private static double[] Place(FitModel model, double[] sigmas) =>
        [.. model.Instrument!.Sigmas.Select((s, i) => s * sigmas[i % sigmas.Length])];

    /// <summary>The same errors said once more, straight from the wave equations.</summary>
    private static ScatteringMatrix[] Measured(FitModel model, double[] x, ScatteringMatrix[] truth)
    {
        FitInstrument own = model.Instrument!;
        int terms = own.Functions.Length;
        Complex Error(InstrumentFigure figure, int port, int i)
        {
            int at = own.Named.Single(n => n.Error.Figure == figure && n.Error.Port == port).At;
            return Sum(at, 0, i);
        }

        Complex Sum(int at, int from, int i)
        {
            Complex sum = 0;
            for (int k = from; k < terms; k++)
            {
                sum += new Complex(x[at + (2 * (k - from))], x[at + (2 * (k - from)) + 1]) * own.Functions[k][i];
            }

            return sum;
        }

        // What a gain changes over the sweep begins with its slope: its constant is the gain itself. It is the last of each trace's terms.
        Complex Tracking(int trace, int i) =>
            terms < 2 ? 0 : Sum(own.Terms(trace).Where(static t => t.Kind == ErrorKind.Tracking).Min(static t => t.At), 1, i);

        double first = x[own.DelayAt] * own.DelayUnitS, second = x[own.DelayAt + 1] * own.DelayUnitS;
        SweepParameter[] order = [SweepParameter.S11, SweepParameter.S21, SweepParameter.S12, SweepParameter.S22];
        return
        [
            .. truth.Select((s, i) =>
            {
                Complex Seen(SweepParameter parameter)
                {
                    int trace = Array.IndexOf(order, parameter), port = parameter is SweepParameter.S11 or SweepParameter.S21 ? 1 : 2;
                    bool reflection = parameter is SweepParameter.S11 or SweepParameter.S22;
                    ScatteringMatrix m = port == 1 ? s : new ScatteringMatrix(s.S22, s.S21, s.S12, s.S11);
                    (Complex back, Complex on) = Waves(
                        m, Error(InstrumentFigure.SourceMatch, port, i), Error(InstrumentFigure.LoadMatch, 3 - port, i));
                    Complex shown = (reflection ? back : on) * (1 + Tracking(trace, i))
                        + (reflection ? Error(InstrumentFigure.Directivity, port, i) : 0);
                    double delay = parameter switch
                    {
                        SweepParameter.S11 => 2 * first,
                        SweepParameter.S22 => 2 * second,
                        _ => first + second,
                    };
                    Complex gain = new(1 + x[own.GainAt[trace]], x[own.GainAt[trace] + 1]);
                    return shown * gain * Complex.FromPolarCoordinates(1, -2 * Math.PI * Frequencies[i] * delay);
                }

                return new ScatteringMatrix(
                    Seen(SweepParameter.S11), Seen(SweepParameter.S12), Seen(SweepParameter.S21), Seen(SweepParameter.S22));
            }),
        ];
    }

    /// <summary>
    /// Waves of a two-port driven with one: a1 = 1 + s b1, a2 = l b2, b1 = S11 a1 + S12 a2, b2 = S21 a1 + S22 a2; b1 and b2 of them.
    /// </summary>
    private static (Complex Back, Complex On) Waves(ScatteringMatrix m, Complex source, Complex load)
    {
        Matrix<Complex> equations = Matrix<Complex>.Build.DenseOfArray(new Complex[,]
        {
            { 1, 0, -source, 0 },
            { 0, 1, 0, -load },
            { -m.S11, -m.S12, 1, 0 },
            { -m.S21, -m.S22, 0, 1 },
        });
        Vector<Complex> waves = equations.Solve(Vector<Complex>.Build.DenseOfArray([1, 0, 0, 0]));
        return (waves[2], waves[3]);
    }
}
