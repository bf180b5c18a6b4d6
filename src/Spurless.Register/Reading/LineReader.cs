namespace Spurless.Register.Reading;

/// <summary>Reads a stream line by line as bytes: no text is made of what nobody asks for. A line ends with LF or CR LF.</summary>
/// <param name="stream">The stream; stays the caller's.</param>
/// <param name="blockBytes">Bytes asked of the stream at a time.</param>
internal sealed class LineReader(Stream stream, int blockBytes = 1 << 20)
{
    /// <summary>The longest line that is read whole; what is longer comes in pieces and fits no layout.</summary>
    public const int LongestLine = 1 << 20;

    private byte[] _buffer = new byte[blockBytes];
    private int _start;
    private int _end;
    private bool _atEnd;

    /// <summary>Number of the line last given, from 1.</summary>
    public long Line { get; private set; }

    /// <summary>The next line without its end; false behind the last.</summary>
    public bool TryRead(out ReadOnlySpan<byte> line)
    {
        int searched = _start;
        while (true)
        {
            int at = _buffer.AsSpan(searched, _end - searched).IndexOf((byte)'\n');
            if (at >= 0)
            {
                line = Trimmed(_start, searched + at);
                _start = searched + at + 1;
                break;
            }

            if (_atEnd || _end - _start > LongestLine)
            {
                line = Trimmed(_start, _end);
                bool any = _end > _start;
                _start = _end;
                if (!any)
                {
                    return false;
                }

                break;
            }

            int kept = _end - _start;
            Fill();
            searched = _start + kept;
        }

        Line++;
        if (Line == 1 && line.StartsWith("\uFEFF"u8))
        {
            line = line[3..];
        }

        return true;
    }

    private ReadOnlySpan<byte> Trimmed(int from, int to) =>
        to > from && _buffer[to - 1] == (byte)'\r' ? _buffer.AsSpan(from, to - 1 - from) : _buffer.AsSpan(from, to - from);

    private void Fill()
    {
        if (_start > 0)
        {
            _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
            (_start, _end) = (0, _end - _start);
        }

        if (_end == _buffer.Length)
        {
            Array.Resize(ref _buffer, 2 * _buffer.Length);
        }

        int read = stream.Read(_buffer, _end, _buffer.Length - _end);
        _atEnd = read == 0;
        _end += read;
    }
}
