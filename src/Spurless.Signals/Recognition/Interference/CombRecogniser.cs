using Spurless.Signals.Recognition.Tones;

namespace Spurless.Signals.Recognition.Interference;

/// <summary>
/// Finds combs: four or more lines at one spacing of 70 Hz or more that stand together for 0.6 s or more, as switching supplies make. A
/// voice's harmonics do not stand still that long: those of syllables of one pitch in a row are not in step.
/// </summary>
internal static class CombRecogniser
{
    private const int LeastLines = 4;

    /// <summary>Finds the combs among the lines of a stretch; takes their lines out of the list.</summary>
    public static List<Finding> Find(Stretch stretch, List<ToneTrack> tracks)
    {
        List<Finding> found = [];
        List<ToneTrack> left = [.. tracks.Where(static t => t.LengthS >= 0.5)];
        while (left.Count >= LeastLines)
        {
            ToneTrack seed = left.MaxBy(static t => t.LengthS)!;
            List<ToneTrack> together = [.. left.Where(
                t => t.Span.Overlap(seed.Span) > 0.6 * Math.Min(t.LengthS, seed.LengthS) && t.LengthS > 0.5 * seed.LengthS)];
            (double spacing, List<ToneTrack> lines) = Fit(together);
            if (lines.Count < LeastLines || !lines.Contains(seed) && lines.Count < LeastLines + 1)
            {
                left.Remove(seed);
                continue;
            }

            if (!AreInStep(stretch, lines))
            {
                left.RemoveAll(lines.Contains);
                continue;
            }

            double fromS = lines.Select(static l => l.FromS).Order().ElementAt(lines.Count / 4);
            double toS = lines.Select(static l => l.ToS).OrderDescending().ElementAt(lines.Count / 4);
            ToneTrack highest = lines.MaxBy(static l => l.Hz)!;
            found.Add(new Finding
            {
                Kind = SignalKind.Comb,
                StartS = stretch.StartS + fromS,
                EndS = stretch.StartS + toS,
                Confidence = lines.Count >= 6 ? 0.97 : 0.9,
                ToneHz = spacing,
                Evidence = new Evidence { Lines = lines.Count, DriftHz = highest.DriftHz },
            });
            Span whole = new(fromS - 0.3, toS + 0.3);
            bool OfComb(ToneTrack t) => t.Span.Overlap(whole) > 0.5 * t.LengthS
                && Off(t.Hz - lines[0].Hz, spacing) < Math.Max(3, 0.004 * t.Hz);
            tracks.RemoveAll(OfComb);
            left.RemoveAll(t => lines.Contains(t) || OfComb(t));
        }

        return found;
    }

    /// <summary>Whether half of the lines or more are tones from begin to end.</summary>
    private static bool AreInStep(Stretch stretch, List<ToneTrack> lines) =>
        lines.Select(l => ToneRecogniser.InStep(stretch, l.Hz, l.Span)).Order().ElementAt(lines.Count / 2) >= ToneRecogniser.LeastInStep;

    private static (double Spacing, List<ToneTrack> Lines) Fit(List<ToneTrack> lines)
    {
        List<ToneTrack> best = [];
        double spacing = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            for (int j = i + 1; j < lines.Count; j++)
            {
                double d = Math.Abs(lines[i].Hz - lines[j].Hz);
                if (d < 70)
                {
                    continue;
                }

                List<ToneTrack> fit = [.. lines.Where(l => Off(l.Hz - lines[i].Hz, d) < 2.5 + 0.001 * Math.Abs(l.Hz - lines[i].Hz))];
                double span = fit.Max(static l => l.Hz) - fit.Min(static l => l.Hz);
                int places = (int)Math.Round(span / d) + 1;
                if (fit.Count < LeastLines || fit.Count < 0.6 * places)
                {
                    continue;
                }

                if (fit.Count > best.Count)
                {
                    best = fit;
                    spacing = Refine(fit, lines[i].Hz, d);
                }
            }
        }

        return (spacing, best);
    }

    private static double Refine(List<ToneTrack> lines, double origin, double spacing)
    {
        double sn = 0, sf = 0, snn = 0, snf = 0;
        foreach (ToneTrack line in lines)
        {
            double n = Math.Round((line.Hz - origin) / spacing);
            sn += n;
            sf += line.Hz;
            snn += n * n;
            snf += n * line.Hz;
        }

        double den = lines.Count * snn - sn * sn;
        return den > 0 ? (lines.Count * snf - sn * sf) / den : spacing;
    }

    private static double Off(double hz, double spacing) => Math.Abs(hz - spacing * Math.Round(hz / spacing));
}
