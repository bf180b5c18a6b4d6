using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Squelch;

/// <summary>
/// Finds digital squelch under whatever else is there. Claimed where 46 bits in a row fit one code with at most three wrong: random bits do
/// that in 10 hours with under 1 %.
/// </summary>
internal static class DcsRecogniser
{
    private const double RateBd = 134.4;
    private const int PerBit = 8;
    private const int Wanted = 46;

    /// <summary>Of the two integrations, in samples.</summary>
    private const double Delay = 4.5;

    /// <summary>Finds the codes of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        double rate = RateBd * PerBit;
        float[] x = stretch.At(rate);
        if (x.Length < 3 * SquelchCode.Bits * PerBit)
        {
            return [];
        }

        // Two integrations of about half a bit each keep the voice out.
        float[] y = Kernels.MovingMean(Kernels.MovingMean(x, 6), 5);
        float[] spread = new float[y.Length];
        float[] mid = Kernels.MidLevel(y, 2 * SquelchCode.Bits * PerBit, SquelchCode.Bits * PerBit / 2, spread);
        List<Finding> best = [];
        List<Finding> found = [];
        for (int phase = 0; phase < PerBit; phase++)
        {
            best.AddRange(Scan(stretch, y, mid, phase, rate));
        }

        foreach (Finding f in best.OrderByDescending(static f => f.UnitsGood).ThenBy(static f => f.StartS))
        {
            if (!found.Exists(o => Math.Min(o.EndS, f.EndS) > Math.Max(o.StartS, f.StartS)))
            {
                found.Add(f);
            }
        }

        return [.. found.OrderBy(static f => f.StartS)];
    }

    private static List<Finding> Scan(Stretch stretch, float[] y, float[] mid, int phase, double rate)
    {
        List<Finding> found = [];
        int count = (y.Length - phase) / PerBit;
        List<byte> bits = new(count);
        List<int> times = new(count);
        double at = phase;
        while (at < y.Length - 1)
        {
            // The clock is pulled towards the middle between the changes of level, which holds 0.1 % of error.
            int n = (int)Math.Round(at);
            bits.Add(y[n] > mid[n] ? (byte)1 : (byte)0);
            times.Add(n);
            int before = Math.Max(0, n - PerBit / 2);
            int after = Math.Min(y.Length - 1, n + PerBit / 2);
            double pull = 0;
            for (int m = before; m < after; m++)
            {
                if (y[m] > mid[m] != y[m + 1] > mid[m + 1])
                {
                    double into = m + 0.5 - n;
                    pull = into > 0 ? into - PerBit / 2.0 : into + PerBit / 2.0;
                    break;
                }
            }

            at += PerBit + 0.06 * Math.Clamp(pull, -1.5, 1.5);
        }

        int word = 0;
        for (int i = 0; i < bits.Count; i++)
        {
            word = word >> 1 | bits[i] << (SquelchCode.Bits - 1);
            if (i < SquelchCode.Bits - 1 || SquelchCode.Of(word) is not { } code)
            {
                continue;
            }

            // A word that fits exactly: how far does its stream go on, forwards and backwards?
            int first = i - SquelchCode.Bits + 1;
            int start = Reach(bits, word, first, -1);
            int end = Reach(bits, word, first, 1);
            start = Trim(bits, word, first, start, 1);
            end = Trim(bits, word, first, end, -1);
            int wrong = 0;
            for (int k = start; k <= end; k++)
            {
                wrong += bits[k] == Expected(word, k - first) ? 0 : 1;
            }

            if (end - start + 1 < Wanted || wrong > 0.07 * (end - start + 1))
            {
                continue;
            }

            int words = (end - start + 1) / SquelchCode.Bits;
            int good = 0;
            int checkedWords = 0;
            for (int w = 0; w < words; w++)
            {
                if (!stretch.Owns(times[start + w * SquelchCode.Bits] / rate))
                {
                    continue;
                }

                checkedWords++;
                bool right = true;
                for (int k = 0; k < SquelchCode.Bits; k++)
                {
                    int index = start + w * SquelchCode.Bits + k;
                    right &= bits[index] == Expected(word, index - first);
                }

                good += right ? 1 : 0;
            }

            if (checkedWords > 0)
            {
                found.Add(new Finding
                {
                    Kind = SignalKind.Dcs,
                    StartS = stretch.StartS + Math.Max(0, (times[start] - PerBit / 2.0 - Delay) / rate),
                    EndS = stretch.StartS + (times[end] + PerBit / 2.0 - Delay) / rate,
                    Confidence = words >= 5 ? 0.999 : 0.98,
                    SymbolRateBd = RateBd,
                    Code = code,
                    UnitsChecked = checkedWords,
                    UnitsGood = good,
                    Inverted = false,
                    Evidence = new Evidence { OtherPolarity = SquelchCode.TurnedOver(code) },
                });
            }

            i = Math.Max(i, end);
            word = 0;
        }

        return found;
    }

    private static int Expected(int word, int k) => word >> ((k % SquelchCode.Bits + SquelchCode.Bits) % SquelchCode.Bits) & 1;

    /// <summary>Moves an end inwards until its outermost six bits are right: behind the stream's end random bits fit by chance.</summary>
    private static int Trim(List<byte> bits, int word, int first, int end, int inwards)
    {
        for (int k = 5; k >= 0; k--)
        {
            int at = end + inwards * k;
            if (at >= 0 && at < bits.Count && bits[at] != Expected(word, at - first))
            {
                return Trim(bits, word, first, at + inwards, inwards);
            }
        }

        return end;
    }

    /// <summary>The last index in a direction up to which the stream holds with few errors.</summary>
    private static int Reach(List<byte> bits, int word, int first, int direction)
    {
        int last = first;
        double misses = 0;
        for (int k = first; k >= 0 && k < bits.Count; k += direction)
        {
            if (bits[k] == Expected(word, k - first))
            {
                misses = Math.Max(0, misses - 0.25);
                if (misses <= 0.5)
                {
                    last = k;
                }
            }
            else if (++misses > 4)
            {
                break;
            }
        }

        return last;
    }
}
