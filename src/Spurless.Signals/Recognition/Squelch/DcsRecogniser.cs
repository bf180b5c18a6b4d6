using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Squelch;

/// <summary>
/// Finds digital squelch under whatever else is there. Claimed where 46 bits in a row fit one code with at most one wrong (with three wrong
/// random bits did that about once in 40 hours: 2.3e-10 for a code and a place, 104 codes upright and inverted, 134.4 places a second, and
/// oftener by the clock's further phases; with one it is 350 times less), or 69 and more with at most 7 % wrong. Bits in a
/// hole that a fade made count neither way; beside holes the word is voted over its repeats, and 69 known bits are wanted.
/// </summary>
internal static class DcsRecogniser
{
    private const double RateBd = 134.4;
    private const int PerBit = 8;
    private const int Wanted = 46;

    // Of a word that its repeats vote for: the vote agrees with random bits more often than not.
    private const int WantedVoted = 69;
    private const double MostWrong = 0.07;
    private const int WrongOfFew = 1;
    private const byte Unknown = 2;
    private const int Taken = 10;
    private const double HoleMarginS = 0.001;

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
        float[] mid = KeyedLevels.MidLevel(y, 2 * SquelchCode.Bits * PerBit, SquelchCode.Bits * PerBit / 2, spread);
        bool[]? lost = Lost(stretch.InHole(0, rate, y.Length, HoleMarginS));
        List<Finding> best = [];
        List<Finding> found = [];
        for (int phase = 0; phase < PerBit; phase++)
        {
            best.AddRange(Scan(stretch, Sliced(y, mid, lost, phase), rate));
        }

        foreach (Finding f in best.OrderByDescending(static f => f.UnitsGood).ThenByDescending(static f => f.Confidence)
            .ThenBy(static f => f.StartS))
        {
            if (!found.Exists(o => Math.Min(o.EndS, f.EndS) > Math.Max(o.StartS, f.StartS)))
            {
                found.Add(f);
            }
        }

        return [.. found.OrderBy(static f => f.StartS)];
    }

    /// <summary>Where a hole fills most of what both integrations take together.</summary>
    private static bool[]? Lost(bool[]? hole)
    {
        if (hole is null)
        {
            return null;
        }

        bool[] lost = new bool[hole.Length];
        int inside = 0;
        for (int n = 0; n < hole.Length; n++)
        {
            inside += (hole[n] ? 1 : 0) - (n >= Taken && hole[n - Taken] ? 1 : 0);
            lost[n] = inside > Taken / 2;
        }

        return lost;
    }

    /// <summary>
    /// The bits, each with its moment. The clock is pulled towards the middle between the changes of level, which holds 0.1 % of error;
    /// in a hole it runs on.
    /// </summary>
    private static List<(byte Bit, int At)> Sliced(float[] y, float[] mid, bool[]? lost, int phase)
    {
        List<(byte, int)> bits = new(y.Length / PerBit + 1);
        double at = phase;
        while (at < y.Length - 1)
        {
            int n = (int)Math.Round(at);
            bits.Add((lost?[n] == true ? Unknown : y[n] > mid[n] ? (byte)1 : (byte)0, n));
            int before = Math.Max(0, n - PerBit / 2);
            int after = Math.Min(y.Length - 1, n + PerBit / 2);
            double pull = 0;
            for (int m = before; m < after; m++)
            {
                if (lost?[m] != true && y[m] > mid[m] != y[m + 1] > mid[m + 1])
                {
                    double into = m + 0.5 - n;
                    pull = into > 0 ? into - PerBit / 2.0 : into + PerBit / 2.0;
                    break;
                }
            }

            at += PerBit + 0.06 * Math.Clamp(pull, -1.5, 1.5);
        }

        return bits;
    }

    private static List<Finding> Scan(Stretch stretch, List<(byte Bit, int At)> bits, double rate)
    {
        List<Finding> found = [];
        Votes votes = new();
        int word = 0;
        int known = 0;
        for (int i = 0; i < bits.Count; i++)
        {
            word = word >> 1 | (bits[i].Bit == 1 ? 1 : 0) << (SquelchCode.Bits - 1);
            known = bits[i].Bit == Unknown ? 0 : known + 1;
            votes.Add(bits, i);

            // A word that fits exactly, or beside holes one that its repeats vote for.
            bool voted = votes.Holes > 0 && votes.Word(i) is { } of && SquelchCode.Of(of) is not null;
            int read = known >= SquelchCode.Bits && SquelchCode.Of(word) is not null ? word : voted ? votes.Word(i)!.Value : -1;
            if (read < 0)
            {
                continue;
            }

            int wanted = read == word && known >= SquelchCode.Bits ? Wanted : WantedVoted;
            if (Judge(stretch, bits, read, i - SquelchCode.Bits + 1, rate, wanted, out int end) is { } finding)
            {
                found.Add(finding);
            }

            if (end > i)
            {
                (i, word, known) = (end, 0, 0);
                votes = new Votes();
            }
        }

        return found;
    }

    /// <summary>
    /// How far the stream of a word goes on, forwards and backwards. <paramref name="end"/> is its last bit where it is long enough,
    /// else -1.
    /// </summary>
    private static Finding? Judge(
        Stretch stretch, List<(byte Bit, int At)> bits, int word, int first, double rate, int wanted, out int end)
    {
        int start = Trim(bits, word, first, Reach(bits, word, first, -1), 1);
        int last = Trim(bits, word, first, Reach(bits, word, first, 1), -1);
        int wrong = 0;
        int held = 0;
        for (int k = start; k <= last; k++)
        {
            wrong += bits[k].Bit == Unknown || bits[k].Bit == Expected(word, k - first) ? 0 : 1;
            held += bits[k].Bit == Unknown ? 0 : 1;
        }

        end = -1;
        if (held < (held <= last - start ? WantedVoted : wanted) || wrong > (held < WantedVoted ? WrongOfFew : MostWrong * held))
        {
            return null;
        }

        end = last;
        int words = (last - start + 1) / SquelchCode.Bits;
        int good = 0;
        int checkedWords = 0;
        bool owned = false;
        for (int w = 0; w < words; w++)
        {
            int from = start + w * SquelchCode.Bits;
            List<(byte Bit, int At)> part = bits.GetRange(from, SquelchCode.Bits);
            if (!stretch.Owns(part[0].At / rate))
            {
                continue;
            }

            owned = true;
            if (!part.Exists(static b => b.Bit == Unknown))
            {
                checkedWords++;
                good += part.Select((b, k) => b.Bit == Expected(word, from + k - first)).All(static right => right) ? 1 : 0;
            }
        }

        return !owned || SquelchCode.Of(word) is not { } code ? null : new Finding
        {
            Kind = SignalKind.Dcs,
            StartS = stretch.StartS + Math.Max(0, (bits[start].At - PerBit / 2.0 - Delay) / rate),
            EndS = stretch.StartS + (bits[last].At + PerBit / 2.0 - Delay) / rate,
            Confidence = words >= 5 ? 0.999 : 0.98,
            SymbolRateBd = RateBd,
            Code = code,
            UnitsChecked = checkedWords,
            UnitsGood = good,
            Inverted = false,
            Evidence = new Evidence { OtherPolarity = SquelchCode.TurnedOver(code) },
        };
    }

    private static int Expected(int word, int k) => word >> ((k % SquelchCode.Bits + SquelchCode.Bits) % SquelchCode.Bits) & 1;

    /// <summary>Moves an end inwards until its outermost six bits are right: behind the stream's end random bits fit by chance.</summary>
    private static int Trim(List<(byte Bit, int At)> bits, int word, int first, int end, int inwards)
    {
        for (int k = 5; k >= 0; k--)
        {
            int at = end + inwards * k;
            if (at >= 0 && at < bits.Count && bits[at].Bit != Unknown && bits[at].Bit != Expected(word, at - first))
            {
                return Trim(bits, word, first, at + inwards, inwards);
            }
        }

        return end;
    }

    /// <summary>The last index in a direction up to which the stream holds with few errors.</summary>
    private static int Reach(List<(byte Bit, int At)> bits, int word, int first, int direction)
    {
        int last = first;
        double misses = 0;
        for (int k = first; k >= 0 && k < bits.Count; k += direction)
        {
            if (bits[k].Bit == Unknown)
            {
                continue;
            }

            if (bits[k].Bit == Expected(word, k - first))
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

    /// <summary>The word that five repeats vote for, bit by bit.</summary>
    private sealed class Votes
    {
        private const int Repeats = 5;
        private readonly int[] _votes = new int[SquelchCode.Bits];
        private int _count;

        /// <summary>How many of the bits that vote are not known.</summary>
        public int Holes { get; private set; }

        public void Add(List<(byte Bit, int At)> bits, int i)
        {
            Count(bits[i].Bit, i, 1);
            if (++_count > Repeats * SquelchCode.Bits)
            {
                Count(bits[i - Repeats * SquelchCode.Bits].Bit, i, -1);
                _count--;
            }
        }

        /// <summary>The word whose newest bit is a given one; null where a bit has no majority.</summary>
        public int? Word(int newest)
        {
            int word = 0;
            for (int k = 0; k < SquelchCode.Bits; k++)
            {
                int vote = _votes[(newest + 1 + k) % SquelchCode.Bits];
                if (vote == 0)
                {
                    return null;
                }

                word |= vote > 0 ? 1 << k : 0;
            }

            return word;
        }

        private void Count(byte bit, int i, int by)
        {
            Holes += bit == Unknown ? by : 0;
            _votes[i % SquelchCode.Bits] += bit == Unknown ? 0 : bit == 1 ? by : -by;
        }
    }
}
