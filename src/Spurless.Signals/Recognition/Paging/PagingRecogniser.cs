using System.Numerics;
using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Paging;

/// <summary>
/// Finds radio paging by its sync words. Claimed where a batch holds at least three codewords that pass their check as received: a batch of
/// random bits does by 5e-8. The words are checked and forgotten: neither messages nor identities leave this class.
/// </summary>
internal static class PagingRecogniser
{
    private const int PerBit = 8;
    private const int LeastGood = 3;
    private static readonly double[] _rates = [512, 1_200, 2_400];

    /// <summary>How the keyed signal is taken before it is sampled.</summary>
    private enum Front
    {
        /// <summary>As it stands: from a discriminator.</summary>
        Plain,

        /// <summary>With its changes kept: for audio that lost what is below 300 Hz.</summary>
        Held,

        /// <summary>With a de-emphasis of 530 us taken back.</summary>
        Raised,

        /// <summary>Both.</summary>
        RaisedAndHeld,
    }

    /// <summary>Finds the transmissions of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        List<Finding> found = [];
        foreach (Span span in stretch.ActiveWithin(1.5))
        {
            foreach (double rate in _rates)
            {
                if (rate > 1.6 * stretch.TopHz)
                {
                    continue;
                }

                float[] x = stretch.At(rate * PerBit);
                int from = Math.Max(0, (int)(span.FromS * rate * PerBit));
                int to = Math.Min(x.Length, (int)(span.ToS * rate * PerBit));
                if (to - from < 3 * 32 * PerBit)
                {
                    continue;
                }

                found.AddRange(Best(stretch, x[from..to], (double)from / (rate * PerBit), rate));
            }
        }

        return found;
    }

    private static List<Finding> Best(Stretch stretch, float[] x, double offsetS, double rate)
    {
        List<Finding> best = [];
        bool lost = false;
        foreach (Front front in Enum.GetValues<Front>())
        {
            // Audio without its lowest part, integrated over a bit, can read turned over: there only what holds its changes tells the
            // polarity.
            List<Finding> now = Scan(stretch, x, offsetS, rate, front);
            bool holds = front is Front.Held or Front.RaisedAndHeld;
            bool nowLost = !holds && now.Exists(f =>
                LacksLows(x, rate, f.StartS - stretch.StartS - offsetS, f.EndS - stretch.StartS - offsetS));
            int good = now.Sum(static f => f.UnitsGood!.Value);
            int bestGood = best.Sum(static f => f.UnitsGood!.Value);
            if (good > 0 && (lost && !nowLost ? good > 0.5 * bestGood : good > bestGood && (lost || !nowLost || bestGood == 0)))
            {
                best = now;
                lost = nowLost;
            }

            if (!lost && best.Count > 0 && best.Sum(static f => f.UnitsGood) > 0.98 * best.Sum(static f => f.UnitsChecked))
            {
                break;
            }
        }

        return best;
    }

    /// <summary>Whether the part below 200 Hz is much weaker than random bits of that rate have it.</summary>
    private static bool LacksLows(float[] x, double rate, double fromS, double toS)
    {
        double sampleRate = rate * PerBit;
        int to = Math.Clamp((int)(toS * sampleRate), 0, x.Length);
        int from = Math.Clamp(Math.Max((int)(fromS * sampleRate), (int)((toS - 0.45 * (toS - fromS)) * sampleRate)), 0, to);
        if (to - from < 32 * PerBit)
        {
            return false;
        }

        float[] part = x[from..to];
        double mean = part.Average();
        for (int n = 0; n < part.Length; n++)
        {
            part[n] -= (float)mean;
        }

        int length = Math.Max(2, (int)(sampleRate / 400));
        float[] low = Kernels.MovingMean(Kernels.MovingMean(part, length), length);
        double share = Kernels.Power(low) / Math.Max(1e-20, Kernels.Power(part));
        return share < 0.35 * Math.Min(0.8, 2 * 140 / rate);
    }

    private static List<Finding> Scan(Stretch stretch, ReadOnlySpan<float> x, double offsetS, double rate, Front front)
    {
        float[] soft = Soft(x, rate * PerBit, front);
        List<Finding> found = [];
        uint[] registers = new uint[PerBit];
        for (int n = 0; n < soft.Length; n++)
        {
            ref uint register = ref registers[n % PerBit];
            register = register << 1 | (soft[n] > 0 ? 1u : 0u);
            int distance = BitOperations.PopCount(register ^ PagingCode.Sync);
            if (n < 32 * PerBit || distance is > 2 and < 30)
            {
                continue;
            }

            bool positiveIsOne = distance <= 2;
            int at = Best(soft, n, positiveIsOne);
            if (Follow(stretch, soft, at, positiveIsOne, offsetS, rate, out int end) is { } finding)
            {
                found.Add(finding);
                n = Math.Max(n, end);
            }
        }

        return found;
    }

    /// <summary>The sampling moment near a hit at which the sync word stands out most.</summary>
    private static int Best(float[] soft, int n, bool positiveIsOne)
    {
        double best = double.MinValue;
        int at = n;
        for (int m = n; m < Math.Min(soft.Length, n + PerBit - 1); m++)
        {
            double sum = 0;
            for (int b = 0; b < 32; b++)
            {
                float v = soft[m - b * PerBit];
                sum += ((PagingCode.Sync >> b & 1) == 1) == positiveIsOne ? v : -v;
            }

            if (sum > best)
            {
                best = sum;
                at = m;
            }
        }

        return at;
    }

    /// <summary>Reads batch after batch from a sync word on; <paramref name="end"/> is the last sample used.</summary>
    private static Finding? Follow(Stretch stretch, float[] soft, int at, bool positiveIsOne, double offsetS, double rate, out int end)
    {
        int syncWords = 0;
        int checkedWords = 0;
        int goodWords = 0;
        int corrected = 0;
        int ownChecked = 0;
        int ownGood = 0;
        int first = at;
        int last = at;
        end = at;
        while (true)
        {
            int batchGood = 0;
            int batchChecked = 0;
            int n = at;
            for (int word = 0; word < 16; word++)
            {
                n += Drift(soft, n);
                if (n + 32 * PerBit >= soft.Length + PerBit / 2)
                {
                    break;
                }

                uint bits = 0;
                for (int b = 1; b <= 32; b++)
                {
                    bits = bits << 1 | (soft[Math.Min(soft.Length - 1, n + b * PerBit)] > 0 == positiveIsOne ? 1u : 0u);
                }

                n += 32 * PerBit;
                batchChecked++;
                if (PagingCode.IsGood(bits))
                {
                    batchGood++;
                }
                else if (PagingCode.Errors(bits) <= 2)
                {
                    corrected++;
                }
            }

            if (batchGood < LeastGood && goodWords + batchGood < LeastGood)
            {
                break;
            }

            syncWords++;
            checkedWords += batchChecked;
            goodWords += batchGood;
            if (stretch.Owns(offsetS + (double)at / (PerBit * rate)))
            {
                ownChecked += batchChecked;
                ownGood += batchGood;
            }

            last = n;
            int? next = NextSync(soft, n, positiveIsOne);
            if (next is null)
            {
                break;
            }

            at = next.Value;
        }

        end = last;
        if (goodWords < LeastGood || ownChecked == 0)
        {
            return null;
        }

        int begin = PreambleStart(soft, first, positiveIsOne);
        return new Finding
        {
            Kind = SignalKind.Pocsag,
            StartS = stretch.StartS + offsetS + begin / (PerBit * rate),
            EndS = stretch.StartS + offsetS + last / (PerBit * rate),
            Confidence = goodWords >= 8 ? 0.999 : 0.99,
            SymbolRateBd = rate,
            UnitsChecked = ownChecked,
            UnitsGood = ownGood,
            Inverted = positiveIsOne,
            Evidence = new Evidence { SyncWords = syncWords, Corrected = corrected },
        };
    }

    /// <summary>A step of one sample towards where the next codeword's eye is widest.</summary>
    private static int Drift(float[] soft, int n)
    {
        double best = 0;
        int step = 0;
        for (int d = -1; d <= 1; d++)
        {
            double sum = d == 0 ? 0.25 : 0;
            for (int b = 1; b <= 32; b++)
            {
                int at = n + d + b * PerBit;
                sum += at >= 0 && at < soft.Length ? Math.Min(1.2f, Math.Abs(soft[at])) : 0;
            }

            if (sum > best)
            {
                best = sum;
                step = d;
            }
        }

        return step;
    }

    private static int? NextSync(float[] soft, int n, bool positiveIsOne)
    {
        int best = 9;
        int? at = null;
        for (int d = -2; d <= 2; d++)
        {
            int end = n + d + 32 * PerBit;
            if (end >= soft.Length)
            {
                continue;
            }

            int wrong = 0;
            for (int b = 0; b < 32; b++)
            {
                bool one = soft[end - b * PerBit] > 0 == positiveIsOne;
                wrong += one == ((PagingCode.Sync >> b & 1) == 1) ? 0 : 1;
            }

            if (wrong < best || wrong == best && d == 0)
            {
                best = wrong;
                at = end;
            }
        }

        return at;
    }

    /// <summary>Walks back over reversals as long as they hold.</summary>
    private static int PreambleStart(float[] soft, int sync, bool positiveIsOne)
    {
        int begin = sync - 32 * PerBit;
        int edge = begin;
        int misses = 0;
        for (int k = 1; begin - k * PerBit >= 0; k++)
        {
            int n = begin - (k - 1) * PerBit;
            bool one = soft[n] > 0 == positiveIsOne;
            bool right = one == (k % 2 == 0) && Math.Abs(soft[n]) > 0.2f;
            misses = right ? Math.Max(0, misses - 1) : misses + 3;
            if (misses > 12)
            {
                break;
            }

            if (right)
            {
                edge = n - PerBit;
            }
        }

        return edge;
    }

    /// <summary>The signal integrated over a bit, its middle at 0 and its usual height at 1.</summary>
    private static float[] Soft(ReadOnlySpan<float> x, double sampleRate, Front front)
    {
        float[] y = x.ToArray();
        if (front is Front.Raised or Front.RaisedAndHeld)
        {
            float gain = (float)(530e-6 * sampleRate);
            for (int n = y.Length - 1; n > 0; n--)
            {
                y[n] += gain * (y[n] - y[n - 1]);
            }
        }

        float[] spread = new float[y.Length];
        if (front is Front.Held or Front.RaisedAndHeld)
        {
            float[] mid = Kernels.MidLevel(y, 64 * PerBit, 16 * PerBit, spread, 100);
            float state = 0;
            for (int n = 0; n < y.Length; n++)
            {
                float v = y[n] - mid[n];
                if (Math.Abs(v) > 0.5f * spread[n])
                {
                    state = Math.Sign(v);
                }

                y[n] = state;
            }
        }

        y = Kernels.MovingMean(y, PerBit);
        float[] middle = Kernels.MidLevel(y, 64 * PerBit, 16 * PerBit, spread);
        for (int n = 0; n < y.Length; n++)
        {
            y[n] = (y[n] - middle[n]) / Math.Max(1e-9f, spread[n]);
        }

        return y;
    }
}
