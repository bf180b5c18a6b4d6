namespace Spurless.Register.Reading;

/// <summary>
/// Reads records and splits them into fields. A record with too few fields, or with a quote left open, is joined with the lines that
/// follow as long as
/// those begin no record of their own: free text holds line feeds. What is still too short then is given as it is.
/// </summary>
internal sealed class RecordReader
{
    private const int MostLines = 64;

    /// <summary>Which quote ends a quoted field.</summary>
    private enum QuoteRule
    {
        /// <summary>One before a separator; a doubled one stands for a quote.</summary>
        Doubled,

        /// <summary>Any before a separator.</summary>
        BeforeSeparator,

        /// <summary>Any before a separator behind which no blank stands.</summary>
        NotBeforeBlank,
    }

    private readonly LineReader _lines;
    private readonly RecordShape _shape;
    private byte[] _record = new byte[4096];
    private int _length;
    private byte[] _carried = [];
    private int _carriedLength = -1;
    private long _carriedLine;
    private int[] _starts = new int[128];
    private int[] _ends = new int[128];
    private bool _openQuote;
    private bool _strayQuote;

    public RecordReader(Stream stream, RecordShape shape)
    {
        _lines = new LineReader(stream);
        _shape = shape;
    }

    /// <summary>The line in which the record begins, from 1.</summary>
    public long Line { get; private set; }

    /// <summary>Number of fields.</summary>
    public int Count { get; private set; }

    /// <summary>Whether it has all the fields that it needs, and no open quote.</summary>
    public bool IsWhole { get; private set; }

    /// <summary>Whether the record's first line begins one (a stray piece of a line does not).</summary>
    public bool IsBegun { get; private set; }

    /// <summary>The record as it stands, joined lines with a blank between.</summary>
    public ReadOnlySpan<byte> Raw => _record.AsSpan(0, _length);

    /// <summary>A field without quotes and blanks around it; empty where there is none.</summary>
    public ReadOnlySpan<byte> this[int field] =>
        (uint)field < (uint)Count ? _record.AsSpan(_starts[field], _ends[field] - _starts[field]).Trim((byte)' ') : default;

    /// <summary>Goes to the next record; false behind the last.</summary>
    public bool TryRead()
    {
        do
        {
            if (_carriedLength >= 0)
            {
                Take(_carried.AsSpan(0, _carriedLength));
                (Line, _carriedLength) = (_carriedLine, -1);
            }
            else if (_lines.TryRead(out ReadOnlySpan<byte> line))
            {
                Take(line);
                Line = _lines.Line;
            }
            else
            {
                return false;
            }
        }
        while (Raw.Trim(" \t\0"u8).IsEmpty);

        Split();
        IsBegun = _shape.Begins?.Invoke(Raw) ?? true;
        for (int joined = 1; IsBegun && !IsWhole && joined < MostLines && _length < LineReader.LongestLine; joined++)
        {
            if (!_lines.TryRead(out ReadOnlySpan<byte> next))
            {
                break;
            }

            if (BeginsOwn(next))
            {
                Carry(next);
                break;
            }

            Append(next);
            Split();
        }

        return true;
    }

    private bool BeginsOwn(ReadOnlySpan<byte> line)
    {
        if (_shape.Begins is { } test)
        {
            return test(line);
        }

        // Without a mark: it has all its fields, or would be too many together with what stands before.
        int here = CountFields(line, out bool open);
        return (here >= _shape.LeastFields && !open) || (!_openQuote && Count + here - 1 > _shape.LeastFields);
    }

    private void Take(ReadOnlySpan<byte> line)
    {
        _length = 0;
        Put(line);
    }

    private void Append(ReadOnlySpan<byte> line)
    {
        Put(" "u8);
        Put(line);
    }

    private void Put(ReadOnlySpan<byte> bytes)
    {
        if (_record.Length < _length + bytes.Length)
        {
            Array.Resize(ref _record, Math.Max(2 * _record.Length, _length + bytes.Length));
        }

        bytes.CopyTo(_record.AsSpan(_length));
        _length += bytes.Length;
    }

    private void Carry(ReadOnlySpan<byte> line)
    {
        if (_carried.Length < line.Length)
        {
            _carried = new byte[Math.Max(4096, line.Length)];
        }

        line.CopyTo(_carried);
        (_carriedLength, _carriedLine) = (line.Length, _lines.Line);
    }

    private int CountFields(ReadOnlySpan<byte> line, out bool open)
    {
        if (!_shape.Quotes)
        {
            open = false;
            return line.Count(_shape.Separator) + 1;
        }

        int count = 0;
        int at = 0;
        bool stray = false;
        open = false;
        while (at <= line.Length)
        {
            (_, _, at, open) = OneField(line, at, _shape.Separator, QuoteRule.Doubled, ref stray);
            count++;
        }

        return count;
    }

    private void Split()
    {
        SplitBy(QuoteRule.Doubled);
        if (!_shape.Quotes || (IsWhole && (Count == _shape.LeastFields || !_strayQuote)))
        {
            return;
        }

        // A stray quote hides the end of its field, or makes one of what is none. Another reading counts only if the columns come out
        // right.
        foreach (QuoteRule rule in (ReadOnlySpan<QuoteRule>)[QuoteRule.BeforeSeparator, QuoteRule.NotBeforeBlank])
        {
            SplitBy(rule);
            if (IsWhole && Count == _shape.LeastFields)
            {
                return;
            }
        }

        SplitBy(QuoteRule.Doubled);
        IsWhole &= Count == _shape.LeastFields || !_strayQuote;
    }

    private void SplitBy(QuoteRule rule)
    {
        ReadOnlySpan<byte> record = Raw;
        Count = 0;
        (_openQuote, _strayQuote) = (false, false);
        int at = 0;
        while (at <= record.Length)
        {
            if (Count == _starts.Length)
            {
                Array.Resize(ref _starts, 2 * Count);
                Array.Resize(ref _ends, 2 * Count);
            }

            if (_shape.Quotes)
            {
                (_starts[Count], _ends[Count], at, _openQuote) = OneField(record, at, _shape.Separator, rule, ref _strayQuote);
            }
            else
            {
                int found = record[at..].IndexOf(_shape.Separator);
                (_starts[Count], _ends[Count]) = (at, found < 0 ? record.Length : at + found);
                at = _ends[Count] + 1;
            }

            Count++;
        }

        IsWhole = Count >= _shape.LeastFields && !_openQuote;
    }

    /// <summary>One field: where it begins and ends without its quotes, where the next begins, and whether its quote stays open.</summary>
    private static (int Start, int End, int Next, bool Open) OneField(
        ReadOnlySpan<byte> text, int at, byte separator, QuoteRule rule, ref bool stray)
    {
        int first = at;
        while (first < text.Length && text[first] == (byte)' ')
        {
            first++;
        }

        if (first >= text.Length || text[first] != (byte)'"')
        {
            int found = text[at..].IndexOf(separator);
            int end = found < 0 ? text.Length : at + found;
            return (at, end, end + 1, false);
        }

        for (int i = first + 1; i < text.Length; i++)
        {
            if (text[i] != (byte)'"')
            {
                continue;
            }

            int after = i + 1;
            while (after < text.Length && text[after] == (byte)' ')
            {
                after++;
            }

            bool ends = after >= text.Length || text[after] == separator;
            if (rule == QuoteRule.Doubled && i + 1 < text.Length && text[i + 1] == (byte)'"')
            {
                // A doubled quote stands for one.
                i++;
                continue;
            }

            if (ends && !(rule == QuoteRule.NotBeforeBlank && after + 1 < text.Length && text[after + 1] == (byte)' '))
            {
                return (first + 1, i, after + 1, false);
            }

            stray = true;
        }

        return (first + 1, text.Length, text.Length + 1, true);
    }
}
