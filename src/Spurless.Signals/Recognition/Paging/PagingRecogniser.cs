using System.Numerics;
using System.Runtime.Intrinsics;
using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Paging;

/// <summary>
/// Finds radio paging by its sync words. Claimed where a batch holds at least three codewords that pass their check as received: a batch of
/// random bits does by 5e-8. The words are checked and forgotten: neither messages nor identities leave this class.
/// </summary>
internal static class PagingRecogniser
{
    private const int PerBit = 8;
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

                float[] all = stretch.At(rate * PerBit);
                int from = Math.Max(0, (int)(span.FromS * rate * PerBit));
                int to = Math.Min(all.Length, (int)(span.ToS * rate * PerBit));
                if (to - from < 3 * 32 * PerBit)
                {
                    continue;
                }

                found.AddRange(Best(stretch, all.AsSpan(from, to - from), (double)from / (rate * PerBit), rate));
            }
        }

        return found;
    }

    private static List<Finding> Best(Stretch stretch, ReadOnlySpan<float> x, double offsetS, double rate)
    {
        using Rented room = new(x.Length);
        using Rented soft = new(x.Length);
        List<Finding> best = [];
        bool lost = false;
        foreach (Front front in Enum.GetValues<Front>())
        {
            // Audio without its lowest part, integrated over a bit, can read turned over: there only what holds its changes tells the
            // polarity.
            Soft(x, rate * PerBit, front, room.Span, soft.Span);
            List<Finding> now = Scan(stretch, soft.Memory, offsetS, rate);
            bool holds = front is Front.Held or Front.RaisedAndHeld;
            bool nowLost = false;
            foreach (Finding f in now)
            {
                nowLost |= !holds && LacksLows(x, rate, f.StartS - stretch.StartS - offsetS, f.EndS - stretch.StartS - offsetS);
            }

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
    private static bool LacksLows(ReadOnlySpan<float> x, double rate, double fromS, double toS)
    {
        double sampleRate = rate * PerBit;
        int to = Math.Clamp((int)(toS * sampleRate), 0, x.Length);
        int from = Math.Clamp(Math.Max((int)(fromS * sampleRate), (int)((toS - 0.45 * (toS - fromS)) * sampleRate)), 0, to);
        if (to - from < 32 * PerBit)
        {
            return false;
        }

        float[] part = x[from..to].ToArray();
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

    private static List<Finding> Scan(Stretch stretch, ReadOnlyMemory<float> signal, double offsetS, double rate)
    {
        ReadOnlySpan<float> soft = signal.Span;
        bool[]? hole = stretch.InHole(offsetS, rate * PerBit, soft.Length, 1 / rate);
        List<Finding> found = [];
        int floor = 0;
        foreach ((int n, bool positiveIsOne) in SyncWords(soft))
        {
            if (n <= floor)
            {
                continue;
            }

            int at = Best(soft, n, positiveIsOne);
            List<PagingBatch> batches = new PagingReader(signal, hole, positiveIsOne, PerBit).Follow(at, floor);
            if (batches.Count == 0)
            {
                continue;
            }

            floor = Math.Max(n, batches[^1].End);
            double StartS(PagingBatch batch) => offsetS + batch.Sync / (PerBit * rate);
            List<PagingBatch> own = batches.FindAll(b => stretch.Owns(StartS(b)));
            if (own.Sum(static b => b.Checked) > 0)
            {
                int begin = PreambleStart(soft, hole, batches[0].Sync, positiveIsOne);
                found.Add(Of(batches, own, rate, positiveIsOne) with
                {
                    StartS = stretch.StartS + offsetS + begin / (PerBit * rate),
                    EndS = stretch.StartS + offsetS + batches[^1].End / (PerBit * rate),
                });
            }
        }

        return found;
    }

    /// <summary>
    /// The samples at which a sync word ends with at most <see cref="PagingReader.MostWrong"/> bits wrong, or one turned over, in order.
    /// The eight places within a bit are looked at together.
    /// </summary>
    private static List<(int At, bool PositiveIsOne)> SyncWords(ReadOnlySpan<float> soft)
    {
        List<(int, bool)> found = [];
        Vector256<uint> last = Vector256<uint>.Zero;
        Vector256<uint> sync = Vector256.Create(PagingCode.Sync);
        for (int from = 0; from + PerBit <= soft.Length; from += PerBit)
        {
            // The last 32 bits by each of the eight places; a comparison that holds is -1.
            last = (last << 1) - Vector256.GreaterThan(Vector256.Create(soft.Slice(from, PerBit)), Vector256<float>.Zero).AsUInt32();
            Vector256<uint> wrong = last ^ sync;
            Vector256<uint> right = ~wrong;
            for (int k = 0; k < PagingReader.MostWrong; k++)
            {
                // Takes away one bit.
                wrong &= wrong - Vector256<uint>.One;
                right &= right - Vector256<uint>.One;
            }

            Vector256<uint> upright = Vector256.Equals(wrong, Vector256<uint>.Zero);
            uint hits = Vector256.ExtractMostSignificantBits(upright | Vector256.Equals(right, Vector256<uint>.Zero));
            for (; hits != 0 && from >= 32 * PerBit; hits &= hits - 1)
            {
                int place = BitOperations.TrailingZeroCount(hits);
                found.Add((from + place, upright[place] != 0));
            }
        }

        return found;
    }

    private static Finding Of(List<PagingBatch> batches, List<PagingBatch> own, double rate, bool positiveIsOne) => new()
    {
        Kind = SignalKind.Pocsag,
        StartS = 0,
        EndS = 0,
        Confidence = batches.Sum(static b => b.Good) >= 8 ? 0.999 : 0.99,
        SymbolRateBd = rate,
        UnitsChecked = own.Sum(static b => b.Checked),
        UnitsGood = own.Sum(static b => b.Good),
        Inverted = positiveIsOne,
        Evidence = new Evidence
        {
            SyncWords = batches.Count(static b => b.HasSync),
            Corrected = batches.Sum(static b => b.Corrected),
        },
    };

    /// <summary>The sampling moment near a hit at which the sync word stands out most.</summary>
    private static int Best(ReadOnlySpan<float> soft, int n, bool positiveIsOne)
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

    /// <summary>Walks back over reversals as long as they hold.</summary>
    private static int PreambleStart(ReadOnlySpan<float> soft, bool[]? hole, int sync, bool positiveIsOne)
    {
        int begin = sync - 32 * PerBit;
        int edge = begin;
        int misses = 0;
        for (int k = 1; begin - k * PerBit >= 0; k++)
        {
            int n = begin - (k - 1) * PerBit;
            if (hole?[n] == true)
            {
                continue;
            }

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
    /// <param name="x">The signal.</param>
    /// <param name="sampleRate">Its rate.</param>
    /// <param name="front">How it is taken.</param>
    /// <param name="room">As long as the signal, to work in.</param>
    /// <param name="soft">Gets the result.</param>
    private static void Soft(ReadOnlySpan<float> x, double sampleRate, Front front, Span<float> room, Span<float> soft)
    {
        ReadOnlySpan<float> y = x;
        if (front is Front.Raised or Front.RaisedAndHeld)
        {
            Kernels.AddRise(x, (float)(530e-6 * sampleRate), room);
            y = room;
        }

        if (front is Front.Held or Front.RaisedAndHeld)
        {
            y.CopyTo(room);
            Kernels.Level(room, 64 * PerBit, 16 * PerBit, soft, 100);
            float state = 0;
            for (int n = 0; n < room.Length; n++)
            {
                float v = room[n];
                state = Math.Abs(v) > 0.5f * soft[n] ? MathF.CopySign(1, v) : state;
                room[n] = state;
            }

            y = room;
        }

        Kernels.MovingMean(y, PerBit, soft);
        Kernels.Level(soft, 64 * PerBit, 16 * PerBit, default, 10, scaled: true);
    }
}
