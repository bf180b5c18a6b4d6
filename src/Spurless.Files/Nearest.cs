namespace Spurless.Files;

/// <summary>Finds the word that was probably meant.</summary>
public static class Nearest
{
    /// <summary>
    /// The known word with the least edit distance (insertions, deletions, substitutions and swaps of neighbours count one each; case
    /// counts nothing); where none is nearer than a third of the word's length, at least two, the one that the word, of three letters or
    /// more, begins; else null.
    /// </summary>
    /// <param name="word">The word as written.</param>
    /// <param name="known">The words that would be right; of equal ones the first wins.</param>
    public static string? Find(string word, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(word);
        ArgumentNullException.ThrowIfNull(known);
        if (word.Length is 0 or > 200)
        {
            return null;
        }

        string[] all = [.. known];
        string? best = null;
        int least = Math.Max(2, word.Length / 3) + 1;
        foreach (string candidate in all)
        {
            if (Math.Abs(candidate.Length - word.Length) >= least)
            {
                continue;
            }

            int distance = Distance(word, candidate);
            if (distance < least && distance < Math.Max(word.Length, candidate.Length))
            {
                best = candidate;
                least = distance;
            }
        }

        return best ?? Begun(word, all);
    }

    private static string? Begun(string word, string[] known)
    {
        string[] begun = word.Length < 3 ? [] : [.. known.Where(k => k.StartsWith(word, StringComparison.OrdinalIgnoreCase)).Take(2)];
        return begun.Length == 1 ? begun[0] : null;
    }

    private static int Distance(string a, string b)
    {
        int[] before = new int[b.Length + 1];
        int[] previous = new int[b.Length + 1];
        int[] current = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++)
        {
            previous[j] = j;
        }

        for (int i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int cost = Same(a[i - 1], b[j - 1]) ? 0 : 1;
                int least = Math.Min(Math.Min(previous[j] + 1, current[j - 1] + 1), previous[j - 1] + cost);
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]))
                {
                    least = Math.Min(least, before[j - 2] + 1);
                }

                current[j] = least;
            }

            (before, previous, current) = (previous, current, before);
        }

        return previous[b.Length];
    }

    private static bool Same(char a, char b) => char.ToUpperInvariant(a) == char.ToUpperInvariant(b);
}
