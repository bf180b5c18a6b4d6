using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Tones;

/// <summary>
/// Finds dialling digits (ITU-T Q.23, from memory): one tone of each group of four, together most of what is in the speech band for 40 ms,
/// within 10 dB of each other, between pauses, as dialling has them: two harmonics of a vowel pass for a digit, but stand in the middle of
/// the vowel. Only how many digits there were leaves this class, not which.
/// </summary>
internal static class DtmfRecogniser
{
    private const int Block = 120;
    private const int Blocks = 3;
    private const double BlockS = (double)Block / Stretch.NarrowRate;

    /// <summary>Windows that noise may take out of the middle of a digit; a pause takes more.</summary>
    private const int MostLost = 3;

    /// <summary>Of one tone's power, what the other has at least: 10.5 dB less.</summary>
    private const double Least = 0.09;

    /// <summary>Of the digit's power, what a pause holds at most.</summary>
    private const double MostInPause = 0.5;
    private static readonly double[] _hz = [697, 770, 852, 941, 1_209, 1_336, 1_477, 1_633];
    private static readonly float[][] _cos = [.. _hz.Select(static hz => Wave(hz, Math.Cos))];
    private static readonly float[][] _sin = [.. _hz.Select(static hz => Wave(hz, Math.Sin))];

    /// <summary>Finds the digits of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        float[] x = stretch.Speech;
        List<(Span Span, bool Owned)> digits = [];
        foreach (Span span in stretch.ActiveWithin(0.2))
        {
            Scan(stretch, x, span, digits);
        }

        List<Finding> found = [];
        for (int i = 0; i < digits.Count;)
        {
            int j = i;
            while (j + 1 < digits.Count && digits[j + 1].Span.FromS - digits[j].Span.ToS < 1.5)
            {
                j++;
            }

            int count = j - i + 1;
            if (count >= 2 || digits[i].Span.LengthS > 0.09)
            {
                int owned = digits.GetRange(i, count).Count(static d => d.Owned);
                if (owned > 0)
                {
                    found.Add(new Finding
                    {
                        Kind = SignalKind.Dtmf,
                        StartS = stretch.StartS + digits[i].Span.FromS,
                        EndS = stretch.StartS + digits[j].Span.ToS,
                        Confidence = count >= 3 ? 0.99 : count == 2 ? 0.95 : 0.85,
                        UnitsChecked = owned,
                        UnitsGood = owned,
                    });
                }
            }

            i = j + 1;
        }

        return found;
    }

    private static void Scan(Stretch stretch, float[] x, Span span, List<(Span, bool)> digits)
    {
        int first = (int)(span.FromS / BlockS);
        int count = (int)(Math.Min(span.ToS, (double)x.Length / Stretch.NarrowRate) / BlockS) - first;
        if (count < Blocks)
        {
            return;
        }

        (double[,] re, double[,] im, double[] energy) = Measure(x, first, count);
        foreach ((_, int from, int held) in Held(re, im, energy))
        {
            // A window of 30 ms is full of the tone where at least its middle is.
            Span at = new((first + from + 0.6) * BlockS, (first + from + held + Blocks - 1.6) * BlockS);
            if (BetweenPauses(energy, from, from + held + Blocks - 1))
            {
                digits.Add((at, stretch.Owns(at.FromS)));
            }
        }
    }

    /// <summary>Where one digit stands for two windows or more: which, its first window, and how many.</summary>
    private static List<(int Digit, int From, int Held)> Held(double[,] re, double[,] im, double[] energy)
    {
        List<(int Digit, int From, int Held)> runs = [];
        int count = energy.Length;
        int current = -1;
        int from = 0;
        int held = 0;
        Span<double> power = stackalloc double[8];
        for (int k = 0; k + Blocks <= count + 1; k++)
        {
            int digit = k + Blocks <= count ? Digit(re, im, energy, k, power) : -1;
            if (digit >= 0 && digit == current)
            {
                held++;
                continue;
            }

            if (current >= 0 && held >= 2)
            {
                bool goesOn = runs.Count > 0 && runs[^1].Digit == current && from - runs[^1].From - runs[^1].Held <= MostLost;
                if (goesOn)
                {
                    (from, held) = (runs[^1].From, from + held - runs[^1].From);
                    runs.RemoveAt(runs.Count - 1);
                }

                runs.Add((current, from, held));
            }

            current = digit;
            from = k;
            held = 1;
        }

        return runs;
    }

    /// <summary>Whether it is quiet before and behind some blocks; the one next to them may hold an edge.</summary>
    private static bool BetweenPauses(double[] energy, int from, int to)
    {
        double most = MostInPause * energy.AsSpan(from + 1, to - from - 2).ToArray().Average();
        return Quiet(from - 3) && Quiet(to + 1);

        bool Quiet(int at) => at < 0 || at + 2 > energy.Length || (energy[at] + energy[at + 1]) / 2 < most;
    }

    /// <summary>Each tone's size and phase in each block, by one clock throughout, and all energy of the block.</summary>
    private static (double[,] Re, double[,] Im, double[] Energy) Measure(float[] x, int first, int count)
    {
        double[,] re = new double[_hz.Length, count];
        double[,] im = new double[_hz.Length, count];
        double[] energy = new double[count];
        for (int k = 0; k < count; k++)
        {
            int at = (first + k) * Block;
            ReadOnlySpan<float> block = x.AsSpan(at, Block);
            energy[k] = Kernels.Dot(block, block);
            for (int f = 0; f < _hz.Length; f++)
            {
                // From the block's own begin, turned to where it begins.
                (double s, double c) = Math.SinCos(2 * Math.PI * (_hz[f] * at / Stretch.NarrowRate % 1));
                double a = Kernels.Dot(block, _cos[f]);
                double b = Kernels.Dot(block, _sin[f]);
                re[f, k] = a * c - b * s;
                im[f, k] = a * s + b * c;
            }
        }

        return (re, im, energy);
    }

    private static float[] Wave(double hz, Func<double, double> of) =>
        [.. Enumerable.Range(0, Block).Select(n => (float)of(2 * Math.PI * hz * n / Stretch.NarrowRate))];

    private static int Digit(double[,] re, double[,] im, double[] energy, int k, Span<double> power)
    {
        double total = 1e-12;
        for (int b = 0; b < Blocks; b++)
        {
            total += energy[k + b];
        }

        for (int f = 0; f < 8; f++)
        {
            double a = 0;
            double c = 0;
            for (int b = 0; b < Blocks; b++)
            {
                a += re[f, k + b];
                c += im[f, k + b];
            }

            // The share of the energy that a tone of this frequency explains.
            power[f] = 2 * (a * a + c * c) / (Blocks * Block) / total;
        }

        int row = Largest(power[..4], out double rowNext);
        int column = Largest(power[4..], out double columnNext);
        double low = power[row];
        double high = power[4 + column];
        bool pair = low + high > 0.75 && low > Least * high && high > Least * low && low > 5 * rowNext && high > 5 * columnNext;
        return pair && total > 1e-7 ? row * 4 + column : -1;
    }

    private static int Largest(ReadOnlySpan<double> power, out double next)
    {
        int best = 0;
        next = 0;
        for (int f = 1; f < 4; f++)
        {
            if (power[f] > power[best])
            {
                next = power[best];
                best = f;
            }
            else
            {
                next = Math.Max(next, power[f]);
            }
        }

        return best;
    }
}
