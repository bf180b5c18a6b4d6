using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition.Tones;

namespace Spurless.Signals.Recognition.Traces;

/// <summary>
/// Draws what a finding was recognised by: the eye of keyed signals, frequency and level of tones. Dialling tones have none: their order
/// over time is a number.
/// </summary>
internal static class TraceMaker
{
    private const int MostPoints = 240;
    private const double MostMorseS = 8;
    private const int MorsePointsADot = 4;
    private const double ClearS = 0.1;
    private const double LeastCoherence = 0.5;

    /// <summary>The finding with its trace.</summary>
    /// <param name="stretch">The audio in which it was found.</param>
    /// <param name="finding">The finding.</param>
    public static Finding Traced(Stretch stretch, Finding finding)
    {
        Span span = new(Math.Max(0, finding.StartS - stretch.StartS), Math.Min(stretch.LengthS, finding.EndS - stretch.StartS));
        return span.LengthS < ClearS ? finding : finding.Kind switch
        {
            SignalKind.Afsk1200 => finding with { Trace = OfEye(EyeMaker.OfTones(stretch, span)) },
            SignalKind.Pocsag or SignalKind.Fsk9600 or SignalKind.TwoLevelFsk or SignalKind.FourLevelFsk or SignalKind.Dcs
                when finding.SymbolRateBd is { } rate => finding with { Trace = OfEye(EyeMaker.OfLevels(stretch, span, rate)) },
            SignalKind.Ctcss when finding.ToneHz is { } hz => finding with { Trace = OfTone(Steady(stretch, span, hz)) },
            SignalKind.Tone or SignalKind.TwoTone => finding with { Trace = OfTone(Wandering(stretch, span)) },
            SignalKind.Morse when finding.ToneHz is { } hz => finding with
            {
                Trace = OfTone(Keyed(stretch, span, hz, 1 / (finding.SymbolRateBd ?? 20))),
            },
            _ => finding,
        };
    }

    /// <summary>The level of a keyed carrier over its first seconds.</summary>
    /// <param name="lengths">Its envelope, one value a step.</param>
    /// <param name="stepS">A step, in seconds.</param>
    /// <param name="startS">When the envelope begins.</param>
    /// <param name="span">Where the keying is.</param>
    public static Trace? OfEnvelope(double[] lengths, double stepS, double startS, Span span)
    {
        int from = Math.Clamp((int)((span.FromS - startS) / stepS) - 1, 0, lengths.Length);
        int to = Math.Clamp((int)((Math.Min(span.ToS, span.FromS + MostMorseS) - startS) / stepS) + 2, from, lengths.Length);
        double most = to > from ? lengths[from..to].Max() : 0;
        return most <= 0 ? null : OfTone([.. Enumerable.Range(from, to - from).Select(
            k => new TonePoint(startS + k * stepS, null, Db(lengths[k] / most)))]);
    }

    private static Trace? OfEye(EyePicture? eye) => eye is null ? null : new Trace { Eye = eye };

    private static Trace? OfTone(List<TonePoint> points) => points.Count < 3 ? null : new Trace { Tone = points };

    private static List<TonePoint> Steady(Stretch stretch, Span span, double hz)
    {
        ToneMeasure tone = new(stretch.Low, Stretch.LowRate, hz, span, 0.3);
        List<TonePoint> points = [];
        int step = Math.Max(1, tone.Count / MostPoints);
        for (int k = 2; k + 2 < tone.Count; k += step)
        {
            // The phase's slope over five points that overlap: 0.6 s.
            double t = tone.TimeS(k);
            (double measured, double coherence) = tone.Frequency(new Span(tone.TimeS(k - 2) - 1e-6, tone.TimeS(k + 2) + 1e-6));
            points.Add(new TonePoint(stretch.StartS + t, coherence > LeastCoherence ? measured : null, Db(tone.Size(k))));
        }

        return points;
    }

    private static List<TonePoint> Wandering(Stretch stretch, Span span)
    {
        PowerSpectrum spectrum = new(1_024, 512);
        float[] power = new float[512];
        double binHz = (double)Stretch.NarrowRate / spectrum.Size;
        double stepS = Math.Max(0.02, span.LengthS / MostPoints);
        List<TonePoint> points = [];
        for (double t = span.FromS; t < span.ToS; t += stepS)
        {
            int at = (int)(t * Stretch.NarrowRate);
            if (at + spectrum.Length > stretch.Narrow.Length)
            {
                break;
            }

            spectrum.OfReal(stretch.Narrow.AsSpan(at, spectrum.Length), power);
            int top = (int)(200 / binHz);
            for (int b = top; b < (int)(3_800 / binHz); b++)
            {
                top = power[b] > power[top] ? b : top;
            }

            // The middle of a parabola through the logarithms of the three highest bins.
            double a = Math.Log(power[top - 1] + 1e-20);
            double c = Math.Log(power[top] + 1e-20);
            double e = Math.Log(power[top + 1] + 1e-20);
            double off = Math.Abs(a - 2 * c + e) < 1e-9 ? 0 : 0.5 * (a - e) / (a - 2 * c + e);
            points.Add(new TonePoint(
                stretch.StartS + t + spectrum.Length / 2.0 / Stretch.NarrowRate, (top + off) * binHz,
                Db(Math.Sqrt(2 * (power[top - 1] + power[top] + power[top + 1])))));
        }

        return points;
    }

    private static List<TonePoint> Keyed(Stretch stretch, Span span, double hz, double dotS)
    {
        Span shown = new(span.FromS, Math.Min(span.ToS, span.FromS + MostMorseS));
        ToneMeasure tone = new(stretch.Narrow, Stretch.NarrowRate, hz, shown, dotS / MorsePointsADot * 2);
        return [.. Enumerable.Range(0, tone.Count).Select(k => new TonePoint(stretch.StartS + tone.TimeS(k), null, Db(tone.Size(k))))];
    }

    private static double Db(double size) => 20 * Math.Log10(size + 1e-6);
}
