using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition;

/// <summary>
/// Tells the receiver's own noise and silence from anything else, in frames of 50 ms. Noise is what has no lines over its own smooth
/// spectrum and Gaussian amplitudes; its level may be anything. A keyed signal's amplitudes are flatter than Gaussian (kurtosis 1 to 2),
/// impulses' are peaked.
/// </summary>
internal sealed class ActivityMap
{
    /// <summary>Length of a frame, in seconds.</summary>
    public const double FrameS = 0.05;

    private const int Frame = 600;
    private const int WideFrame = 2_400;
    private const double SilenceDb = -85;
    private const double PeakOverNoise = 26;
    private const double FlatKurtosis = 2.3;
    private const double PeakedKurtosis = 5;

    // What the filters spread a hole's edges by.
    private const double SpeechMarginS = 0.009;
    private const double WideMarginS = 0.001;
    private const double MostLost = 0.5;

    private readonly bool[] _lost;
    private readonly bool[] _lines;
    private readonly double[] _kurtosis;
    private readonly double[] _kurtosisNarrow;
    private readonly double[] _kurtosisWide;

    private ActivityMap(int frames)
    {
        SpeechDb = new double[frames];
        TotalDb = new double[frames];
        HighDb = new double[frames];
        Plain = new bool[frames];
        _lost = new bool[frames];
        _lines = new bool[frames];
        _kurtosis = new double[frames];
        _kurtosisNarrow = new double[frames];
        _kurtosisWide = new double[frames];
    }

    /// <summary>Level in 300 to 3,400 Hz of each frame, in dB of full scale.</summary>
    public double[] SpeechDb { get; }

    /// <summary>Level of all audio of each frame, in dB of full scale.</summary>
    public double[] TotalDb { get; }

    /// <summary>Level over 4.5 kHz of each frame, where the recording holds that, else of 300 to 3,400 Hz.</summary>
    public double[] HighDb { get; }

    /// <summary>Whether the frame is nothing but noise or silence.</summary>
    public bool[] Plain { get; }

    /// <summary>Frames.</summary>
    public int Count => Plain.Length;

    /// <summary>Measures a stretch.</summary>
    public static ActivityMap Of(Stretch stretch)
    {
        ActivityMap map = new(stretch.Narrow.Length / Frame);
        map.Measure(stretch);
        map.Judge(stretch.TopHz);
        return map;
    }

    /// <summary>Stretches of plain frames at least so long, as frames.</summary>
    public List<(int From, int To)> PlainRuns(int least)
    {
        List<(int, int)> runs = [];
        int from = 0;
        while (from < Count)
        {
            if (!Plain[from])
            {
                from++;
                continue;
            }

            int to = from;
            while (to < Count && Plain[to])
            {
                to++;
            }

            if (to - from >= least)
            {
                runs.Add((from, to));
            }

            from = to;
        }

        return runs;
    }

    /// <summary>Where something is: frames that are not plain, at least two of three.</summary>
    public List<Span> Something()
    {
        List<Span> spans = [];
        for (int k = 0; k < Count; k++)
        {
            if (!Plain[k] && (k > 0 && !Plain[k - 1] || k + 1 < Count && !Plain[k + 1]))
            {
                spans.Add(new Span(k * FrameS, (k + 1) * FrameS));
            }
        }

        return Span.Join(spans, 1e-6);
    }

    private void Measure(Stretch stretch)
    {
        PowerSpectrum spectrum = new(1_024, Frame);
        float[] power = new float[512];
        LineFloor floor = new(512, 24);
        double perBin = (double)Stretch.NarrowRate / 1_024;
        int lowest = (int)(90 / perBin);
        int highest = (int)(Math.Min(4_700, stretch.TopHz) / perBin);
        bool hasHigh = stretch.TopHz > 6_500;
        using Rented high = new(hasHigh ? stretch.Wide.Length : 0);
        if (hasHigh)
        {
            BandPass.Apply(stretch.Wide, BandPass.Design(4_500, Math.Min(stretch.TopHz, 12_000), Stretch.WideRate, 24), high.Span);
        }

        bool[]? hole = stretch.InHole(0, Stretch.NarrowRate, stretch.Narrow.Length, SpeechMarginS);
        bool[]? wideHole = stretch.InHole(0, Stretch.WideRate, stretch.Wide.Length, WideMarginS);
        Moments[] speech = Frames(stretch.Speech, hole, Frame);
        Moments[] all = Frames(stretch.Narrow, hole, Frame);
        Moments[] above = Frames(stretch.Wide, wideHole, WideFrame);
        for (int k = 0; k < Count; k++)
        {
            _lost[k] = hole is not null && hole.AsSpan(k * Frame, Frame).Count(true) > MostLost * Frame;
            if (_lost[k] && k > 0)
            {
                // Nothing is known of it: it is as loud as the one before.
                (SpeechDb[k], TotalDb[k], HighDb[k]) = (SpeechDb[k - 1], TotalDb[k - 1], HighDb[k - 1]);
                continue;
            }

            ReadOnlySpan<float> narrow = stretch.Narrow.AsSpan(k * Frame, Frame);
            int wideFrom = Math.Min(k * WideFrame, Math.Max(0, stretch.Wide.Length - WideFrame));
            ReadOnlySpan<float> wide = stretch.Wide.AsSpan(wideFrom, Math.Min(WideFrame, stretch.Wide.Length - wideFrom));
            SpeechDb[k] = Db(Kernels.Power(stretch.Speech.AsSpan(k * Frame, Frame)));
            TotalDb[k] = Db(Kernels.Power(wide));
            HighDb[k] = !hasHigh ? SpeechDb[k] : Db(Kernels.Power(high.Span.Slice(wideFrom, wide.Length)));
            _lines[k] = TotalDb[k] > SilenceDb && HasLine(spectrum, narrow, power, floor, lowest, highest);
            _kurtosis[k] = Around(speech, k).Kurtosis;
            _kurtosisNarrow[k] = Around(all, k).Kurtosis;
            _kurtosisWide[k] = Around(above, k).Kurtosis;
        }
    }

    private static bool HasLine(PowerSpectrum spectrum, ReadOnlySpan<float> x, float[] power, LineFloor floor, int lowest, int highest)
    {
        spectrum.OfReal(x, power);
        floor.Measure(power, lowest, highest);
        for (int bin = lowest; bin < highest; bin++)
        {
            float v = power[bin];
            if (v > PeakOverNoise * floor.At(bin) && v > 1e-12f && v >= power[bin - 1] && v >= power[bin + 1])
            {
                return true;
            }
        }

        return false;
    }

    private void Judge(double topHz)
    {
        for (int k = 0; k < Count; k++)
        {
            if (TotalDb[k] <= SilenceDb)
            {
                Plain[k] = true;
                continue;
            }

            bool flat = _kurtosis[k] < FlatKurtosis || _kurtosisNarrow[k] < FlatKurtosis - 0.2
                || topHz > 4_000 && _kurtosisWide[k] < FlatKurtosis - 0.2;
            bool peaked = _kurtosis[k] > PeakedKurtosis && SpeechDb[k] > SilenceDb;
            Plain[k] = !_lines[k] && !flat && !peaked;
        }

        FillLost();

        // One odd frame among plain ones is chance.
        for (int k = 1; k + 1 < Count; k++)
        {
            if (!Plain[k] && Plain[k - 1] && Plain[k + 1])
            {
                Plain[k] = true;
            }
        }
    }

    /// <summary>A frame in a hole is plain where those before and behind the hole are.</summary>
    private void FillLost()
    {
        for (int k = 0; k < Count; k++)
        {
            if (!_lost[k])
            {
                continue;
            }

            int behind = k;
            while (behind < Count && _lost[behind])
            {
                behind++;
            }

            bool plain = (k == 0 || Plain[k - 1]) && (behind == Count || Plain[behind]);
            Plain.AsSpan(k, behind - k).Fill(plain);
            k = behind;
        }
    }

    /// <summary>The moments of each frame, less what lies in a hole.</summary>
    private static Moments[] Frames(float[] x, bool[]? hole, int frame)
    {
        Moments[] moments = new Moments[(x.Length + frame - 1) / frame];
        float[] known = hole is null ? [] : new float[frame];
        for (int k = 0; k < moments.Length; k++)
        {
            int from = k * frame;
            int to = Math.Min(x.Length, from + frame);
            if (hole is null || !hole.AsSpan(from, to - from).Contains(true))
            {
                moments[k] = Moments.Of(x.AsSpan(from, to - from));
                continue;
            }

            int count = 0;
            for (int n = from; n < to; n++)
            {
                known[count] = x[n];
                count += hole[n] ? 0 : 1;
            }

            moments[k] = Moments.Of(known.AsSpan(0, count));
        }

        return moments;
    }

    /// <summary>Those of three frames round one.</summary>
    private static Moments Around(Moments[] frames, int k) =>
        (k > 0 && k <= frames.Length ? frames[k - 1] : default) + (k < frames.Length ? frames[k] : default)
            + (k + 1 < frames.Length ? frames[k + 1] : default);

    private static double Db(double power) => 10 * Math.Log10(power + 1e-15);
}
