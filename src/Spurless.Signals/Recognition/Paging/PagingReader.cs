using System.Numerics;

namespace Spurless.Signals.Recognition.Paging;

/// <summary>One batch as it was read: counts only.</summary>
/// <param name="Sync">The sample of its sync word's last bit, where its timing has it.</param>
/// <param name="End">The sample of its last bit.</param>
/// <param name="HasSync">Whether its sync word was seen.</param>
/// <param name="Checked">Codewords that no hole touches.</param>
/// <param name="Good">Of these, those that pass their check as received.</param>
/// <param name="Telling">Of these, those that a signal at rest would not give.</param>
/// <param name="Corrected">Those wrong as received that their check bits explain.</param>
internal readonly record struct PagingBatch(int Sync, int End, bool HasSync, int Checked, int Good, int Telling, int Corrected);

/// <summary>
/// Reads batch after batch by the timing of one sync word. A batch whose own sync word was lost, in a fade or a gap of the samples, is
/// known by its codewords: three that pass their check where the timing has them, four where the timing slipped by some bits. Random bits
/// do that by 3e-7 and 7e-9 a batch, and only where a transmission is known to be.
/// </summary>
/// <param name="signal">The signal, integrated over a bit, the middle between its levels at 0.</param>
/// <param name="hole">Which samples a hole took; null for none.</param>
/// <param name="positiveIsOne">Whether a positive sample is 1.</param>
/// <param name="perBit">Samples of a bit.</param>
internal sealed class PagingReader(ReadOnlyMemory<float> signal, bool[]? hole, bool positiveIsOne, int perBit)
{
    /// <summary>Codewords that a claim needs.</summary>
    public const int LeastGood = 3;

    /// <summary>Most wrong bits of a sync word by which a transmission is found.</summary>
    public const int MostWrong = 2;

    private const int Words = 16;
    private const int MostWrongExpected = 4;
    private const int MostSlipBits = 4;
    private const int Jitter = 2;

    private int Word => 32 * perBit;

    private ReadOnlySpan<float> Soft => signal.Span;

    /// <summary>
    /// All batches of the transmission round a sync word, in order; empty where they hold too few codewords that pass their check.
    /// </summary>
    /// <param name="at">The sample of the sync word's last bit.</param>
    /// <param name="floor">Samples before this belong to another transmission.</param>
    public List<PagingBatch> Follow(int at, int floor)
    {
        List<PagingBatch> batches = [Read(at, true)];
        while (Next(batches[^1].End, batches.Sum(static b => b.Good) >= LeastGood) is { } next)
        {
            batches.Add(next);
        }

        if (batches.Sum(static b => b.Good) < LeastGood)
        {
            return [];
        }

        while (Before(batches[0], floor) is { } before)
        {
            batches.Insert(0, before);
        }

        return batches;
    }

    private PagingBatch? Next(int end, bool sure)
    {
        (int at, int wrong) = Sync(end + Word, Jitter);
        if (wrong <= MostWrongExpected)
        {
            PagingBatch batch = Read(at, true);
            if (wrong <= MostWrong || batch.Telling > 0)
            {
                return batch;
            }
        }

        if (!sure)
        {
            return null;
        }

        (at, wrong) = Sync(end + Word, MostSlipBits * perBit);
        return wrong <= MostWrong ? Read(at, true) : Unsynced(end + Word, end - Jitter);
    }

    private PagingBatch? Before(PagingBatch first, int floor) =>
        Unsynced(first.Sync - (Words + 1) * Word, floor);

    /// <summary>
    /// The batch whose lost sync word was expected at a sample, by its codewords; null where there is none. Of all timings the one with the
    /// most: idle words in a row pass their check one and two bits off as well, since the code is cyclic.
    /// </summary>
    private PagingBatch? Unsynced(int expected, int floor)
    {
        PagingBatch? best = null;
        for (int d = 0; d <= MostSlipBits * perBit; d++)
        {
            foreach (int at in d == 0 ? [expected] : new[] { expected - d, expected + d })
            {
                if (at < floor)
                {
                    continue;
                }

                PagingBatch batch = Read(at, false);
                int wanted = d <= Jitter ? LeastGood : LeastGood + 1;
                if (batch.Telling >= wanted && batch.Telling > (best?.Telling ?? 0))
                {
                    best = batch;
                }
            }
        }

        return best is { } b && Sync(b.Sync, 0).Wrong <= MostWrongExpected ? b with { HasSync = true } : best;
    }

    /// <summary>Reads the sixteen codewords behind a sync word; between them the clock steps towards the widest eye.</summary>
    private PagingBatch Read(int sync, bool hasSync)
    {
        (int n, int count, int good, int telling, int corrected) = (sync, 0, 0, 0, 0);
        for (int word = 0; word < Words; word++)
        {
            bool lost = IsLost(n);
            n += lost ? 0 : Drift(n);
            if (n + Word >= signal.Length + perBit / 2)
            {
                break;
            }

            uint bits = lost || n < 0 ? 0 : Bits(n);
            n += Word;
            if (lost || n < Word)
            {
                continue;
            }

            count++;
            if (PagingCode.IsGood(bits))
            {
                good++;
                telling += bits is 0 or uint.MaxValue ? 0 : 1;
            }
            else if (PagingCode.Errors(bits) <= 2)
            {
                corrected++;
            }
        }

        return new PagingBatch(sync, n, hasSync, count, good, telling, corrected);
    }

    private uint Bits(int n)
    {
        uint bits = 0;
        ReadOnlySpan<float> soft = Soft;
        for (int b = 1; b <= 32; b++)
        {
            bits = bits << 1 | (soft[Math.Min(soft.Length - 1, n + b * perBit)] > 0 == positiveIsOne ? 1u : 0u);
        }

        return bits;
    }

    /// <summary>Whether a hole touches one of the 32 bits behind a sample.</summary>
    private bool IsLost(int n)
    {
        int from = Math.Clamp(n + perBit / 2, 0, signal.Length);
        int to = Math.Clamp(n + Word + perBit / 2, from, signal.Length);
        return hole?.AsSpan(from, to - from).Contains(true) == true;
    }

    /// <summary>A step of one sample towards where the next codeword's eye is widest.</summary>
    private int Drift(int n)
    {
        double best = 0;
        int step = 0;
        ReadOnlySpan<float> soft = Soft;
        for (int d = -1; d <= 1; d++)
        {
            double sum = d == 0 ? 0.25 : 0;
            for (int b = 1; b <= 32; b++)
            {
                int at = n + d + b * perBit;
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

    /// <summary>Where near a sample a sync word ends best, and how many of its bits are wrong there; 32 where a hole took it.</summary>
    private (int At, int Wrong) Sync(int expected, int reach)
    {
        (int At, int Wrong) best = (expected, 32);
        for (int d = 0; d <= 2 * reach; d++)
        {
            // The nearest first: of equals the nearest stays.
            int end = expected + (d % 2 == 0 ? d / 2 : -(d + 1) / 2);
            if (end - Word < 0 || end >= signal.Length || IsLost(end - Word))
            {
                continue;
            }

            int wrong = BitOperations.PopCount(Bits(end - Word) ^ PagingCode.Sync);
            best = wrong < best.Wrong ? (end, wrong) : best;
        }

        return best;
    }
}
