using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Radio.Quantities;

namespace Spurless.Fit;

/// <summary>One S-parameter of a sweep: complex, or its magnitude in dB.</summary>
/// <param name="Parameter">Which.</param>
/// <param name="Values">Complex values, time convention e^{+jwt}; empty where only the magnitude was measured.</param>
/// <param name="Decibels">Magnitudes in dB; of a complex sweep computed from <paramref name="Values"/>.</param>
public sealed record SweepTrace(SweepParameter Parameter, ImmutableArray<Complex> Values, ImmutableArray<double> Decibels)
{
    /// <summary>A complex trace.</summary>
    public static SweepTrace Of(SweepParameter parameter, ImmutableArray<Complex> values) =>
        new(parameter, values, [.. values.Select(static v => Math.Max(-400, 20 * Math.Log10(v.Magnitude)))]);

    /// <summary>A trace of magnitudes.</summary>
    public static SweepTrace Of(SweepParameter parameter, ImmutableArray<double> decibels) => new(parameter, [], decibels);
}

/// <summary>A measured sweep as a fit takes it: complex with all S-parameters of a file, or magnitudes alone.</summary>
public sealed class FitSweep
{
    private FitSweep(string name, ImmutableArray<double> frequenciesHz, ImmutableArray<SweepTrace> traces)
    {
        Name = name;
        FrequenciesHz = frequenciesHz;
        Traces = traces;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string Name { get; }

    /// <summary>Frequencies in hertz, rising, above 0.</summary>
    public ImmutableArray<double> FrequenciesHz { get; }

    /// <summary>The S-parameters there are.</summary>
    public ImmutableArray<SweepTrace> Traces { get; }

    /// <summary>Whether there are magnitudes only.</summary>
    public bool IsMagnitude => Traces[0].Values.IsEmpty;

    /// <summary>A sweep of a Touchstone file.</summary>
    /// <param name="data">The file.</param>
    /// <param name="impedanceOhm">The circuit's port impedance, into which the S-parameters are renormalised.</param>
    /// <exception cref="ArithmeticException">A point has no S-parameters in that reference.</exception>
    public static FitSweep From(TouchstoneData data, double impedanceOhm)
    {
        ArgumentNullException.ThrowIfNull(data);
        MeasuredTwoPort measured = MeasuredTwoPort.From(data).InReference(impedanceOhm);
        int[] kept = [.. Enumerable.Range(0, measured.Points.Length).Where(i => measured.FrequenciesHz[i] > 0)];
        ImmutableArray<Complex> Take(Func<ScatteringMatrix, Complex> of) => [.. kept.Select(i => of(measured.Points[i]))];
        SweepTrace s11 = SweepTrace.Of(SweepParameter.S11, Take(static s => s.S11));
        return new FitSweep(
            data.Name,
            [.. kept.Select(i => measured.FrequenciesHz[i])],
            data.Ports == 1
                ? [s11]
                :
                [
                    s11,
                    SweepTrace.Of(SweepParameter.S21, Take(static s => s.S21)),
                    SweepTrace.Of(SweepParameter.S12, Take(static s => s.S12)),
                    SweepTrace.Of(SweepParameter.S22, Take(static s => s.S22)),
                ]);
    }

    /// <summary>A sweep of magnitudes.</summary>
    /// <param name="name">Name for messages.</param>
    /// <param name="frequenciesHz">Frequencies in hertz, rising, above 0.</param>
    /// <param name="s21Db">|S21| in dB, one per frequency.</param>
    /// <param name="s11Db">|S11| in dB, one per frequency; empty where it was not measured.</param>
    /// <exception cref="ArgumentException">The above does not hold.</exception>
    public static FitSweep OfMagnitudes(
        string name, ImmutableArray<double> frequenciesHz, ImmutableArray<double> s21Db, ImmutableArray<double> s11Db)
    {
        if (frequenciesHz.Length != s21Db.Length || (!s11Db.IsEmpty && s11Db.Length != s21Db.Length))
        {
            throw new ArgumentException("there must be as many values as frequencies", nameof(s21Db));
        }

        SweepTrace s21 = SweepTrace.Of(SweepParameter.S21, s21Db);
        return new FitSweep(name, frequenciesHz, s11Db.IsEmpty ? [s21] : [SweepTrace.Of(SweepParameter.S11, s11Db), s21]);
    }

    /// <summary>The same sweep at some of its points only.</summary>
    internal FitSweep At(IReadOnlyList<int> points) => new(
        Name,
        [.. points.Select(i => FrequenciesHz[i])],
        [
            .. Traces.Select(
                t =>
                    new SweepTrace(
                        t.Parameter, t.Values.IsEmpty ? [] : [.. points.Select(i => t.Values[i])], [.. points.Select(i => t.Decibels[i])])),
        ]);

    /// <summary>The same sweep with one trace more.</summary>
    internal FitSweep With(SweepTrace trace) => new(Name, FrequenciesHz, Traces.Add(trace));

    /// <summary>The same sweep with its traces changed, or left out where null.</summary>
    internal FitSweep Select(Func<SweepTrace, SweepTrace?> change) =>
        new(Name, FrequenciesHz, [.. Traces.Select(change).OfType<SweepTrace>()]);

    internal static string Megahertz(double hertz) => MegahertzText.Of(hertz, 0, 6) + " MHz";
}
