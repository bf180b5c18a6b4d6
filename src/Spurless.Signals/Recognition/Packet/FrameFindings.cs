namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Joins flags and frames into transmissions. Claimed where a frame's check sequence holds (1 in 65,536 of random ones) or at least
/// <see cref="LeastFlags"/> flags stand in a row (32 bits, which random bits show once in 10 hours at 1,200 Bd with 1 %). A frame that a
/// hole touches counts only where its check sequence holds.
/// </summary>
internal static class FrameFindings
{
    /// <summary>Flags in a row that are proof enough.</summary>
    public const int LeastFlags = 5;

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
        List<(long From, long To, int Flags, bool Frame, bool Good)> marks =
        [
            .. reader.FlagRuns.Select(static r => (r.From, r.To, r.Count, false, false)),
            .. reader.Frames.Select(static f => (f.From, f.To, 0, true, f.Good)),
        ];
        marks.Sort(static (a, b) => a.From.CompareTo(b.From));
        bool[] taken = new bool[marks.Count];
        for (int i = 0; i < marks.Count; i++)
        {
            taken[i] = marks[i].Good || marks[i].Flags >= LeastFlags && (pure is null || pure(marks[i].From, marks[i].To));
        }

        // What touches a proof and has an open eye belongs to it: on, then back.
        bool grown = true;
        while (grown)
        {
            grown = false;
            for (int i = 0; i < marks.Count; i++)
            {
                if (taken[i])
                {
                    continue;
                }

                for (int j = Math.Max(0, i - 6); j < Math.Min(marks.Count, i + 7); j++)
                {
                    if (taken[j] && Touch(marks[i].From, marks[i].To, marks[j].From, marks[j].To, 10 * perBit)
                        && clear(marks[i].From, marks[i].To))
                    {
                        taken[i] = true;
                        grown = true;
                        break;
                    }
                }
            }
        }

        List<Finding> found = [];
        int at = 0;
        while (at < marks.Count)
        {
            if (!taken[at])
            {
                at++;
                continue;
            }

            long from = marks[at].From;
            long to = marks[at].To;
            int flags = 0;
            int frames = 0;
            int good = 0;
            for (; at < marks.Count && (!taken[at] || marks[at].From <= to + 40 * perBit); at++)
            {
                if (!taken[at])
                {
                    continue;
                }

                to = Math.Max(to, marks[at].To);
                flags += marks[at].Flags;
                if (marks[at].Frame && stretch.Owns(offsetS + marks[at].From / rateHz)
                    && (marks[at].Good || !stretch.TouchesHole(offsetS + marks[at].From / rateHz, offsetS + marks[at].To / rateHz, 0)))
                {
                    frames++;
                    good += marks[at].Good ? 1 : 0;
                }
            }

            double startS = offsetS + from / rateHz;
            double endS = offsetS + to / rateHz;
            if (frames == 0 && !stretch.Owns(startS))
            {
                continue;
            }

            found.Add(new Finding
            {
                Kind = kind,
                StartS = stretch.StartS + Math.Max(0, startS),
                EndS = stretch.StartS + endS,
                Confidence = good > 0 ? 0.999 : flags > 12 ? 0.99 : 0.95,
                SymbolRateBd = rateBd,
                UnitsChecked = frames,
                UnitsGood = good,
                Evidence = new Evidence { Flags = flags },
            });
        }

        return found;
    }

    private static bool Touch(long aFrom, long aTo, long bFrom, long bTo, double slack) => aFrom <= bTo + slack && bFrom <= aTo + slack;
}
