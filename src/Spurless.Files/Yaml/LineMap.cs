namespace Spurless.Files.Yaml;

/// <summary>Finds line and column of an index. Lines end with LF, CR LF or a lone CR.</summary>
internal sealed class LineMap
{
    private readonly string _text;
    private readonly int[] _starts;
    private readonly YamlPosition _origin;

    public LineMap(string text)
        : this(text, new YamlPosition(1, 1, 0))
    {
    }

    /// <summary>The lines of a text that stands within another, beginning at <paramref name="origin"/>.</summary>
    public LineMap(string text, YamlPosition origin)
    {
        _text = text;
        _origin = origin;
        List<int> starts = [0];
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                starts.Add(i + 1);
            }
        }

        _starts = [.. starts];
    }

    public YamlPosition At(long index)
    {
        int at = (int)Math.Clamp(index, 0, _text.Length);
        int line = Array.BinarySearch(_starts, at);
        line = line >= 0 ? line : ~line - 1;
        int column = 1;
        for (int i = _starts[line]; i < at; i++)
        {
            if (!char.IsLowSurrogate(_text[i]))
            {
                column++;
            }
        }

        return new YamlPosition(line + _origin.Line, line == 0 ? column + _origin.Column - 1 : column, at);
    }
}
