namespace Spurless.Files.Yaml;

/// <summary>Finds line and column of an index. Lines end with LF, CR LF or a lone CR.</summary>
internal sealed class LineMap
{
    private readonly string _text;
    private readonly int[] _starts;
    private readonly YamlPosition _origin;

    // Where the second halves of characters stand that take two: they are no column. So a place costs no walk over its line.
    private readonly int[] _halves;

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
        List<int> halves = [];
        for (int i = 0; i < text.Length; i++)
        {
            if (char.IsLowSurrogate(text[i]))
            {
                halves.Add(i);
            }

            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                starts.Add(i + 1);
            }
        }

        _starts = [.. starts];
        _halves = [.. halves];
    }

    public YamlPosition At(long index)
    {
        int at = (int)Math.Clamp(index, 0, _text.Length);
        int line = Array.BinarySearch(_starts, at);
        line = line >= 0 ? line : ~line - 1;
        int column = at - _starts[line] + 1 - (HalvesBefore(at) - HalvesBefore(_starts[line]));

        return new YamlPosition(line + _origin.Line, line == 0 ? column + _origin.Column - 1 : column, at);
    }

    private int HalvesBefore(int at)
    {
        int found = Array.BinarySearch(_halves, at);
        return found >= 0 ? found : ~found;
    }
}
