using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Tones;
using Spurless.Signals.Recognition.Traces;

namespace Spurless.Signals.Listening;

/// <summary>What one stretch of one channel is.</summary>
internal sealed record ChannelAnalysis
{
    public required Span On { get; init; }

    public required double OffsetHz { get; init; }

    public required double WidthHz { get; init; }

    public required double Power { get; init; }

    public required double NoisePower { get; init; }

    public required Modulation Modulation { get; init; }

    public double? DeviationHz { get; init; }

    public required List<Finding> Findings { get; init; }
}

/// <summary>Demodulates a channel, in frequency and where it has an envelope in amplitude, and recognises what is on it.</summary>
internal static class ChannelAnalyser
{
    /// <summary>Full scale of demodulated audio, in hertz of deviation.</summary>
    public const double FullScaleHz = 10_000;

    private const double StepS = 0.002;
    private const int LeastSteps = 8;

    // 7 dB in the channel: under it clicks come often.
    private const double DiscriminatorSnr = 5;

    /// <summary>Analyses a stretch of a channel.</summary>
    /// <param name="pairs">The channel's samples.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="startS">The first sample's moment, in seconds from the recording's start.</param>
    /// <param name="activity">What the scan saw.</param>
    /// <param name="passHz">Width of the channel's pass band.</param>
    /// <param name="own">What begins in here is counted.</param>
    public static ChannelAnalysis? Analyse(ReadOnlySpan<float> pairs, double rateHz, double startS, Activity activity, double passHz,
        Span own)
    {
        int step = Math.Max(1, (int)Math.Round(StepS * rateHz));
        double noise = activity.NoisePerHz * passHz;
        double[] envelope = Demodulator.Envelope(pairs, step);
        double threshold = Demodulator.Threshold(envelope, noise);
        bool[] on = Demodulator.OnMask(envelope, threshold);
        int first = Array.IndexOf(on, true);
        int last = Array.LastIndexOf(on, true);
        if (envelope.Length < LeastSteps || first < 0 || last - first < 4)
        {
            return null;
        }

        int from = first * step;
        int to = Math.Min(pairs.Length / 2, (last + 1) * step);
        ReadOnlySpan<float> part = pairs[(2 * from)..(2 * to)];
        ReadOnlySpan<bool> partOn = on.AsSpan(first, last - first + 1);
        Demodulated carrier = Demodulator.Run(part, rateHz, partOn, step, noise * 2_500 / passHz);
        Piece piece = new(
            carrier,
            new Span(startS + from / rateHz, startS + to / rateHz),
            own,
            rateHz,
            step,
            Enumerable.Range(first, last - first + 1).Where(k => on[k]).Average(k => envelope[k]) - noise,
            noise,
            passHz);
        double? deviation = carrier.Modulation == Modulation.Fm ? carrier.Deviation(partOn, step) : null;
        List<Finding> findings = carrier.Modulation switch
        {
            Modulation.Fm => InFrequency(
                piece, HeardMask(piece, envelope, on, threshold).AsSpan(first, last - first + 1), deviation!.Value),
            Modulation.Keyed => [Keyed(piece, envelope, startS)],
            _ => InAmplitude(piece, partOn),
        };
        double width = CarrierMeasures.Width(part, rateHz, activity.NoisePerHz);
        if (findings.Count == 0)
        {
            findings.Add(Unknown(piece, width, deviation));
        }

        return new ChannelAnalysis
        {
            On = piece.At,
            OffsetHz = activity.MiddleHz + carrier.CentreHz,
            WidthHz = width,
            Power = Math.Max(1e-20, piece.Power),
            NoisePower = Math.Max(1e-20, activity.NoisePerHz * Math.Max(width, 1_000)),
            Modulation = carrier.Modulation,
            DeviationHz = deviation,
            Findings = findings,
        };
    }

    /// <summary>On a path that fades a discriminator still works where the step's edge has long been passed.</summary>
    private static bool[] HeardMask(Piece piece, double[] envelope, bool[] on, double threshold) => piece.Carrier.Fades
        ? Demodulator.OnMask(envelope, Math.Min(threshold, DiscriminatorSnr * piece.Noise)) : on;

    private static List<Finding> InFrequency(Piece piece, ReadOnlySpan<bool> heard, double deviation)
    {
        Demodulated carrier = piece.Carrier;
        float[] audio = new float[carrier.Hz.Length];
        for (int n = 0; n < audio.Length; n++)
        {
            double d = heard[Math.Min(heard.Length - 1, n / piece.Step)] ? carrier.Hz[n] - carrier.CentreHz : 0;
            audio[n] = (float)(d / FullScaleHz);
        }

        Stretch stretch = Stretch.Make(audio, piece.RateHz, piece.At.FromS, piece.Own.FromS, piece.Own.ToS,
            CarrierMeasures.Holes(heard, piece.Step / piece.RateHz));
        List<Finding> findings = [.. AudioAnalyser.Analyse(stretch, carrierKnown: true).Findings.Select(f => f with
        {
            Evidence = f.Evidence with
            {
                Modulation = carrier.Modulation,
                ToneDeviationHz = f.Evidence.ToneDeviationHz * FullScaleHz,
                DeviationHz = f.Kind is SignalKind.Ctcss or SignalKind.Dcs ? null : deviation,
            },
        })];
        double speech = Math.Sqrt(Kernels.Power(stretch.Speech)) * FullScaleHz;
        if (findings.Count == 0
            && Math.Max(speech, Math.Sqrt(Kernels.Power(stretch.Low)) * FullScaleHz) < Quiet(piece.Power, piece.Noise, piece.PassHz))
        {
            findings.Add(Carrier(piece));
        }

        return findings;
    }

    /// <summary>Morse where the keying is some, else a carrier that comes and goes.</summary>
    private static Finding Keyed(Piece piece, double[] envelope, double startS)
    {
        double[] lengths = [.. envelope.Select(Math.Sqrt)];
        double stepS = piece.Step / piece.RateHz;
        return MorseRecogniser.FromEnvelope(lengths, stepS, startS + stepS / 2) is not { } morse ? Carrier(piece) : morse with
        {
            Evidence = morse.Evidence with { Modulation = Modulation.Keyed },
            Trace = TraceMaker.OfEnvelope(lengths, stepS, startS + stepS / 2, new Span(morse.StartS, morse.EndS)),
        };
    }

    private static List<Finding> InAmplitude(Piece piece, ReadOnlySpan<bool> on)
    {
        Demodulated carrier = piece.Carrier;
        float[] sound = new float[carrier.Size.Length];
        for (int n = 0; n < sound.Length; n++)
        {
            sound[n] = on[Math.Min(on.Length - 1, n / piece.Step)] ? (float)(0.3 * (carrier.Size[n] / carrier.MeanSize - 1)) : 0;
        }

        Stretch stretch = Stretch.Make(sound, piece.RateHz, piece.At.FromS, piece.Own.FromS, piece.Own.ToS);
        return [.. AudioAnalyser.Analyse(stretch, carrierKnown: true).Findings.Select(
            f => f with { Evidence = f.Evidence with { Modulation = carrier.Modulation } })];
    }

    private static Finding Unknown(Piece piece, double width, double? deviation) => new()
    {
        Kind = SignalKind.Unknown,
        StartS = piece.At.FromS,
        EndS = piece.At.ToS,
        Confidence = 0.5,
        Evidence = new Evidence { BandwidthHz = width, Modulation = piece.Carrier.Modulation, DeviationHz = deviation },
    };

    private static Finding Carrier(Piece piece) => new()
    {
        Kind = SignalKind.Carrier,
        StartS = piece.At.FromS,
        EndS = piece.At.ToS,
        Confidence = 0.95,
        Evidence = new Evidence { SnrDb = 10 * Math.Log10(Math.Max(1e-6, piece.Power / Math.Max(1e-20, piece.Noise))) },
    };

    /// <summary>
    /// The rms deviation in the speech band that the noise makes on a bare carrier, with a margin: kTB over 2C, parabolic in frequency.
    /// </summary>
    private static double Quiet(double power, double noise, double passHz) =>
        150 + 2.5 * Math.Sqrt(noise / passHz / Math.Max(1e-20, power) * Math.Pow(3_400, 3) / 3);

    /// <summary>A stretch of a carrier from where it comes on to where it goes off.</summary>
    private sealed record Piece(
        Demodulated Carrier, Span At, Span Own, double RateHz, int Step, double Power, double Noise, double PassHz);
}
