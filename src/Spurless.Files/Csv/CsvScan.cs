namespace Spurless.Files.Csv;

/// <summary>
/// One walk over a table's text that the library needs before it and does not do itself: comment lines are blanked, the separator is found,
/// and the place where each cell begins is kept. A quote opens or closes wherever it stands, as in the library.
/// </summary>
/// <param name="Text">The text with its comment lines blanked; every index is as before.</param>
/// <param name="Separator">The separator.</param>
/// <param name="Starts">Index of each cell's first character, row by row.</param>
/// <param name="OpenQuote">Index of a quote that is never closed, or null.</param>
internal sealed record CsvScan(string Text, char Separator, IReadOnlyList<int> Starts, int? OpenQuote)
{
    public static CsvScan Of(string text)
    {
        char[] clean = text.ToCharArray();
        int? open = Blank(clean);
        char separator = FindSeparator(clean);
        List<int> starts = [];
        bool quoted = false;
        for (int i = 0; i < clean.Length; i++)
        {
            if (i == 0)
            {
                starts.Add(0);
            }

            char c = clean[i];
            quoted ^= c == '"';
            if (quoted)
            {
                continue;
            }

            if (c == '\r' && i + 1 < clean.Length && clean[i + 1] == '\n')
            {
                continue;
            }

            if (c == separator || (c is '\n' or '\r' && i + 1 < clean.Length))
            {
                starts.Add(i + 1);
            }
        }

        return new CsvScan(new string(clean), separator, starts, open);
    }

    /// <summary>Blanks comment lines; gives the quote that stays open.</summary>
    private static int? Blank(char[] text)
    {
        int? open = null;
        bool comment = false;
        for (int i = 0; i < text.Length; i++)
        {
            bool lineStart = i == 0 || text[i - 1] is '\n' or '\r';
            comment = open is null && (lineStart ? text[i] == '#' : comment && text[i] is not ('\n' or '\r'));
            if (comment)
            {
                text[i] = ' ';
            }
            else if (text[i] == '"')
            {
                open = open is null ? i : null;
            }
        }

        return open;
    }

    /// <summary>The most frequent of comma, semicolon and tab in the first line that holds anything.</summary>
    private static char FindSeparator(char[] text)
    {
        int start = 0;
        while (start < text.Length && (text[start] is ' ' or '\n' or '\r'))
        {
            start++;
        }

        int commas = 0;
        int semicolons = 0;
        int tabs = 0;
        bool quoted = false;
        for (int i = start; i < text.Length && (quoted || text[i] is not ('\n' or '\r')); i++)
        {
            quoted ^= text[i] == '"';
            commas += !quoted && text[i] == ',' ? 1 : 0;
            semicolons += !quoted && text[i] == ';' ? 1 : 0;
            tabs += !quoted && text[i] == '\t' ? 1 : 0;
        }

        return semicolons > commas && semicolons >= tabs ? ';' : tabs > commas ? '\t' : ',';
    }
}
