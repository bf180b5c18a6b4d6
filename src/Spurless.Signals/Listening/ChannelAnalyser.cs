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
        int count = pairs.Length / 2;
        int step = Math.Max(1, (int)Math.Round(StepS * rateHz));
        int steps = count / step;
        if (steps < 8)
        {
            return null;
        }

        double[] envelope = new double[steps];
        for (int k = 0; k < steps; k++)
        {
            envelope[k] = Kernels.Power(pairs.Slice(2 * k * step, 2 * step)) * 2;
        }

        double noise = activity.NoisePerHz * passHz;
        double strong = envelope.Order().ElementAt(steps * 85 / 100);
        double threshold = Math.Max(1.6 * noise, Math.Min(strong / 4, Math.Sqrt(strong * noise)));
        bool[] on = OnMask(envelope, threshold);
        int first = Array.IndexOf(on, true);
        int last = Array.LastIndexOf(on, true);
        if (first < 0 || last - first < 4)
        {
            return null;
        }

        int from = first * step;
        int to = Math.Min(count, (last + 1) * step);
        Span at = new(startS + from / rateHz, startS + to / rateHz);
        ReadOnlySpan<float> part = pairs[(2 * from)..(2 * to)];
        (double centre, double[] frequency, float[] size) = Demodulate(part, rateHz, on.AsSpan(first, last - first + 1), step);
        (double mean, double scatter) = Amplitude(size, on.AsSpan(first, last - first + 1), step, noise * 2_500 / passHz);
        int gaps = Gaps(on.AsSpan(first, last - first + 1));
        double steady = CarrierMeasures.Steady(part, rateHz, on.AsSpan(first, last - first + 1), step);
        bool keyed = gaps >= 3 && scatter < 0.3;
        bool fades = scatter >= 0.2 && CarrierMeasures.Fades(size, on.AsSpan(first, last - first + 1), step, noise * 2_500 / passHz);
        Modulation modulation = keyed ? Modulation.Keyed : scatter < 0.2 || fades ? Modulation.Fm
            : steady > 0.3 ? Modulation.Am : scatter > 0.42 ? Modulation.Ssb : Modulation.Fm;

        // On a path that fades a discriminator still works where the step's edge has long been passed.
        bool[] heard = fades && modulation == Modulation.Fm
            ? OnMask(envelope, Math.Min(threshold, DiscriminatorSnr * noise)) : on;
        float[] audio = new float[frequency.Length];
        double[] deviations = new double[frequency.Length / 4 + 1];
        int held = 0;
        for (int n = 0; n < audio.Length; n++)
        {
            int k = first + Math.Min(last - first, n / step);
            double d = heard[k] ? frequency[n] - centre : 0;
            audio[n] = (float)(d / FullScaleHz);
            if (n % 4 == 0 && on[k])
            {
                deviations[held++] = Math.Abs(d);
            }
        }

        Array.Sort(deviations, 0, held);
        double deviation = held == 0 ? 0 : deviations[(int)(held * 0.985)];
        double power = Enumerable.Range(first, last - first + 1).Where(k => on[k]).Average(k => envelope[k]) - noise;
        List<Finding> findings = [];
        if (modulation == Modulation.Fm)
        {
            Stretch stretch = Stretch.Make(
                audio, rateHz, at.FromS, own.FromS, own.ToS, CarrierMeasures.Holes(heard.AsSpan(first, last - first + 1), step / rateHz));
            findings.AddRange(AudioAnalyser.Analyse(stretch, carrierKnown: true).Findings.Select(f => f with
            {
                Evidence = f.Evidence with
                {
                    Modulation = modulation,
                    ToneDeviationHz = f.Evidence.ToneDeviationHz * FullScaleHz,
                    DeviationHz = f.Kind is SignalKind.Ctcss or SignalKind.Dcs ? null : deviation,
                },
            }));
            double speech = Math.Sqrt(Kernels.Power(stretch.Speech)) * FullScaleHz;
            if (findings.Count == 0 && Math.Max(speech, Math.Sqrt(Kernels.Power(stretch.Low)) * FullScaleHz) < Quiet(power, noise, passHz))
            {
                findings.Add(Carrier(at, power / Math.Max(1e-20, noise)));
            }
        }
        else if (modulation == Modulation.Keyed)
        {
            double[] lengths = [.. envelope.Select(Math.Sqrt)];
            if (MorseRecogniser.FromEnvelope(lengths, step / rateHz, startS + step / rateHz / 2) is { } morse)
            {
                findings.Add(morse with
                {
                    Evidence = morse.Evidence with { Modulation = modulation },
                    Trace = TraceMaker.OfEnvelope(
                        lengths, step / rateHz, startS + step / rateHz / 2, new Span(morse.StartS, morse.EndS)),
                });
            }
            else
            {
                findings.Add(Carrier(at, power / Math.Max(1e-20, noise)));
            }
        }
        else
        {
            float[] sound = new float[size.Length];
            for (int n = 0; n < sound.Length; n++)
            {
                sound[n] = on[first + Math.Min(last - first, n / step)] ? (float)(0.3 * (size[n] / mean - 1)) : 0;
            }

            Stretch stretch = Stretch.Make(sound, rateHz, at.FromS, own.FromS, own.ToS);
            findings.AddRange(AudioAnalyser.Analyse(stretch, carrierKnown: true).Findings.Select(
                f => f with { Evidence = f.Evidence with { Modulation = modulation } }));
        }

        double width = CarrierMeasures.Width(part, rateHz, activity.NoisePerHz);
        if (findings.Count == 0)
        {
            findings.Add(new Finding
            {
                Kind = SignalKind.Unknown,
                StartS = at.FromS,
                EndS = at.ToS,
                Confidence = 0.5,
                Evidence = new Evidence
                {
                    BandwidthHz = width,
                    Modulation = modulation,
                    DeviationHz = modulation == Modulation.Fm
                    ? deviation : null
                },
            });
        }

        return new ChannelAnalysis
        {
            On = at,
            OffsetHz = activity.MiddleHz + centre,
            WidthHz = width,
            Power = Math.Max(1e-20, power),
            NoisePower = Math.Max(1e-20, activity.NoisePerHz * Math.Max(width, 1_000)),
            Modulation = modulation,
            DeviationHz = modulation == Modulation.Fm ? deviation : null,
            Findings = findings,
        };
    }

    private static Finding Carrier(Span at, double snr) => new()
    {
        Kind = SignalKind.Carrier,
        StartS = at.FromS,
        EndS = at.ToS,
        Confidence = 0.95,
        Evidence = new Evidence { SnrDb = 10 * Math.Log10(Math.Max(1e-6, snr)) },
    };

    /// <summary>
    /// The rms deviation in the speech band that the noise makes on a bare carrier, with a margin: kTB over 2C, parabolic in frequency.
    /// </summary>
    private static double Quiet(double power, double noise, double passHz) =>
        150 + 2.5 * Math.Sqrt(noise / passHz / Math.Max(1e-20, power) * Math.Pow(3_400, 3) / 3);

    private static bool[] OnMask(double[] envelope, double threshold)
    {
        bool[] on = new bool[envelope.Length];
        for (int k = 0; k < on.Length; k++)
        {
            double a = envelope[Math.Max(0, k - 1)];
            double c = envelope[Math.Min(on.Length - 1, k + 1)];
            int over = (a > threshold ? 1 : 0) + (envelope[k] > threshold ? 1 : 0) + (c > threshold ? 1 : 0);
            on[k] = over >= 2;
        }

        // Holes under 8 ms are the noise's or a fade's.
        int off = 0;
        for (int k = 0; k < on.Length; k++)
        {
            if (on[k])
            {
                if (off is > 0 and < 4 && k - off > 0)
                {
                    on.AsSpan(k - off, off).Fill(true);
                }

                off = 0;
            }
            else
            {
                off++;
            }
        }

        return on;
    }

    private static int Gaps(ReadOnlySpan<bool> on)
    {
        int gaps = 0;
        for (int k = 1; k < on.Length; k++)
        {
            gaps += on[k - 1] && !on[k] ? 1 : 0;
        }

        return gaps;
    }

    private static (double CentreHz, double[] Hz, float[] Size) Demodulate(
        ReadOnlySpan<float> z, double rateHz, ReadOnlySpan<bool> on, int step)
    {
        int count = z.Length / 2;
        double[] hz = new double[count];
        float[] size = new float[count];
        double re = 0;
        double im = 0;
        double scale = rateHz / (2 * Math.PI);
        for (int n = 1; n < count; n++)
        {
            double i = z[2 * n];
            double q = z[2 * n + 1];
            double a = i * z[2 * n - 2] + q * z[2 * n - 1];
            double b = q * z[2 * n - 2] - i * z[2 * n - 1];
            hz[n] = Math.Atan2(b, a) * scale;
            size[n] = (float)Math.Sqrt(i * i + q * q);
            re += a;
            im += b;
        }

        // The middle of the extremes where it is keyed wide, else the mean by power.
        double byPower = Math.Atan2(im, re) * scale;
        int smooth = Math.Max(1, (int)(rateHz * 0.0002));
        List<double> values = [];
        double sum = 0;
        for (int n = 0; n < count; n++)
        {
            sum += hz[n];
            if (n >= smooth)
            {
                sum -= hz[n - smooth];
            }

            if (n % 3 == 0 && n > smooth && on[Math.Min(on.Length - 1, n / step)])
            {
                values.Add(sum / smooth);
            }
        }

        if (values.Count < 20)
        {
            return (byPower, hz, size);
        }

        values.Sort();
        double low = values[values.Count / 20];
        double high = values[values.Count * 19 / 20];
        double quarter = values[values.Count * 3 / 4] - values[values.Count / 4];
        bool twoSided = quarter > 0.55 * (high - low) && high - low > 1_500;
        return (twoSided ? (low + high) / 2 : high - low > 800 ? values.Average() : byPower, hz, size);
    }

    /// <summary>Mean size, and its scatter as a share of the mean, less what the noise in the envelope's own width adds.</summary>
    private static (double Mean, double Scatter) Amplitude(float[] size, ReadOnlySpan<bool> on, int step, double noise)
    {
        int average = Math.Max(1, step / 5);
        double sum = 0;
        double squares = 0;
        int count = 0;
        for (int n = step; n + average < size.Length - step; n += average)
        {
            int k = Math.Min(on.Length - 1, n / step);
            if (!on[k] || k > 0 && !on[k - 1] || k + 1 < on.Length && !on[k + 1])
            {
                continue;
            }

            double a = 0;
            for (int j = 0; j < average; j++)
            {
                a += size[n + j];
            }

            a /= average;
            sum += a;
            squares += a * a;
            count++;
        }

        if (count == 0)
        {
            return (1e-9, 0);
        }

        double mean = sum / count;
        double variance = Math.Max(0, squares / count - mean * mean - noise / 2);
        return (Math.Max(1e-9, mean), Math.Sqrt(variance) / Math.Max(1e-9, mean));
    }
}
