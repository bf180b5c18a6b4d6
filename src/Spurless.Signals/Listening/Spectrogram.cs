using Spurless.Signals.Dsp;

namespace Spurless.Signals.Listening;

/// <summary>
/// A picture of a recording: mean power by time and frequency, in bytes of half a dB from -127.5 dB of full scale a cell up.
/// </summary>
/// <param name="Columns">Steps of time over the whole recording.</param>
/// <param name="Rows">Steps of frequency from the lower to the upper edge.</param>
/// <param name="Cells">Row by row within a column, column by column.</param>
public sealed record Spectrogram(int Columns, int Rows, byte[] Cells)
{
    /// <summary>A cell's power, in dB of full scale.</summary>
    public double Db(int column, int row) => Cells[column * Rows + row] / 2.0 - 127.5;

    /// <summary>The mean power of each step of frequency over a part of the recording, in dB of full scale.</summary>
    /// <param name="from">Where the part begins, as a share of the recording.</param>
    /// <param name="to">Where it ends.</param>
    public double[] Mean(double from, double to)
    {
        int first = Math.Clamp((int)(from * Columns), 0, Columns - 1);
        int last = Math.Clamp((int)Math.Ceiling(to * Columns), first + 1, Columns);
        double[] mean = new double[Rows];
        for (int row = 0; row < Rows; row++)
        {
            double sum = 0;
            for (int column = first; column < last; column++)
            {
                sum += Math.Pow(10, Db(column, row) / 10);
            }

            mean[row] = 10 * Math.Log10(sum / (last - first));
        }

        return mean;
    }
}

/// <summary>Draws a <see cref="Spectrogram"/> while a recording goes by, in memory that does not grow with its length.</summary>
internal sealed class SpectrogramBuilder(
    int columns, int rows, double durationS, IReadOnlyList<(double FromS, double ToS)> recorded)
{
    private readonly double[] _sums = new double[columns * rows];
    private readonly int[] _counts = new int[columns];

    /// <summary>Adds a spectrum at a moment.</summary>
    /// <param name="atS">When, in seconds from the recording's start.</param>
    /// <param name="power">Powers from the lower to the upper edge.</param>
    public void Add(double atS, ReadOnlySpan<float> power)
    {
        int column = Math.Clamp((int)(atS / durationS * columns), 0, columns - 1);
        _counts[column]++;
        for (int row = 0; row < rows; row++)
        {
            int from = (int)((long)power.Length * row / rows);
            int to = Math.Max(from + 1, (int)((long)power.Length * (row + 1) / rows));
            double sum = 0;
            for (int b = from; b < to; b++)
            {
                sum += power[b];
            }

            _sums[column * rows + row] += sum;
        }
    }

    /// <summary>The picture; a column without a spectrum repeats the one before, in a gap of the recording it stays empty.</summary>
    public Spectrogram Build()
    {
        byte[] cells = new byte[columns * rows];
        for (int c = 0; c < columns; c++)
        {
            if (_counts[c] == 0 && !recorded.Any(r => r.FromS < (c + 1) * durationS / columns && r.ToS > c * durationS / columns))
            {
                continue;
            }

            for (int r = 0; r < rows; r++)
            {
                cells[c * rows + r] = _counts[c] == 0
                    ? c == 0 ? (byte)0 : cells[(c - 1) * rows + r]
                    : (byte)Math.Clamp(2 * (10 * Math.Log10(_sums[c * rows + r] / _counts[c] + 1e-20) + 127.5), 0, 255);
            }
        }

        return new Spectrogram(columns, rows, cells);
    }

    /// <summary>Adds the spectra of a stretch of audio at 12 kHz, from 0 to 4.8 kHz.</summary>
    public void AddAudio(ReadOnlySpan<float> x, double startS, double fromS, double toS, PowerSpectrum spectrum, float[] power)
    {
        double stepS = Math.Max(spectrum.Length / 12_000.0, durationS / columns / 2);
        for (double t = Math.Max(startS, fromS); t < toS; t += stepS)
        {
            int at = (int)((t - startS) * 12_000);
            if (at + spectrum.Length > x.Length)
            {
                break;
            }

            spectrum.OfReal(x.Slice(at, spectrum.Length), power);
            Add(t + spectrum.Length / 24_000.0, power.AsSpan(0, (int)(power.Length * 4_800L / 6_000)));
        }
    }
}
