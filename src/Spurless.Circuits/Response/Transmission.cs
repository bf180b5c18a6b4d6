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

    /// <summary>S-parameters at many frequencies; of a circuit all at once.</summary>
    public ScatteringMatrix[] At(double[] frequenciesHz)
    {
        ScatteringMatrix[] s = new ScatteringMatrix[frequenciesHz.Length];
        if (network is not CircuitTwoPort circuit || circuit.TryAt(frequenciesHz, s) is not null)
        {
            for (int i = 0; i < s.Length; i++)
            {
                s[i] = At(frequenciesHz[i]);
            }
        }

        return s;
    }

    /// <summary>20 lg |S21| at many frequencies.</summary>
    public double[] Decibels(double[] frequenciesHz) =>
        [.. At(frequenciesHz).Select(static s => Math.Max(-400, 20 * Math.Log10(s.S21.Magnitude)))];

    /// <summary>Group delay at one frequency, see <see cref="GroupDelays"/>.</summary>
    public double? GroupDelay(double frequencyHz) => GroupDelays([frequencyHz])[0];

    /// <summary>
    /// Group delays in seconds. Of a circuit by five-point differences over 3e-7 of the frequency, good to about 1e-6 of itself for
    /// pass-bands wider than 1e-5 of their frequency; of a sweep from the phases of the neighbouring points. Null where nothing passes.
    /// </summary>
    public double?[] GroupDelays(double[] frequenciesHz)
    {
        if (!HasTransmission)
        {
            return new double?[frequenciesHz.Length];
        }

        if (Measured is { } measured)
        {
            return [.. frequenciesHz.Select(f => FromPoints(measured, f))];
        }

        // Five points each; at the end of a block's sweep the stencil moves inward as a whole, the slope is then that two steps beside.
        double[] stencil = new double[5 * frequenciesHz.Length];
        double[] steps = new double[frequenciesHz.Length];
        for (int i = 0; i < frequenciesHz.Length; i++)
        {
            double h = steps[i] = frequenciesHz[i] * Step;
            double middle = Math.Max(Math.Min(frequenciesHz[i], network.HighestHz - (2 * h)), network.LowestHz + (2 * h));
            for (int k = 0; k < 5; k++)
            {
                stencil[(5 * i) + k] = middle + ((k - 2) * h);
            }

            stencil[5 * i] = Math.Max(stencil[5 * i], network.LowestHz);
            stencil[(5 * i) + 4] = Math.Min(stencil[(5 * i) + 4], network.HighestHz);
        }

        ScatteringMatrix[] s = At(stencil);
        double?[] delays = new double?[frequenciesHz.Length];
        for (int i = 0; i < delays.Length; i++)
        {
            ReadOnlySpan<ScatteringMatrix> five = s.AsSpan(5 * i, 5);
            Complex slope = ((8 * (five[3].S21 - five[1].S21)) - (five[4].S21 - five[0].S21)) / (12 * steps[i]);
            delays[i] = five[2].S21 == Complex.Zero ? null : -(slope / five[2].S21).Imaginary / (2 * Math.PI);
        }

        return delays;
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
