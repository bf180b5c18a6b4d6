namespace Spurless.Files;

/// <summary>Shows a text of the user's within a message.</summary>
public static class Quote
{
    private const int MostHeads = 20;

    /// <summary>The text on one line, cut after 80 characters.</summary>
    public static string Short(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        int end = Math.Min(text.Length, 80);
        if (end < text.Length && char.IsHighSurrogate(text[end - 1]))
        {
            end--;
        }

        string cut = end < text.Length ? text[..end] + "…" : text;
        return cut.ReplaceLineEndings(" ").Replace('\t', ' ');
    }

    /// <summary>The heads of a table, each in quotes and cut as by <see cref="Short"/>: the first twenty, then how many more.</summary>
    public static string Heads(IReadOnlyCollection<string> heads)
    {
        ArgumentNullException.ThrowIfNull(heads);
        string first = string.Join(", ", heads.Take(MostHeads).Select(static h => $"'{Short(h)}'"));
        return heads.Count <= MostHeads ? first : FormattableString.Invariant($"{first} and {heads.Count - MostHeads} more");
    }
}
