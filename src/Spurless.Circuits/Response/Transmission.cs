using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Response;

/// <summary>A network as the figures see it: S-parameters, transmission in dB and group delay at any frequency of its range.</summary>
internal sealed class Transmission(ITwoPort network)
{
    private const double Step = 3e-7;

    public MeasuredTwoPort? Measured { get; } = network as MeasuredTwoPort;

    public bool HasTransmission => Measured is not { Ports: 1 };

    public ScatteringMatrix At(double frequencyHz)
    {
        try
        {
            return network.At(frequencyHz);
        }
        catch (CircuitException e) when (e.Fault.Kind == CircuitFaultKind.Singular)
        {
            // A lossless resonance met exactly: the limit beside it.
            return network.At(frequencyHz * (1 + 1e-9));
        }
    }

    /// <summary>20 lg |S21|; -400 for less than that.</summary>
    public double Decibels(double frequencyHz) => Math.Max(-400, 20 * Math.Log10(At(frequencyHz).S21.Magnitude));

    /// <summary>
    /// Group delay in seconds. Of a circuit by five-point differences over 3e-7 of the frequency, good to about 1e-6 of itself for pass-bands wider than
    /// 1e-5 of their frequency; of a sweep from the phases of the neighbouring points. Null where nothing passes.
    /// </summary>
    public double? GroupDelay(double frequencyHz)
    {
        if (!HasTransmission)
        {
            return null;
        }

        if (Measured is { } measured)
        {
            return FromPoints(measured, frequencyHz);
        }

        Complex here = At(frequencyHz).S21;
        if (here == Complex.Zero)
        {
            return null;
        }

        double h = frequencyHz * Step;
        if (frequencyHz - (2 * h) < network.LowestHz || frequencyHz + (2 * h) > network.HighestHz)
        {
            // At the end of a block's sweep: one side only.
            double inward = frequencyHz + (2 * h) > network.HighestHz ? -h : h;
            return -(At(frequencyHz + inward).S21 / here).Phase / (2 * Math.PI * inward);
        }

        Complex slope = ((8 * (At(frequencyHz + h).S21 - At(frequencyHz - h).S21)) - (At(frequencyHz + (2 * h)).S21 - At(frequencyHz - (2 * h)).S21)) / (12 * h);
        return -(slope / here).Imaginary / (2 * Math.PI);
    }

    private static double? FromPoints(MeasuredTwoPort measured, double frequencyHz)
    {
        int i = measured.FrequenciesHz.AsSpan().BinarySearch(frequencyHz);
        int below = i >= 0 ? Math.Max(0, i - 1) : ~i - 1;
        int above = i >= 0 ? Math.Min(measured.FrequenciesHz.Length - 1, i + 1) : ~i;
        if (below < 0 || above >= measured.FrequenciesHz.Length || below == above)
        {
            return null;
        }

        // Over each step for itself, so that twice as much phase may turn before it becomes ambiguous.
        double phase = 0;
        for (int k = below; k < above; k++)
        {
            Complex a = measured.Points[k].S21;
            Complex b = measured.Points[k + 1].S21;
            if (a == Complex.Zero || b == Complex.Zero)
            {
                return null;
            }

            phase += (b / a).Phase;
        }

        return -phase / (2 * Math.PI * (measured.FrequenciesHz[above] - measured.FrequenciesHz[below]));
    }
}
