using Spurless.Signals.Dsp;
using Spurless.Signals.Recordings;

namespace Spurless.Signals.Spectra;

/// <summary>A sweep made of a recorded band.</summary>
/// <param name="Sweep">The readings; their levels count from the recording's full scale: 0 is a carrier that just reaches it.</param>
/// <param name="ResolutionHz">Equivalent noise bandwidth of the bins in hertz.</param>
/// <param name="CentreHz">The frequency in the middle of the recording.</param>
/// <param name="RowS">How long a row is in seconds.</param>
/// <param name="ClippedShare">Share of the samples of which a component stands at full scale.</param>
public sealed record RecordedSweep(Sweep Sweep, double ResolutionHz, double CentreHz, double RowS, double ClippedShare);

/// <summary>
/// Makes sweeps of a wide complex recording: mean powers of bins, one row a piece of time, one sweep a centre frequency. Averaged
/// periodograms with a Hann window and half an overlap (Welch 1967, from memory); the window's noise bandwidth is 1.5 bins.
/// </summary>
public static class RecordingSweeps
{
    /// <summary>Noise bandwidth of a Hann window in bins (Harris 1978, from memory; it is the mean square over the squared mean).</summary>
    public const double NoiseBins = 1.5;

    /// <summary>The usual noise bandwidth of the bins at most, in hertz: the channels of a 12.5 kHz raster stand apart.</summary>
    public const double UsualResolutionHz = 1_500;

    private const int LeastSize = 64;
    private const int MostSize = 1 << 17;
    private const int MostRows = 400;
    private const double LeastRowS = 0.05;
    private const double MostReadings = 6_000_000;
    private const float FullScale = 0.992f;

    /// <summary>Makes them.</summary>
    /// <param name="recording">The recording, complex, each capture with its centre.</param>
    /// <param name="file">Its name as the user gave it.</param>
    /// <param name="resolutionHz">Noise bandwidth of the bins at most, in hertz; null for the usual one.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>One sweep a centre frequency, in order of frequency; empty where no capture is long enough for sixteen bins.</returns>
    public static IReadOnlyList<RecordedSweep> Of(
        Recording recording, string file, double? resolutionHz, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(recording);
        double rate = recording.Format.RateHz;
        long longest = recording.Captures.Max(static c => c.Frames);
        int size = Size(rate, resolutionHz ?? UsualResolutionHz, longest);
        double rowS = RowSeconds(recording, size, rate);
        int segments = Math.Max(1, (int)(2 * rowS * rate / size) - 1);
        SortedDictionary<double, Band> bands = [];
        recording.Rewind();
        while (recording.Next() is { } capture)
        {
            double centre = capture.CentreHz ?? 0;
            if (!bands.TryGetValue(centre, out Band? band))
            {
                bands.Add(centre, band = new Band(size, segments));
            }

            band.Take(recording, cancellationToken);
        }

        return
        [
            .. bands.Where(static b => b.Value.Rows.Count > 0).Select(b => new RecordedSweep(
                new Sweep(file, [.. Enumerable.Range(0, size).Select(k => b.Key + ((k - (size / 2)) * rate / size))], b.Value.Rows),
                NoiseBins * rate / size,
                b.Key,
                segments * (size / 2) / rate,
                b.Value.ClippedShare)),
        ];
    }

    /// <summary>A power of two of bins that are no wider than asked, and no longer than a capture.</summary>
    private static int Size(double rate, double resolutionHz, long frames)
    {
        int size = LeastSize;
        while (size < MostSize && NoiseBins * rate / size > resolutionHz)
        {
            size *= 2;
        }

        while (size > LeastSize && size > frames)
        {
            size /= 2;
        }

        return size;
    }

    /// <summary>Short enough for bursts, long enough that no more readings are kept than the search for lines takes well.</summary>
    private static double RowSeconds(Recording recording, int size, double rate)
    {
        double seconds = recording.Captures.Sum(static c => (double)c.Frames) / rate;
        double rows = Math.Min(MostRows, Math.Max(1, MostReadings / size));
        return Math.Max(Math.Max(LeastRowS, seconds / rows), size / rate);
    }

    /// <summary>The rows of one centre frequency while they are made.</summary>
    private sealed class Band(int size, int segments)
    {
        private readonly PowerSpectrum _spectrum = new(size, size);
        private readonly float[] _pairs = new float[2 * size];
        private readonly float[] _power = new float[size];
        private double[] _sum = new double[size];
        private int _count;
        private long _clipped;
        private long _samples;

        public List<double[]> Rows { get; } = [];

        public double ClippedShare => _samples == 0 ? 0 : (double)_clipped / _samples;

        public void Take(Recording recording, CancellationToken cancellationToken)
        {
            int half = size / 2;
            int filled = 0;
            while (true)
            {
                cancellationToken.ThrowIfCancellationRequested();
                int got = recording.Read(_pairs.AsSpan(2 * filled));
                Count(_pairs.AsSpan(2 * filled, 2 * got));
                if (filled + got < size)
                {
                    break;
                }

                _spectrum.OfComplex(_pairs, _power);
                for (int k = 0; k < size; k++)
                {
                    _sum[k] += _power[k];
                }

                if (++_count == segments)
                {
                    End();
                }

                _pairs.AsSpan(2 * half).CopyTo(_pairs);
                filled = half;
            }

            // What is left of a row counts as one where it is half a row at least, or all there is.
            if (_count > 0 && (2 * _count >= segments || Rows.Count == 0))
            {
                End();
            }

            (_sum, _count) = (new double[size], 0);
        }

        private void End()
        {
            double[] row = new double[size];
            for (int k = 0; k < size; k++)
            {
                // As an analyser reads: a carrier's bin shows the whole carrier, noise its density times the noise bandwidth.
                row[k] = 10 * Math.Log10(Math.Max(1e-30, NoiseBins * _sum[k] / _count));
            }

            Rows.Add(row);
            (_sum, _count) = (new double[size], 0);
        }

        private void Count(ReadOnlySpan<float> values)
        {
            for (int i = 0; i + 1 < values.Length; i += 2)
            {
                _clipped += Math.Abs(values[i]) >= FullScale || Math.Abs(values[i + 1]) >= FullScale ? 1 : 0;
            }

            _samples += values.Length / 2;
        }
    }
}
