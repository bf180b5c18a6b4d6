using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit;

/// <summary>The measured numbers of a fit in arrays, padded to batches of eight, with the weight of each point.</summary>
internal sealed class FitData
{
    /// <param name="sweep">The sweep.</param>
    public FitData(FitSweep sweep)
    {
        Sweep = sweep;
        Points = sweep.FrequenciesHz.Length;
        Padded = (Points + 7) & ~7;
        FrequenciesHz = [.. sweep.FrequenciesHz];
        Parameters = [.. sweep.Traces.Select(static t => t.Parameter)];
        Magnitude = [.. sweep.Traces.Select(static t => t.Values.IsEmpty)];
        int traces = Parameters.Length;
        (Real, Imaginary, Weight, Bias) = (Rows(), Rows(), Rows(), new double[traces]);
        for (int t = 0; t < traces; t++)
        {
            SweepTrace trace = sweep.Traces[t];
            for (int i = 0; i < Points; i++)
            {
                Real[t][i] = Magnitude[t] ? trace.Decibels[i] : trace.Values[i].Real;
                Imaginary[t][i] = Magnitude[t] ? 0 : trace.Values[i].Imaginary;
                Weight[t][i] = 1;
            }
        }

        Clean = [.. Enum.GetValues<SweepParameter>().Select(Measured)];

        double[][] Rows() => [.. Enumerable.Range(0, traces).Select(_ => new double[Padded])];
    }

    /// <summary>
    /// S-parameters as the instrument's errors multiply them, in the order of <see cref="SweepParameter"/>: as measured at first (what was
    /// not measured
    /// counts as nothing, S12 as S21), as fitted after <see cref="Renew"/>. Null of magnitudes.
    /// </summary>
    public Complex[]?[] Clean { get; }

    public FitSweep Sweep { get; }

    public int Points { get; }

    /// <summary>Points rounded up to whole batches; the weights behind <see cref="Points"/> are 0.</summary>
    public int Padded { get; }

    public double[] FrequenciesHz { get; }

    public SweepParameter[] Parameters { get; }

    /// <summary>Whether a trace is of magnitudes in dB.</summary>
    public bool[] Magnitude { get; }

    /// <summary>Real parts, or magnitudes in dB.</summary>
    public double[][] Real { get; }

    public double[][] Imaginary { get; }

    /// <summary>What a residual's real and imaginary part are multiplied by: one over their sigma; 0 for a point left out.</summary>
    public double[][] Weight { get; }

    /// <summary>Power of the instrument's noise floor in a magnitude trace, as |S| squared; 0 where not known.</summary>
    public double[] Bias { get; }

    /// <summary>Points that count, over all traces.</summary>
    public int Used => Weight.Sum(static w => w.Count(static x => x > 0));

    /// <summary>
    /// Takes the S-parameters of a fit in place of the measured ones, which have noise and the instrument's errors in them.
    /// </summary>
    public void Renew(ReadOnlySpan<ScatteringMatrix> s)
    {
        foreach (SweepParameter parameter in Enum.GetValues<SweepParameter>())
        {
            if (Clean[(int)parameter] is { } clean)
            {
                for (int i = 0; i < Points; i++)
                {
                    clean[i] = parameter switch
                    {
                        SweepParameter.S11 => s[i].S11,
                        SweepParameter.S22 => s[i].S22,
                        SweepParameter.S12 => s[i]
                        .S12,
                        _ => s[i].S21
                    };
                }
            }
        }
    }

    private Complex[]? Measured(SweepParameter parameter)
    {
        if (Magnitude[0])
        {
            return null;
        }

        int t = Array.IndexOf(Parameters, parameter);
        t = t >= 0 || parameter is SweepParameter.S11 or SweepParameter.S22 ? t
            : Array.FindIndex(Parameters, static p => p is SweepParameter.S21 or SweepParameter.S12);
        Complex[] values = new Complex[Points];
        for (int i = 0; t >= 0 && i < Points; i++)
        {
            values[i] = new Complex(Real[t][i], Imaginary[t][i]);
        }

        return values;
    }

    /// <summary>
    /// The same for a first look: few points and blunt weights, reflections as they are, transmission in dB, in which a filter that is far
    /// off still tells in which direction. Points in the floor say that nothing more passes than the floor.
    /// </summary>
    /// <param name="points">Which points.</param>
    /// <param name="noise">Noise of each trace.</param>
    /// <param name="sigma">One sigma of a reflection.</param>
    /// <param name="sigmaDb">One sigma of a magnitude.</param>
    public FitData FirstLook(IReadOnlyList<int> points, TraceNoise[] noise, double sigma, double sigmaDb)
    {
        SweepParameter[] parameters = Parameters;
        FitSweep coarse = Sweep.At(points).Select(t => t.Parameter == SweepParameter.S12 && parameters.Contains(SweepParameter.S21) ? null
            : t.Parameter is SweepParameter.S11 or SweepParameter.S22 ? t : SweepTrace.Of(t.Parameter, t.Decibels));
        FitData look = new(coarse);
        for (int t = 0; t < look.Parameters.Length; t++)
        {
            int from = Array.IndexOf(Parameters, look.Parameters[t]);
            bool db = look.Magnitude[t];
            look.Bias[t] = db && !Magnitude[from] ? noise[from].Floor : Bias[from];
            for (int i = 0; i < look.Points; i++)
            {
                look.Weight[t][i] = 1 / (db ? sigmaDb : sigma);
            }
        }

        return look;
    }

    /// <summary>Some of the points, with their weights.</summary>
    public FitData At(IReadOnlyList<int> points)
    {
        FitData some = new(Sweep.At(points));
        for (int p = 0; p < Clean.Length; p++)
        {
            if (Clean[p] is { } from && some.Clean[p] is { } to)
            {
                for (int i = 0; i < points.Count; i++)
                {
                    to[i] = from[points[i]];
                }
            }
        }

        for (int t = 0; t < Parameters.Length; t++)
        {
            some.Bias[t] = Bias[t];
            for (int i = 0; i < points.Count; i++)
            {
                some.Weight[t][i] = Weight[t][points[i]];
            }
        }

        return some;
    }
}
