using System.Text;

namespace Spurless.Signals.Recognition.Tones;

/// <summary>Reads marks and gaps as Morse.</summary>
/// <param name="marks">When the tone is on, and for how long, in seconds.</param>
/// <param name="holes">Where nothing is known.</param>
internal sealed class MorseReader(List<(double At, double For)> marks, List<Span> holes)
{
    // Beside holes: so many marks and gaps that no hole touches.
    private const int LeastSure = 8;

    // 'TEST' alone has three of four.
    private const double MostSingle = 0.75;

    // A hole shorter than this many dots hides no element, and moves an edge by less than what is let pass.
    private const double HarmlessHole = 0.75;

    /// <summary>The identification; null where marks and gaps are none.</summary>
    public Finding? Read()
    {
        (double best, double dot) = Dot();

        // Fast keying is easily imitated by keyed data.
        if (best < (dot < 0.034 ? 0.93 : 0.84))
        {
            return null;
        }

        dot = Refine(dot);
        Letters read = Spell(dot);

        // Syllables in a row read as letters of one element: much of that is believed only of clean timing.
        bool mixed = read.Dots > 0 && read.Dots < marks.Count;
        if (read.Count < 2 || read.Single > (best > 0.93 ? MostSingle : 0.5) * read.Count || read.Wrong > 0.1 * read.Count || !mixed)
        {
            return null;
        }

        return new Finding
        {
            Kind = SignalKind.Morse,
            StartS = marks[0].At,
            EndS = marks[^1].At + marks[^1].For,
            Confidence = read.Count >= 4 && best > 0.95 ? 0.98 : 0.92,
            SymbolRateBd = 1 / dot,
            Code = read.Text,
            Evidence = new Evidence { WordsPerMinute = 1.2 / dot },
        };
    }

    /// <summary>The dot is where most elements and gaps fit: each mark's and gap's length is tried as one and as a third.</summary>
    private (double Fit, double Dot) Dot()
    {
        double best = 0;
        double dot = 0;
        double[] tries = [.. marks.Select(static m => m.For).SelectMany(static f => new[] { f, f / 3 })
            .Where(static f => f is > 0.023 and < 0.4).Distinct().Order()];
        foreach (double d in tries)
        {
            double fit = Fit(d);
            if (fit > best)
            {
                best = fit;
                dot = d;
            }
        }

        return (best, dot);
    }

    /// <summary>The letters by a dot's length; one that a hole touches, and what is no letter, is '*'.</summary>
    private Letters Spell(double dot)
    {
        StringBuilder text = new();
        StringBuilder letter = new();
        (int wrong, int letters, int dots, int single) = (0, 0, 0, 0);
        bool doubt = false;
        for (int i = 0; i < marks.Count; i++)
        {
            bool isDot = marks[i].For < 2 * dot;
            dots += isDot ? 1 : 0;
            letter.Append(isDot ? '.' : '-');
            double gap = i + 1 < marks.Count ? marks[i + 1].At - marks[i].At - marks[i].For : double.PositiveInfinity;
            double end = marks[i].At + marks[i].For;
            doubt |= Doubtful(marks[i].At, Math.Min(end + gap, end + 3 * dot), dot);
            if (gap > 2 * dot)
            {
                char? sign = doubt ? null : MorseAlphabet.Of(letter.ToString());
                wrong += sign is null && !doubt ? 1 : 0;
                single += letter.Length == 1 && !doubt ? 1 : 0;
                letters += doubt ? 0 : 1;
                text.Append(sign ?? '*');
                doubt = false;
                if (gap > 5 * dot && i + 1 < marks.Count)
                {
                    text.Append(' ');
                }

                letter.Clear();
            }
        }

        return new Letters(text.ToString(), letters, wrong, single, dots);
    }

    /// <summary>Whether a hole touches a mark or a gap in which it could hide another.</summary>
    private bool Doubtful(double fromS, double toS, double dot) =>
        holes.Exists(h => h.LengthS > HarmlessHole * dot && h.FromS < toS + 0.003 && h.ToS > fromS - 0.003);

    /// <summary>The share of marks and gaps that no hole touches which fit a dot's length.</summary>
    private double Fit(double dot)
    {
        double good = 0;
        int sure = 0;
        for (int i = 0; i < marks.Count; i++)
        {
            double end = marks[i].At + marks[i].For;
            if (!Doubtful(marks[i].At, end, dot))
            {
                double m = marks[i].For / dot;
                good += Math.Abs(m - 1) < 0.4 || Math.Abs(m - 3) < 0.7 ? 1 : 0;
                sure++;
            }

            if (i + 1 < marks.Count && !Doubtful(end, marks[i + 1].At, dot))
            {
                double g = (marks[i + 1].At - end) / dot;
                good += Math.Abs(g - 1) < 0.45 || Math.Abs(g - 3) < 0.8 || g > 5.5 ? 1 : 0;
                sure++;
            }
        }

        return holes.Count > 0 && sure < LeastSure ? 0 : good / sure;
    }

    private double Refine(double dot)
    {
        // Elements and the gaps between them share the keying's rounding, so a period of mark and gap is exact.
        double sum = 0;
        double count = 0;
        for (int i = 0; i + 1 < marks.Count; i++)
        {
            double period = marks[i + 1].At - marks[i].At;
            double gap = period - marks[i].For;
            if (gap < 4.5 * dot)
            {
                double units = (marks[i].For < 2 * dot ? 1 : 3) + (gap < 2 * dot ? 1 : 3);
                sum += period;
                count += units;
            }
        }

        return count > 0 ? sum / count : dot;
    }

    /// <summary>What was spelt: letters that no hole touches, those that are none, those of one element; and dots.</summary>
    private sealed record Letters(string Text, int Count, int Wrong, int Single, int Dots);
}
