using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Levels;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>One thing that was taken for granted.</summary>
/// <param name="What">A sentence.</param>
/// <param name="Touches">What it bears on.</param>
/// <param name="Worth">What it is worth in dB, in words; empty where no figure can be given.</param>
internal sealed record AssumptionRow(string What, string Touches, string Worth);

/// <summary>Gathers what a receiver's figures rest on.</summary>
internal static class Assumptions
{
    private static Typography Signs => Typography.Fine;

    /// <summary>All of a receiver's, each once.</summary>
    public static IReadOnlyList<AssumptionRow> Of(
        ReceiverFindings receiver, IReadOnlyList<NumberedFinding> findings, IReadOnlyList<LetteredCarrier> carriers)
    {
        List<AssumptionRow> all =
        [
            .. receiver.Assumed.Select(static a => new AssumptionRow(Sentence(ReceiverAssumptionWords.Of(a)), "every level", "")),
        ];
        foreach (var group in carriers.Where(static c => c.Finding.SigmaDb is not null)
            .GroupBy(static c => (c.Finding.Origin, Sigma: Figures.Rounded(c.Finding.SigmaDb!.Value)))
            .OrderBy(static g => g.Key.Origin).ThenBy(static g => g.Key.Sigma))
        {
            string how = group.Key.Origin == LevelOrigin.Measured ? "Measured levels" : "Predicted levels";
            all.Add(
                new AssumptionRow(
                    $"{how} hold within {Signs.PlusMinus}{Figures.BareDb(group.Key.Sigma)} dB (one sigma).",
                    Letters(group),
                    $"{Signs.PlusMinus}{Figures.BareDb(group.Key.Sigma)} each"));
        }

        foreach (IGrouping<string, LetteredCarrier> group in carriers
            .SelectMany(static c => LevelNoteWords.Of(c.Finding.Assumed).Select(a => (c, a)))
            .GroupBy(static p => p.a, static p => p.c, StringComparer.Ordinal))
        {
            all.Add(new AssumptionRow(Sentence(group.Key), Letters(group), Spread(group.Select(static c => c.Finding.SigmaDb))));
        }

        foreach (IGrouping<Assumption, NumberedFinding> group in findings
            .SelectMany(static f => f.Either.Assumed.Distinct().Select(a => (f, a)))
            .GroupBy(static p => p.a, static p => p.f))
        {
            List<NumberedFinding> touched = [.. group];
            string numbers = string.Join(", ", touched.Take(8).Select(static f => Figures.Count(f.Number, Signs)));
            string more = touched.Count > 8 ? $" and {Figures.Count(touched.Count - 8, Signs)} more" : "";
            all.Add(
                new AssumptionRow(
                    Sentence(AssumptionWords.Of(group.Key)),
                    $"{(touched.Count == 1 ? "finding" : "findings")} {numbers}{more}",
                    Worth(group.Key, touched)));
        }

        double[] next =
        [
            .. findings
                .Where(static f => f.Either.Verdict is Verdict.Harmful or Verdict.Marginal)
                .Select(static f => f.Either.NextDegreeErrorDb).OfType<double>(),
        ];
        if (next.Length > 0)
        {
            all.Add(new AssumptionRow(
                "Only the lowest power that makes a mixture is counted; the next one adds to it, all carriers together.", "listed mixtures",
                $"up to {Signs.PlusMinus}{Figures.BareDb(next.Max())}"));
        }

        return all;
    }

    private static string Worth(Assumption assumed, List<NumberedFinding> touched) =>
        assumed.Kind == AssumptionKind.NextDegree && touched.Max(static f => f.Either.NextDegreeErrorDb) is { } most
            ? $"up to {Signs.PlusMinus}{Figures.BareDb(most)}"
            : Spread(touched.Select(static f => f.Either.SigmaDb));

    private static string Spread(IEnumerable<double?> sigmas)
    {
        double[] known = [.. sigmas.OfType<double>()];
        return known.Length == 0 ? "" : $"within {Signs.PlusMinus}{Figures.BareDb(known.Max())} in all";
    }

    private static string Letters(IEnumerable<LetteredCarrier> carriers)
    {
        string[] letters = [.. carriers.Select(static c => c.Letter)];
        string listed = string.Join(", ", letters.Take(20));
        return $"{(letters.Length == 1 ? "carrier" : "carriers")} "
            + $"{listed}{(letters.Length > 20 ? $" and {letters.Length - 20} more" : "")}";
    }

    private static string Sentence(string text)
    {
        string trimmed = Signs.Signed(text.Trim());
        return trimmed.EndsWith('.') ? StudyWords.Capital(trimmed) : StudyWords.Capital(trimmed) + ".";
    }
}
