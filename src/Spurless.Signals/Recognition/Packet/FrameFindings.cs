namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Joins flags and frames into transmissions. Claimed where at least <see cref="LeastFlags"/> flags stand in a row (32 bits, which random
/// bits show once in 10 hours at 1,200 Bd with 1 %; of tones ten or more in all), or a frame's check sequence holds and something else
/// says so too: two flags in a row before or behind it, addresses as AX.25 has them, or another such frame beside it. A check sequence
/// alone holds in 1 of 65,536 frames of random bits, which at 9,600 Bd is once in ten hours. A frame that a hole touches counts only
/// where its check sequence holds.
/// </summary>
internal static class FrameFindings
{
    /// <summary>Flags in a row that are proof enough.</summary>
    public const int LeastFlags = 5;

    /// <summary>Flags in all that are proof of tones without a frame: a voice of 150 Hz repeats every eight bits too.</summary>
    private const int LeastFlagsAlone = 10;

    /// <summary>Flags in a row that bear out a frame whose check sequence holds.</summary>
    private const int FlagsBeside = 2;

    // What two marks that touch lie apart at most, and two of one transmission, in bits.
    private const int TouchBits = 10;
    private const int JoinBits = 40;
    private const int Neighbours = 6;

    /// <summary>Makes the findings.</summary>
    /// <param name="stretch">Where the bits are from.</param>
    /// <param name="kind">What is claimed.</param>
    /// <param name="reader">The flags and frames; moments in samples of <paramref name="rateHz"/>, from <paramref name="offsetS"/>
    /// on.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="offsetS">Where the samples begin, in seconds from the stretch's start.</param>
    /// <param name="rateBd">Symbols a second.</param>
    /// <param name="clear">Whether the eye between two moments is open: bits of noise are no frame.</param>
    /// <param name="pure">Whether flags between two moments are the signal's and not a likeness; null where there is none.</param>
    public static List<Finding> Make(Stretch stretch, SignalKind kind, FrameReader reader, double rateHz, double offsetS, double rateBd,
        Func<long, long, bool> clear,
        Func<long, long, bool>? pure = null)
    {
        double perBit = rateHz / rateBd;
        List<Mark> marks =
        [
            .. reader.FlagRuns.Select(static r => new Mark(r.From, r.To, r.Count, false, false, false)),
            .. reader.Frames.Select(static f => new Mark(f.From, f.To, 0, true, f.Good, f.Addressed)),
        ];
        marks.Sort(static (a, b) => a.From.CompareTo(b.From));
        bool[] taken = [.. Enumerable.Range(0, marks.Count).Select(i => marks[i].Good ? IsBorneOut(marks, i, perBit)
            : marks[i].Flags >= LeastFlags && (pure is null || pure(marks[i].From, marks[i].To)))];
        Grow(marks, taken, perBit, clear);
        return Joined(marks, taken, perBit, mark =>
        {
            (double fromS, double toS) = (offsetS + mark.From / rateHz, offsetS + mark.To / rateHz);
            return stretch.Owns(fromS) && (mark.Good || !stretch.TouchesHole(fromS, toS, 0));
        }, (from, to, flags, frames, good) =>
            kind == SignalKind.Afsk1200 && good == 0 && flags < LeastFlagsAlone
                || frames == 0 && !stretch.Owns(offsetS + from / rateHz) ? null : new Finding
                {
                    Kind = kind,
                    StartS = stretch.StartS + Math.Max(0, offsetS + from / rateHz),
                    EndS = stretch.StartS + offsetS + to / rateHz,
                    Confidence = good > 0 ? 0.999 : flags > 12 ? 0.99 : 0.95,
                    SymbolRateBd = rateBd,
                    UnitsChecked = frames,
                    UnitsGood = good,
                    Evidence = new Evidence { Flags = flags },
                });
    }

    /// <summary>Whether something besides its check sequence says that a frame was sent.</summary>
    private static bool IsBorneOut(List<Mark> marks, int i, double perBit) =>
        marks[i].Addressed || Beside(marks, i).Any(j =>
            Touch(marks[i], marks[j], TouchBits * perBit) && (marks[j].Flags >= FlagsBeside || marks[j].Good));

    /// <summary>What touches a proof and has an open eye belongs to it: on, then back.</summary>
    private static void Grow(List<Mark> marks, bool[] taken, double perBit, Func<long, long, bool> clear)
    {
        bool grown = true;
        while (grown)
        {
            grown = false;
            for (int i = 0; i < marks.Count; i++)
            {
                if (!taken[i] && Beside(marks, i).Any(j => taken[j] && Touch(marks[i], marks[j], TouchBits * perBit))
                    && clear(marks[i].From, marks[i].To))
                {
                    taken[i] = true;
                    grown = true;
                }
            }
        }
    }

    /// <summary>One finding of all that is taken and hangs together.</summary>
    private static List<Finding> Joined(List<Mark> marks, bool[] taken, double perBit, Func<Mark, bool> counts,
        Func<long, long, int, int, int, Finding?> make)
    {
        List<Finding> found = [];
        int at = 0;
        while (at < marks.Count)
        {
            if (!taken[at])
            {
                at++;
                continue;
            }

            (long from, long to) = (marks[at].From, marks[at].To);
            (int flags, int frames, int good) = (0, 0, 0);
            for (; at < marks.Count && (!taken[at] || marks[at].From <= to + JoinBits * perBit); at++)
            {
                if (!taken[at])
                {
                    continue;
                }

                Mark mark = marks[at];
                to = Math.Max(to, mark.To);
                flags += mark.Flags;
                if (mark.IsFrame && counts(mark))
                {
                    frames++;
                    good += mark.Good ? 1 : 0;
                }
            }

            if (make(from, to, flags, frames, good) is { } finding)
            {
                found.Add(finding);
            }
        }

        return found;
    }

    private static IEnumerable<int> Beside(List<Mark> marks, int i)
    {
        for (int j = Math.Max(0, i - Neighbours); j <= Math.Min(marks.Count - 1, i + Neighbours); j++)
        {
            if (j != i)
            {
                yield return j;
            }
        }
    }

    private static bool Touch(Mark a, Mark b, double slack) => a.From <= b.To + slack && b.From <= a.To + slack;

    /// <summary>A run of flags, or a frame.</summary>
    private readonly record struct Mark(long From, long To, int Flags, bool IsFrame, bool Good, bool Addressed);
}
