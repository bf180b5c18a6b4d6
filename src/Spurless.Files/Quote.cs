namespace Spurless.Files;

/// <summary>Shows a text of the user's within a message.</summary>
public static class Quote
{
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
}
