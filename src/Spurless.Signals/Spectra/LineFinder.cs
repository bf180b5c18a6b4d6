namespace Spurless.Signals.Spectra;

/// <summary>How lines are found.</summary>
public sealed record LineOptions
{
    /// <summary>Equivalent noise bandwidth of the bins in hertz; null for their spacing.</summary>
    public double? ResolutionHz { get; init; }

    /// <summary>A line stands at least so far over the noise, in dB.</summary>
    public double OverNoiseDb { get; init; } = 6;

    /// <summary>One sigma of the instrument's levels in dB (an assumption: 1.5 dB is usual of a calibrated analyser).</summary>
    public double InstrumentSigmaDb { get; init; } = 1.5;
}

/// <summary>
/// Finds the lines of a spectrum: bins that no noise would reach, grown to both sides down to the noise, cut at deep valleys. Powers are
/// summed over the
/// bins and divided by their noise bandwidth. docs/method/spectra.md tells the steps.
/// </summary>
public sealed class LineFinder
{
    /// <summary>Lobes nearer than this are one transmission: those of two-level shift keying lie up to 9 kHz apart.</summary>
    private const double OneTransmissionHz = 10_500;

    private const double ValleyDb = 6;

    private readonly IReadOnlyList<double[]> _rows;
    private readonly IReadOnlyList<double> _frequencies;
    private readonly NoiseFloor _floor;
    private readonly LineOptions _options;
    private readonly double _spacing;
    private readonly double _resolution;
    private readonly double[] _mean;

    private LineFinder(Sweep sweep, LineOptions options)
    {
        _rows = [.. sweep.RowsDbm.Select(static r => r.Select(static l => Math.Pow(10, l / 10)).ToArray())];
        (_frequencies, _options, _spacing) = (sweep.FrequenciesHz, options, sweep.SpacingHz);
        _resolution = options.ResolutionHz ?? _spacing;
        _floor = NoiseFloor.Of(_rows);
        _mean = new double[_frequencies.Count];
        foreach (double[] row in _rows)
        {
            for (int b = 0; b < _mean.Length; b++)
            {
                _mean[b] += row[b] / _rows.Count;
            }
        }
    }

    /// <summary>The noise under the lines.</summary>
    public NoiseFloor Floor => _floor;

    /// <summary>Prepares a sweep.</summary>
    /// <param name="sweep">The sweep.</param>
    /// <param name="options">How to find lines.</param>
    public static LineFinder For(Sweep sweep, LineOptions options) => new(sweep, options);

    /// <summary>The lines, strongest first.</summary>
    public IReadOnlyList<SpectrumLine> Lines()
    {
        bool[] hot = Hot();
        List<(int First, int Last)> runs = [];
        for (int b = 0; b < hot.Length; b++)
        {
            if (!hot[b])
            {
                continue;
            }

            if (runs.Count > 0 && b - runs[^1].Last <= 3)
            {
                runs[^1] = (runs[^1].First, b);
            }
            else
            {
                runs.Add((b, b));
            }
        }

        List<(int First, int Last)> grown = [];
        for (int i = 0; i < runs.Count; i++)
        {
            int low = grown.Count > 0 ? grown[^1].Last + 1 : 0;
            int high = i + 1 < runs.Count ? runs[i + 1].First - 1 : hot.Length - 1;
            if (runs[i].First < low)
            {
                continue;
            }

            (int First, int Last) run = Grow(runs[i], low, high);
            if (grown.Count > 0 && run.First == grown[^1].Last + 1 && IsOne(grown[^1], run))
            {
                grown[^1] = (grown[^1].First, run.Last);
            }
            else
            {
                grown.Add(run);
            }
        }

        List<(int First, int Last)> cut = [.. grown.SelectMany(Cut)];
        Join(cut);
        return [.. cut.Select(Measure).OfType<SpectrumLine>().OrderByDescending(static l => l.LevelDbm).ThenBy(static l => l.FrequencyHz)];
    }

    /// <summary>Level of what this sweep has in another one's line, in dBm; null where it cannot be told from the noise.</summary>
    public double? LevelIn((int First, int Last) bins) => Measure(bins) is { } line && Reaches(bins) ? line.LevelDbm : null;

    /// <summary>The strongest that could hide in the noise of a line's bins, in dBm.</summary>
    public double HiddenDbm((int First, int Last) bins)
    {
        double sum = 0;
        for (int b = bins.First; b <= bins.Last; b++)
        {
            sum += _floor.Milliwatts[b];
        }

        return 10 * Math.Log10(sum * _spacing / _resolution * Math.Pow(10, _options.OverNoiseDb / 10));
    }

    private double Threshold(DetectorLaw law, double readings) =>
        Math.Max(Math.Pow(10, _options.OverNoiseDb / 10), law.OverOnceIn(100 * readings));

    private bool Reaches((int First, int Last) bins)
    {
        bool[] hot = Hot();
        return hot.AsSpan(bins.First, bins.Last - bins.First + 1).Contains(true);
    }

    /// <summary>Bins that noise would reach in one sweep of a hundred at most: in the mean of the rows, or in any row.</summary>
    private bool[] Hot()
    {
        double overMean = Threshold(_floor.Law.Mean(_rows.Count), _mean.Length);
        double overRow = Threshold(_floor.Law, (double)_mean.Length * _rows.Count);
        bool[] hot = new bool[_mean.Length];
        for (int b = 0; b < hot.Length; b++)
        {
            hot[b] = _mean[b] >= overMean * _floor.Milliwatts[b];
            for (int r = 0; r < _rows.Count && !hot[b] && _rows.Count > 1; r++)
            {
                hot[b] = _rows[r][b] >= overRow * _floor.Milliwatts[b];
            }
        }

        return hot;
    }

    /// <summary>Rows in which a line is on, and their mean; all where there is one.</summary>
    private (bool[] On, double[] Profile) While((int First, int Last) bins)
    {
        int width = bins.Last - bins.First + 1;
        double[] power = new double[_rows.Count];
        bool[] on = new bool[_rows.Count];
        double least = Threshold(_floor.Law, width * 10.0);
        for (int r = 0; r < _rows.Count; r++)
        {
            for (int b = bins.First; b <= bins.Last; b++)
            {
                power[r] += _rows[r][b] - _floor.Milliwatts[b];
                on[r] |= _rows[r][b] >= least * _floor.Milliwatts[b];
            }
        }

        if (on.Contains(true))
        {
            // What is a quarter of the usual power is on too, though no bin of it sticks out; less is the skirt of a neighbour.
            double usual = power.Where((_, r) => on[r]).Average();
            double noise = 0;
            for (int b = bins.First; b <= bins.Last; b++)
            {
                noise += _floor.Milliwatts[b] * _floor.Milliwatts[b] / _floor.Law.Averages;
            }

            for (int r = 0; r < on.Length; r++)
            {
                on[r] = power[r] >= usual / 4 && power[r] >= 3 * Math.Sqrt(noise);
            }
        }

        if (_rows.Count == 1 || !on.Contains(true))
        {
            Array.Fill(on, true);
        }

        double[] profile = new double[_mean.Length];
        int count = on.Count(static o => o);
        for (int r = 0; r < on.Length; r++)
        {
            for (int b = 0; b < profile.Length && on[r]; b++)
            {
                profile[b] += _rows[r][b] / count;
            }
        }

        return (on, profile);
    }

    private (int First, int Last) Grow((int First, int Last) run, int low, int high)
    {
        (bool[] on, double[] profile) = While(run);
        DetectorLaw law = _floor.Law.Mean(on.Count(static o => o));
        double down = Math.Max(1.26, law.OverOnceIn(20));
        (int first, int last) = run;

        // Two bins in the noise end a line: one may be a fade.
        for (int b = first - 1; b >= low && b >= first - 2; b--)
        {
            first = profile[b] > down * _floor.Milliwatts[b] ? b : first;
        }

        for (int b = last + 1; b <= high && b <= last + 2; b++)
        {
            last = profile[b] > down * _floor.Milliwatts[b] ? b : last;
        }

        return (first, last);
    }

    /// <summary>Whether two runs that touch are one line: no valley between them.</summary>
    private bool IsOne((int First, int Last) a, (int First, int Last) b) => Cut((a.First, b.Last)).Count() == 1;

    /// <summary>Cuts a run at valleys that lie deep under the lower of the peaks beside them.</summary>
    private IEnumerable<(int First, int Last)> Cut((int First, int Last) run)
    {
        (bool[] on, double[] profile) = While(run);

        // So many bins together that the law leaves no valleys of its own.
        double averages = _floor.Law.Averages * on.Count(static o => o);
        int half = (int)Math.Min(20, Math.Ceiling(8 / Math.Max(averages, 0.4)) / 2);
        double[] smooth = new double[run.Last - run.First + 1];
        for (int i = 0; i < smooth.Length; i++)
        {
            int from = Math.Max(run.First, run.First + i - half);
            int to = Math.Min(run.Last, run.First + i + half);
            smooth[i] = profile.AsSpan(from, to - from + 1).ToArray().Average();
        }

        int start = 0;
        while (start < smooth.Length)
        {
            int valley = Valley(smooth, start);
            if (valley < 0)
            {
                yield return (run.First + start, run.Last);
                yield break;
            }

            yield return (run.First + start, run.First + valley - 1);
            start = valley;
        }
    }

    private int Valley(double[] smooth, int start)
    {
        double depth = Math.Pow(10, ValleyDb / 10);
        int peak = start;
        int low = start;
        for (int i = start; i < smooth.Length; i++)
        {
            if (smooth[i] > smooth[peak] && smooth[i] < depth * smooth[low])
            {
                (peak, low) = (i, i);
            }
            else if (smooth[i] < smooth[low])
            {
                low = i;
            }
            else if (smooth[i] >= depth * smooth[low] && smooth[peak] >= depth * smooth[low])
            {
                int top = i;
                while (top + 1 < smooth.Length && smooth[top + 1] >= smooth[top])
                {
                    top++;
                }

                if ((top - peak) * _spacing > OneTransmissionHz)
                {
                    return low;
                }

                (peak, low) = smooth[top] > smooth[peak] ? (top, top) : (peak, top);
                i = top;
            }
            else if (smooth[i] > smooth[peak])
            {
                (peak, low) = (i, i);
            }
        }

        return -1;
    }

    /// <summary>The two lobes of shift keying, with noise between them where they are weak, are one transmission: alike, and on
    /// together.</summary>
    private void Join(List<(int First, int Last)> runs)
    {
        for (int i = 0; i + 1 < runs.Count; i++)
        {
            if (Measure(runs[i]) is not { } a || Measure(runs[i + 1]) is not { } b)
            {
                continue;
            }

            double apart = b.FrequencyHz - a.FrequencyHz;
            if (apart is > 7_000 and <= OneTransmissionHz && Math.Abs(a.LevelDbm - b.LevelDbm) < 3 && a.BandwidthHz < 6_000
                && b.BandwidthHz < 6_000
                && a.BandwidthHz + b.BandwidthHz > 0 && While(runs[i]).On.AsSpan().SequenceEqual(While(runs[i + 1]).On))
            {
                runs[i] = (runs[i].First, runs[i + 1].Last);
                runs.RemoveAt(i + 1);
            }
        }
    }

    private SpectrumLine? Measure((int First, int Last) bins)
    {
        (bool[] on, double[] profile) = While(bins);
        int rows = on.Count(static o => o);
        int width = bins.Last - bins.First + 1;
        double[] excess = new double[width];
        double sum = 0;
        double centre = 0;
        double variance = 0;
        double averages = _floor.Law.Averages * rows;
        for (int i = 0; i < width; i++)
        {
            int b = bins.First + i;
            excess[i] = profile[b] - _floor.Milliwatts[b];
            sum += excess[i];
            centre += excess[i] * _frequencies[b];
            variance += profile[b] * profile[b] / averages;
        }

        if (!(sum > 0))
        {
            return null;
        }

        double relative = Math.Sqrt(variance) / sum;
        double statistical = 10 / Math.Log(10) * relative;
        double bandwidth = Bandwidth(excess);
        double frequencySigma = Math.Sqrt((_spacing * _spacing / 12) + (bandwidth * bandwidth / 12 * Math.Min(1, relative * relative)));
        double share = (double)rows / _rows.Count;
        double frequency = Math.Clamp(centre / sum, _frequencies[bins.First] - _spacing, _frequencies[bins.Last] + _spacing);
        return new SpectrumLine
        {
            FrequencyHz = frequency,
            FrequencySigmaHz = frequencySigma,
            BandwidthHz = bandwidth,
            BandwidthSigmaHz = Math.Sqrt((_resolution * _resolution / 4) + (bandwidth * bandwidth * Math.Min(1, relative * relative))),
            LevelDbm = 10 * Math.Log10(sum * _spacing / _resolution),
            SigmaDb = Math.Sqrt((_options.InstrumentSigmaDb * _options.InstrumentSigmaDb) + (statistical * statistical)),
            OnShare = share,
            OnShareSigma = _rows.Count == 1 ? 0 : Math.Sqrt(Math.Max(share * (1 - share), 0.25 / _rows.Count) / _rows.Count),
            Bins = bins,
            Raster = RasterFit.Of(frequency, frequencySigma, bandwidth),
        };
    }

    /// <summary>The width between the points that leave half a percent of the power on either side, within bins even; the bin's own width
    /// taken off in squares.</summary>
    private double Bandwidth(double[] excess)
    {
        double sum = excess.Sum(static e => Math.Max(0, e));
        double Edge(double share)
        {
            double before = 0;
            for (int i = 0; i < excess.Length; i++)
            {
                double part = Math.Max(0, excess[i]);
                if (before + part >= share * sum)
                {
                    return i + (part > 0 ? ((share * sum) - before) / part : 0);
                }

                before += part;
            }

            return excess.Length;
        }

        double measured = (Edge(0.995) - Edge(0.005)) * _spacing;

        // A bin as wide as the spacing holds a carrier whole, or two share it; a wider filter is taken as Gaussian, whose 99 % are 2.05
        // of its noise bandwidth.
        double filter = _spacing >= 0.9 * _resolution ? 0.99 * _spacing : 2.05 * _resolution;
        double least = Math.Max(1.98 * _spacing, filter);
        return measured <= least ? 0 : Math.Sqrt((measured * measured) - (filter * filter));
    }
}
