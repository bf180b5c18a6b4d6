using System.Numerics;
using Spurless.Numerics;

namespace Spurless.Mixing.Evidence;

/// <summary>What was known of a product's emitters at a moment of a log.</summary>
public enum MomentClass
{
    /// <summary>The moment does not count.</summary>
    None,

    /// <summary>All of them were known to be on.</summary>
    On,

    /// <summary>One of them was known to be off.</summary>
    Off,

    /// <summary>Neither.</summary>
    Unknown,
}

/// <summary>How many moments of a log a hypothesis sees in each class, and in how many of them the interference was heard.</summary>
public readonly record struct LogCounts(int On, int OnHeard, int Off, int OffHeard, int Unknown, int UnknownHeard)
{
    // Rates before any evidence: heard while on Beta(9, 1), heard while off Beta(1, 19), else Beta(1, 1).
    private const int OnHeardBefore = 9;
    private const int OnMissedBefore = 1;
    private const int OffHeardBefore = 1;
    private const int OffMissedBefore = 19;

    /// <summary>Natural logarithm of the likelihood of the log, the unknown rates integrated out.</summary>
    public double LogLikelihood => BetaBinomial(OnHeardBefore, OnMissedBefore, OnHeard, On)
        + BetaBinomial(OffHeardBefore, OffMissedBefore, OffHeard, Off)
        + BetaBinomial(1, 1, UnknownHeard, Unknown);

    /// <summary>Probability that it is heard at one more moment of a class.</summary>
    /// <param name="moment">The class.</param>
    public double HeardNext(MomentClass moment) => moment switch
    {
        MomentClass.On => (double)(OnHeardBefore + OnHeard) / (OnHeardBefore + OnMissedBefore + On),
        MomentClass.Off => (double)(OffHeardBefore + OffHeard) / (OffHeardBefore + OffMissedBefore + Off),
        _ => (1.0 + UnknownHeard) / (2 + Unknown),
    };

    private static double BetaBinomial(int a, int b, int heard, int of) =>
        LogFactorial.Beta(a + heard, b + of - heard) - LogFactorial.Beta(a, b);
}

/// <summary>
/// The moments of one or more logs as one receiver heard them: a bit a moment for heard, and for each emitter known to be on or off.
/// A moment counts where the receiver was listened to and the row differs in some column from the one before.
/// </summary>
/// <remarks>
/// An emitter that follows the receiver (a repeater's own transmitter) is on because something is heard: with it in a product only moments
/// after an unheard one say something of the product, and its state there is that of the row before. At all others the product is
/// 'unknown', so that every hypothesis accounts for every moment.
/// </remarks>
public sealed class LogMoments
{
    private readonly ulong[] _counts;
    private readonly ulong[] _heard;
    private readonly ulong[] _onset;
    private readonly ulong[]?[] _on;
    private readonly ulong[]?[] _off;
    private readonly bool[] _follows;

    private LogMoments(int rows, int emitters, bool[] follows)
    {
        Rows = rows;
        int words = (rows + 63) / 64;
        (_counts, _heard, _onset) = (new ulong[words], new ulong[words], new ulong[words]);
        (_on, _off, _follows) = (new ulong[]?[emitters], new ulong[]?[emitters], follows);
    }

    /// <summary>Number of rows, those that do not count among them.</summary>
    public int Rows { get; }

    /// <summary>Number of moments that count.</summary>
    public int Counted => Count(_counts);

    /// <summary>Makes the moments of rows.</summary>
    /// <param name="rows">By column: on (a receiver: heard), off, or null for not observed; a row of nulls between two logs.</param>
    /// <param name="receiver">The column of the receiver.</param>
    /// <param name="columnOfEmitter">By emitter: its column, or -1.</param>
    /// <param name="follows">By emitter: whether it follows this receiver.</param>
    public static LogMoments Of(
        IReadOnlyList<IReadOnlyList<bool?>> rows, int receiver, IReadOnlyList<int> columnOfEmitter, IReadOnlyList<bool> follows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(columnOfEmitter);
        LogMoments made = new(rows.Count, columnOfEmitter.Count, [.. follows]);
        for (int e = 0; e < columnOfEmitter.Count; e++)
        {
            if (columnOfEmitter[e] >= 0)
            {
                (made._on[e], made._off[e]) = (new ulong[made._counts.Length], new ulong[made._counts.Length]);
            }
        }

        for (int r = 0; r < rows.Count; r++)
        {
            if (rows[r][receiver] is not { } heard || (r > 0 && Same(rows[r], rows[r - 1])))
            {
                continue;
            }

            Set(made._counts, r);
            SetIf(heard, made._heard, r);
            SetIf(r > 0 && rows[r - 1][receiver] == false, made._onset, r);
            for (int e = 0; e < columnOfEmitter.Count; e++)
            {
                int column = columnOfEmitter[e];
                int of = follows[e] ? r - 1 : r;
                if (column >= 0 && of >= 0 && rows[of][column] is { } on)
                {
                    Set(on ? made._on[e]! : made._off[e]!, r);
                }
            }
        }

        return made;
    }

    /// <summary>Whether an emitter is among what was observed.</summary>
    /// <param name="emitter">Its index.</param>
    public bool Observes(int emitter) => _on[emitter] is not null;

    /// <summary>Whether a moment counts and something was heard at it; null where it does not count.</summary>
    /// <param name="row">Index of the row.</param>
    public bool? HeardAt(int row) => Bit(_counts, row) ? Bit(_heard, row) : null;

    /// <summary>What a product's emitters were known to do at a moment.</summary>
    /// <param name="product">The product; null for something else.</param>
    /// <param name="row">Index of the row.</param>
    public MomentClass ClassOf(EvidenceProduct? product, int row)
    {
        if (!Bit(_counts, row))
        {
            return MomentClass.None;
        }

        if (product is null || (FollowsIn(product) && !Bit(_onset, row)))
        {
            return MomentClass.Unknown;
        }

        bool all = true;
        foreach (EvidenceTerm term in product.Terms)
        {
            if (_off[term.Emitter] is { } off && Bit(off, row))
            {
                return MomentClass.Off;
            }

            all &= _on[term.Emitter] is { } on && Bit(on, row);
        }

        return all ? MomentClass.On : MomentClass.Unknown;
    }

    /// <summary>How many moments of each class a product sees.</summary>
    /// <param name="product">The product; null for something else, which sees nothing but unknown ones.</param>
    public LogCounts CountsOf(EvidenceProduct? product)
    {
        int on = 0, onHeard = 0, off = 0, offHeard = 0;
        int all = Count(_counts);
        int heard = Count(_heard);
        bool onsets = product is not null && FollowsIn(product);
        for (int w = 0; product is not null && w < _counts.Length; w++)
        {
            ulong isOn = ulong.MaxValue, isOff = 0;
            foreach (EvidenceTerm term in product.Terms)
            {
                isOn &= _on[term.Emitter] is { } bits ? bits[w] : 0;
                isOff |= _off[term.Emitter] is { } others ? others[w] : 0;
            }

            ulong counts = onsets ? _counts[w] & _onset[w] : _counts[w];
            (isOn, isOff) = (isOn & counts, isOff & counts);
            on += BitOperations.PopCount(isOn);
            onHeard += BitOperations.PopCount(isOn & _heard[w]);
            off += BitOperations.PopCount(isOff);
            offHeard += BitOperations.PopCount(isOff & _heard[w]);
        }

        return new LogCounts(on, onHeard, off, offHeard, all - on - off, heard - onHeard - offHeard);
    }

    private bool FollowsIn(EvidenceProduct product)
    {
        foreach (EvidenceTerm term in product.Terms)
        {
            if (_follows[term.Emitter])
            {
                return true;
            }
        }

        return false;
    }

    private static bool Same(IReadOnlyList<bool?> a, IReadOnlyList<bool?> b)
    {
        for (int i = 0; i < a.Count; i++)
        {
            if (a[i] != b[i])
            {
                return false;
            }
        }

        return true;
    }

    private static int Count(ulong[] bits)
    {
        int count = 0;
        foreach (ulong word in bits)
        {
            count += BitOperations.PopCount(word);
        }

        return count;
    }

    private static bool Bit(ulong[] bits, int at) => (bits[at >> 6] >> (at & 63) & 1) != 0;

    private static void Set(ulong[] bits, int at) => bits[at >> 6] |= 1UL << (at & 63);

    private static void SetIf(bool what, ulong[] bits, int at)
    {
        if (what)
        {
            Set(bits, at);
        }
    }
}
