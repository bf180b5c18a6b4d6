namespace Spurless.Register.Reading;

/// <summary>A comma-separated file whose first line has the heads of its columns; they are found by name, whatever their order and
/// case.</summary>
internal sealed class HeadedReader : IDisposable
{
    private readonly Dictionary<string, int> _columns = new(StringComparer.OrdinalIgnoreCase);

    private readonly Stream _stream;

    private HeadedReader(Stream stream, RecordReader rows, IReadOnlyList<string> heads)
    {
        _stream = stream;
        Rows = rows;
        Heads = heads;
        for (int i = 0; i < heads.Count; i++)
        {
            _columns.TryAdd(heads[i], i);
        }
    }

    /// <summary>The rows behind the head.</summary>
    public RecordReader Rows { get; }

    /// <summary>How many bytes of the file are read.</summary>
    public long BytesRead => _stream.Position;

    /// <summary>The heads in order.</summary>
    public IReadOnlyList<string> Heads { get; }

    /// <summary>Reads the head; null for an empty file.</summary>
    /// <param name="open">Opens the stream: twice, for the number of columns is known only then.</param>
    /// <param name="separator">Between the cells.</param>
    public static HeadedReader? Open(Func<Stream> open, byte separator = (byte)',')
    {
        IReadOnlyList<string>? heads;
        using (Stream first = open())
        {
            heads = ReadHeads(first, separator);
        }

        if (heads is null)
        {
            return null;
        }

        Stream stream = open();
        RecordReader rows = new(stream, new RecordShape(separator, true, heads.Count));
        rows.TryRead();
        return new HeadedReader(stream, rows, heads);
    }

    /// <summary>The heads of a file, or null where it is empty.</summary>
    public static IReadOnlyList<string>? ReadHeads(Stream stream, byte separator = (byte)',')
    {
        RecordReader reader = new(stream, new RecordShape(separator, true, 1));
        return reader.TryRead() ? [.. Enumerable.Range(0, reader.Count).Select(i => ColumnText.Text(reader[i]).Trim())] : null;
    }

    /// <inheritdoc/>
    public void Dispose() => _stream.Dispose();

    /// <summary>Number of the first of these columns that is there; -1 where none is.</summary>
    public int Column(params ReadOnlySpan<string> names)
    {
        foreach (string name in names)
        {
            if (_columns.TryGetValue(name, out int column))
            {
                return column;
            }
        }

        return -1;
    }
}
