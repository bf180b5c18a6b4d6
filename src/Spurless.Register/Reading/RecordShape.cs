namespace Spurless.Register.Reading;

/// <summary>How the records of a file are laid out.</summary>
/// <param name="Separator">Between the fields.</param>
/// <param name="Quotes">Whether a field may stand in double quotes.</param>
/// <param name="LeastFields">A record has at least so many fields.</param>
/// <param name="Begins">Whether a line begins a record, where that can be seen; null: a line that has enough fields of its own
/// does.</param>
internal sealed record RecordShape(byte Separator, bool Quotes, int LeastFields, RecordShape.LineTest? Begins = null)
{
    /// <summary>A question about a line.</summary>
    public delegate bool LineTest(ReadOnlySpan<byte> line);

    /// <summary>A record of a pipe-separated file of the public access kind: two letters and a bar.</summary>
    public static RecordShape Piped(string type, int leastFields)
    {
        byte[] head = [(byte)type[0], (byte)type[1], (byte)'|'];
        return new RecordShape((byte)'|', false, leastFields, line => line.StartsWith(head));
    }
}
