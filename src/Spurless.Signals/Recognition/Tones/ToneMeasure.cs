namespace Spurless.Signals.Recognition.Tones;

/// <summary>A tone taken down to zero frequency: its size and exact frequency over time.</summary>
internal sealed class ToneMeasure
{
    /// <summary>What a change of rate spreads a hole's edges by.</summary>
    private const double FilterS = 0.008;

    private readonly double _stepS;
    private readonly double _fromS;
    private readonly Span _whole;
    private readonly bool[]? _hole;
    private readonly float[] _re;
    private readonly float[] _im;

    /// <summary>Takes a tone down.</summary>
    /// <param name="x">The signal.</param>
    /// <param name="rateHz">Its rate.</param>
    /// <param name="hz">About the tone's frequency.</param>
    /// <param name="span">Where, in seconds.</param>
    /// <param name="averageS">Over how long is averaged.</param>
    /// <param name="holes">The stretch whose holes count for nothing; null to take all as it stands.</param>
    public ToneMeasure(ReadOnlySpan<float> x, double rateHz, double hz, Span span, double averageS, Stretch? holes = null)
    {
        int from = Math.Max(0, (int)(span.FromS * rateHz));
        int to = Math.Min(x.Length, (int)(span.ToS * rateHz));
        int length = Math.Max(1, (int)Math.Round(averageS * rateHz));
        int step = Math.Max(1, length / 4);
        int count = Math.Max(0, (to - from - length) / step + 1);
        _re = new float[count];
        _im = new float[count];
        _stepS = step / rateHz;
        _fromS = from / rateHz + length / rateHz / 2;
        _whole = new Span(from / rateHz, to / rateHz);
        _hole = holes?.InHole(_fromS, 1 / _stepS, count, averageS / 2 + FilterS);
        int blocks = Math.Max(0, (to - from) / step);
        double[] re = new double[blocks];
        double[] im = new double[blocks];
        double w = 2 * Math.PI * hz / rateHz;
        (double sStep, double cStep) = Math.SinCos(w);
        int n = from;
        for (int b = 0; b < blocks; b++)
        {
            (double s, double c) = Math.SinCos(w * (n - from) % (2 * Math.PI));
            double sumRe = 0;
            double sumIm = 0;
            for (int k = 0; k < step; k++, n++)
            {
                sumRe += x[n] * c;
                sumIm -= x[n] * s;
                (c, s) = (c * cStep - s * sStep, s * cStep + c * sStep);
            }

            re[b] = sumRe;
            im[b] = sumIm;
        }

        int per = length / step;
        for (int k = 0; k < count; k++)
        {
            double a = 0;
            double b = 0;
            for (int j = k; j < Math.Min(blocks, k + per); j++)
            {
                a += re[j];
                b += im[j];
            }

            _re[k] = (float)(2 * a / (per * step));
            _im[k] = (float)(2 * b / (per * step));
        }

        CentreHz = hz;
    }

    /// <summary>The frequency that was taken to zero.</summary>
    public double CentreHz { get; }

    /// <summary>Points.</summary>
    public int Count => _re.Length;

    /// <summary>When a point is, in the middle of its average.</summary>
    public double TimeS(int k) => _fromS + k * _stepS;

    /// <summary>The tone's amplitude at a point.</summary>
    public double Size(int k) => Math.Sqrt((double)_re[k] * _re[k] + (double)_im[k] * _im[k]);

    /// <summary>
    /// Where the tone is at least half of its usual size (the upper quartile): first and last crossing, to about a tenth of the average's
    /// length.
    /// </summary>
    public Span Edges()
    {
        double[] sizes = [.. Enumerable.Range(0, Count).Select(Size)];
        if (sizes.Length == 0)
        {
            return new(_fromS, _fromS);
        }

        double[] sorted = [.. sizes.Order()];
        double half = sorted[sorted.Length * 3 / 4] / 2;
        int first = Array.FindIndex(sizes, v => v >= half);
        int last = Array.FindLastIndex(sizes, v => v >= half);
        double from = first <= 0 ? _whole.FromS : TimeS(first)
            - _stepS * (sizes[first] - half) / Math.Max(1e-12, sizes[first] - sizes[first - 1]);
        double to = last < 0 || last == Count - 1 ? _whole.ToS
            : TimeS(last) + _stepS * (sizes[last] - half) / Math.Max(1e-12, sizes[last] - sizes[last + 1]);
        return new(from, to);
    }

    /// <summary>
    /// The frequency by the slope of the phase, least squares with the size as weight, and how much of the tone is in step with it (0 to
    /// 1).
    /// </summary>
    public (double Hz, double Coherence) Frequency(Span span)
    {
        double phase = 0;
        double last = double.NaN;
        double sw = 0, st = 0, sp = 0, stt = 0, stp = 0;
        List<(double T, double P, double W)> points = [];
        for (int k = 0; k < Count; k++)
        {
            double t = TimeS(k);
            if (!IsKnown(k) || t < span.FromS || t > span.ToS)
            {
                continue;
            }

            double now = Math.Atan2(_im[k], _re[k]);
            if (!double.IsNaN(last))
            {
                double step = now - last;
                step -= 2 * Math.PI * Math.Round(step / (2 * Math.PI));
                phase += step;
            }
            else
            {
                phase = now;
            }

            last = now;
            double w = Size(k);
            points.Add((t, phase, w));
            sw += w;
            st += w * t;
            sp += w * phase;
        }

        if (points.Count < 4 || sw <= 0)
        {
            return (CentreHz, 0);
        }

        double mt = st / sw;
        double mp = sp / sw;
        foreach ((double t, double p, double w) in points)
        {
            stt += w * (t - mt) * (t - mt);
            stp += w * (t - mt) * (p - mp);
        }

        double slope = stp / stt;
        double re = 0;
        double im = 0;
        foreach ((double t, double p, double w) in points)
        {
            (double s, double c) = Math.SinCos(p - mp - slope * (t - mt));
            re += w * c;
            im += w * s;
        }

        return (CentreHz + slope / (2 * Math.PI), Math.Sqrt(re * re + im * im) / sw);
    }

    private bool IsKnown(int k) => _hole?[k] != true;

    private IEnumerable<double> Known(Span span) =>
        Enumerable.Range(0, Count).Where(k => IsKnown(k) && TimeS(k) >= span.FromS && TimeS(k) <= span.ToS).Select(Size);

    /// <summary>How much the size scatters within a span, as a share of its mean.</summary>
    public double Scatter(Span span)
    {
        double[] sizes = [.. Known(span)];
        if (sizes.Length < 2)
        {
            return 0;
        }

        double mean = sizes.Average();
        return Math.Sqrt(sizes.Average(v => (v - mean) * (v - mean))) / Math.Max(1e-12, mean);
    }

    /// <summary>The mean size within a span.</summary>
    public double MeanSize(Span span)
    {
        double[] sizes = [.. Known(span)];
        return sizes.Length == 0 ? 0 : sizes.Average();
    }
}
