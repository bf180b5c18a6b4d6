using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;

namespace Spurless.Signals.Listening;

/// <summary>
/// Goes through a band in steps of 20 ms: spectra of about 0.6 kHz a bin, their mean over a step, a noise floor that follows frequency and
/// time, and lines over it by 5 dB that hang together in frequency and in time. What lies 40 dB and more under something within 20 kHz is
/// that one's skirt: it joins no neighbours. Memory grows only with what was on the air.
/// </summary>
internal sealed class BandScan
{
    private const double BinHz = 800;
    private const double SlotS = 0.02;
    private const double OverFloor = 3.2;
    private const double JoinHz = 4_500;
    private const double SkirtHz = 20_000;
    private const double SkirtShare = 1e-4;
    private const double FloorReachHz = 150_000;
    private const double FloorQuantile = 0.35;

    private readonly double _rate;
    private readonly int _size;
    private readonly int _perSlot;
    private readonly double _binHz;
    private readonly double[] _floor;
    private readonly double[] _smooth;
    private readonly double[] _strongest;
    private readonly double[] _fromLeft;
    private readonly double[] _fromRight;
    private readonly float[] _sorted;
    private readonly int _floorReach;
    private readonly List<Open> _open = [];
    private readonly List<Activity> _done = [];
    private bool _floorKnown;
    private double _timeS;

    private BandScan(double rate)
    {
        _rate = rate;
        _size = 64;
        while (_size < 8_192 && rate / _size > 1.4 * BinHz)
        {
            _size *= 2;
        }

        _binHz = rate / _size;
        _perSlot = Math.Max(1, (int)Math.Round(SlotS * rate / _size));
        _floor = new double[_size];
        (_smooth, _strongest, _fromLeft, _fromRight) = (new double[_size], new double[_size], new double[_size], new double[_size]);
        _floorReach = Math.Clamp((int)(FloorReachHz / _binHz), 12, _size / 2);
        _sorted = new float[2 * _floorReach + 1];
    }

    /// <summary>Goes through a capture.</summary>
    /// <param name="recording">Standing at the capture's begin.</param>
    /// <param name="capture">The capture.</param>
    /// <param name="picture">Gets the spectra.</param>
    /// <param name="report">Told now and then: seconds done.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static List<Activity> Run(Recording recording, Capture capture, SpectrogramBuilder picture, Action<double> report,
        CancellationToken cancellationToken)
    {
        BandScan scan = new(recording.Format.RateHz);
        PowerSpectrum spectrum = new(scan._size, scan._size);
        float[] pairs = new float[2 * scan._size * scan._perSlot];
        float[] power = new float[scan._size];
        float[] mean = new float[scan._size];
        int slots = 0;
        while (true)
        {
            int got = recording.Read(pairs);
            int spectra = got / scan._size;
            if (spectra == 0)
            {
                break;
            }

            mean.AsSpan().Clear();
            for (int k = 0; k < spectra; k++)
            {
                spectrum.OfComplex(pairs.AsSpan(2 * k * scan._size, 2 * scan._size), power);
                for (int b = 0; b < mean.Length; b++)
                {
                    mean[b] += power[b];
                }
            }

            for (int b = 0; b < mean.Length; b++)
            {
                mean[b] /= spectra;
            }

            picture.Add(capture.StartS + scan._timeS, mean);
            scan.Step(mean, spectra * scan._size / scan._rate);
            if (++slots % 50 == 0)
            {
                cancellationToken.ThrowIfCancellationRequested();
                report(scan._timeS);
            }

            if (got < scan._size * scan._perSlot)
            {
                break;
            }
        }

        return scan.Finish();
    }

    private void Step(float[] power, double lengthS)
    {
        Floor(power);
        int join = Math.Max(1, (int)Math.Round(JoinHz / _binHz));
        double[] smooth = _smooth;
        for (int b = 0; b < power.Length; b++)
        {
            // The mean of three bins scatters less.
            int a = Math.Max(0, b - 1);
            int c = Math.Min(power.Length - 1, b + 1);
            smooth[b] = (power[a] + power[b] + power[c]) / 3;
        }

        double[] strongest = _strongest;
        StrongestNear(smooth, Math.Max(1, (int)Math.Round(SkirtHz / _binHz)), _fromLeft, _fromRight, strongest);

        int from = -1;
        int last = -1;
        for (int b = 0; b <= power.Length; b++)
        {
            bool on = b < power.Length && smooth[b] > OverFloor * _floor[b] && smooth[b] > SkirtShare * strongest[b];
            if (from >= 0 && (b == power.Length || on && b - last > join))
            {
                Seen(power, from, last, lengthS);
                from = -1;
            }

            if (on)
            {
                from = from < 0 ? b : from;
                last = b;
            }
        }

        _timeS += lengthS;
        for (int i = _open.Count - 1; i >= 0; i--)
        {
            if (_timeS - _open[i].LastS > Grouping.PauseS)
            {
                Close(_open[i]);
                _open.RemoveAt(i);
            }
        }
    }

    /// <summary>The largest value within a reach of each, in time that does not grow with the reach.</summary>
    /// <param name="values">The values.</param>
    /// <param name="reach">How many places to either side.</param>
    /// <param name="fromLeft">Room to work in, as long as the values.</param>
    /// <param name="fromRight">Room to work in, as long as the values.</param>
    /// <param name="largest">Gets the result.</param>
    internal static void StrongestNear(double[] values, int reach, double[] fromLeft, double[] fromRight, double[] largest)
    {
        // Largest so far from the left and from the right of blocks as long as the window (van Herk's way, from memory).
        int window = (2 * reach) + 1;
        int count = values.Length;
        for (int i = 0; i < count; i++)
        {
            int j = count - 1 - i;
            fromLeft[i] = i % window == 0 ? values[i] : Math.Max(fromLeft[i - 1], values[i]);
            fromRight[j] = j == count - 1 || (j + 1) % window == 0 ? values[j] : Math.Max(fromRight[j + 1], values[j]);
        }

        for (int i = 0; i < count; i++)
        {
            int low = Math.Max(0, i - reach);
            int high = Math.Min(count - 1, i + reach);

            // In one block the window begins it, or ends with the last value.
            largest[i] = low / window != high / window ? Math.Max(fromRight[low], fromLeft[high])
                : low % window == 0 ? fromLeft[high] : fromRight[low];
        }
    }

    private void Seen(float[] power, int from, int last, double lengthS)
    {
        double low = (from - _size / 2.0 - 0.5) * _binHz;
        double high = (last - _size / 2.0 + 0.5) * _binHz;
        double sum = 0;
        double noise = 0;
        for (int b = from; b <= last; b++)
        {
            sum += power[b];
            noise += _floor[b];
        }

        Open? best = null;
        double bestCommon = 0;
        foreach (Open open in _open)
        {
            double common = Math.Min(high, open.HighHz + 1_500) - Math.Max(low, open.LowHz - 1_500);
            if (common > bestCommon)
            {
                bestCommon = common;
                best = open;
            }
        }

        if (best is null)
        {
            best = new Open { FirstS = _timeS, LowHz = low, HighHz = high };
            _open.Add(best);
        }

        best.Add(_timeS + lengthS, low, high, sum - noise, noise / ((last - from + 1) * _binHz));
    }

    private void Close(Open open)
    {
        if (open.Slots < 2)
        {
            return;
        }

        _done.Add(open.ToActivity());
    }

    /// <summary>
    /// A low quantile of the bins round each bin, corrected to the mean of a spectrum averaged so often; follows time slowly.
    /// </summary>
    private void Floor(float[] power)
    {
        int reach = _floorReach;
        int step = Math.Max(1, reach / 8);
        float[] sorted = _sorted;
        double correction = Correction(_perSlot);
        double last = 0;
        for (int k = 0; k < _size; k += step)
        {
            int from = Math.Clamp(k - reach, 0, Math.Max(0, _size - sorted.Length));
            int to = Math.Min(_size, from + sorted.Length);
            power.AsSpan(from, to - from).CopyTo(sorted);
            Span<float> part = sorted.AsSpan(0, to - from);
            double now = Kernels.Nth(part, (int)(part.Length * FloorQuantile)) * correction + 1e-16;
            double old = _floor[k];

            // Down at once, up slowly: a wide signal must not lift the floor under itself.
            double next = !_floorKnown ? now : old + (now < old ? 0.3 : 0.02) * (now - old);
            _floor[k] = next;
            for (int j = Math.Max(0, k - step + 1); j < k; j++)
            {
                _floor[j] = last + (next - last) * (j - k + step) / step;
            }

            last = next;
            for (int j = k + 1; j < Math.Min(_size, k + step); j++)
            {
                _floor[j] = next;
            }
        }

        _floorKnown = true;
    }

    /// <summary>Mean over the 35 % quantile of a mean of n exponential powers (gamma law), by the Wilson-Hilferty approximation.</summary>
    private static double Correction(int n)
    {
        const double Z = -0.3853;
        double c = 1 - 1.0 / (9 * n) + Z / (3 * Math.Sqrt(n));
        return 1 / Math.Max(0.1, c * c * c);
    }

    private List<Activity> Finish()
    {
        foreach (Open open in _open)
        {
            Close(open);
        }

        return Join(_done);
    }

    /// <summary>Two humps of one keyed carrier come and go together: they are joined.</summary>
    private static List<Activity> Join(List<Activity> all)
    {
        List<Activity> list = [.. all.OrderBy(static a => a.LowHz)];
        for (int i = 0; i < list.Count; i++)
        {
            for (int j = i + 1; j < list.Count; j++)
            {
                Activity a = list[i];
                Activity b = list[j];
                double gap = Math.Max(b.LowHz - a.HighHz, a.LowHz - b.HighHz);
                double common = a.Span.Overlap(b.Span);
                bool together = Math.Abs(a.Span.FromS - b.Span.FromS) < 0.07 && Math.Abs(a.Span.ToS - b.Span.ToS) < 0.07;
                double longer = Math.Max(a.Span.LengthS, b.Span.LengthS);
                bool inside = gap < 0 && common > 0;
                bool touching = gap < 2_500 && common > 0.5 * Math.Min(a.Span.LengthS, b.Span.LengthS)
                    && Math.Min(a.WidthHz, b.WidthHz) < 2_500;
                if (inside || touching || together && gap < 9_000 && common > 0.9 * longer
                    && Math.Abs(10 * Math.Log10(a.Power / b.Power)) < 6)
                {
                    Activity big = a.Power >= b.Power ? a : b;
                    double share = common / longer;
                    bool widen = share > 0.3;
                    list[i] = new Activity
                    {
                        LowHz = widen ? Math.Min(a.LowHz, b.LowHz) : big.LowHz,
                        HighHz = widen ? Math.Max(a.HighHz, b.HighHz) : big.HighHz,
                        Span = new Span(Math.Min(a.Span.FromS, b.Span.FromS), Math.Max(a.Span.ToS, b.Span.ToS)),
                        Power = Math.Max(a.Power, b.Power),
                        NoisePerHz = Math.Min(a.NoisePerHz, b.NoisePerHz),
                    };
                    list.RemoveAt(j);
                    j = i;
                }
            }
        }

        return [.. list.OrderBy(static a => a.Span.FromS).ThenBy(static a => a.LowHz)];
    }

    private sealed class Open
    {
        private readonly List<double> _lows = [];
        private readonly List<double> _highs = [];
        private double _power;
        private double _noise;

        public required double FirstS { get; init; }

        public required double LowHz { get; set; }

        public required double HighHz { get; set; }

        public double LastS { get; private set; }

        public int Slots { get; private set; }

        public void Add(double toS, double low, double high, double power, double noisePerHz)
        {
            if (toS > LastS)
            {
                Slots++;
            }

            LastS = toS;
            _power += power;
            _noise += noisePerHz;

            // The usual edges: enough of them to tell, not a list that grows with the hours.
            if (_lows.Count < 4_000)
            {
                _lows.Add(low);
                _highs.Add(high);
            }

            LowHz = Math.Min(LowHz, low);
            HighHz = Math.Max(HighHz, high);
            if (Slots % 64 == 0)
            {
                LowHz = Quantile(_lows, 0.1);
                HighHz = Quantile(_highs, 0.9);
            }
        }

        public Activity ToActivity() => new()
        {
            LowHz = Quantile(_lows, 0.1),
            HighHz = Quantile(_highs, 0.9),
            Span = new Span(FirstS, LastS),
            Power = Math.Max(1e-20, _power / Slots),
            NoisePerHz = _noise / _lows.Count,
        };

        private static double Quantile(List<double> values, double share) => values.Order().ElementAt((int)((values.Count - 1) * share));
    }
}
