using System.Globalization;
using System.Text;
using System.Text.Json;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Json;

/// <summary>A value of a JSON text with its place, so that findings can name line and column.</summary>
/// <param name="Line">Its line, from 1.</param>
/// <param name="Column">Its column in characters, from 1.</param>
/// <param name="Type">What it is.</param>
/// <param name="Text">A string's text, a number's digits, true or false; else null.</param>
public sealed record PositionedJson(int Line, int Column, JsonTokenType Type, string? Text)
{
    private const int MaxDepth = 32;

    /// <summary>The members of an object, in order.</summary>
    public IReadOnlyList<KeyValuePair<string, PositionedJson>> Members { get; private init; } = [];

    /// <summary>The items of an array.</summary>
    public IReadOnlyList<PositionedJson> Items { get; private init; } = [];

    /// <summary>The last member of a name, or null.</summary>
    public PositionedJson? this[string name] => Members.LastOrDefault(m => m.Key == name).Value;

    /// <summary>The value as a finite number.</summary>
    public double? Number =>
        Type == JsonTokenType.Number && double.TryParse(Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double v)
            && double.IsFinite(v) ? v : null;

    /// <summary>Reads a text.</summary>
    /// <param name="utf8">The text, UTF-8, with or without a byte-order mark.</param>
    /// <param name="file">Its name for findings.</param>
    /// <param name="findings">What is wrong with it.</param>
    /// <param name="remedy">What to do where it is no JSON.</param>
    /// <returns>The value, or null.</returns>
    public static PositionedJson? Read(ReadOnlySpan<byte> utf8, string file, DiagnosticBag findings, string remedy)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (utf8.StartsWith(Encoding.UTF8.Preamble))
        {
            utf8 = utf8[3..];
        }

        List<int> lines = [0];
        for (int i = 0; i < utf8.Length; i++)
        {
            if (utf8[i] == '\n')
            {
                lines.Add(i + 1);
            }
        }

        try
        {
            Utf8JsonReader reader = new(utf8, new JsonReaderOptions { MaxDepth = MaxDepth });
            reader.Read();
            PositionedJson root = Value(ref reader, utf8, lines);
            reader.Read();
            return root;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            (long line, long column) = e is JsonException j ? (j.LineNumber ?? 0, j.BytePositionInLine ?? 0) : (0, 0);
            findings.Error(file, (int)line + 1, (int)column + 1, "this is not JSON from here on", remedy);
            return null;
        }
    }

    private static PositionedJson Value(ref Utf8JsonReader reader, ReadOnlySpan<byte> utf8, List<int> lines)
    {
        int index = (int)reader.TokenStartIndex;
        int line = lines.BinarySearch(index);
        line = line < 0 ? ~line - 1 : line;
        int column = Encoding.UTF8.GetCharCount(utf8[lines[line]..index]) + 1;
        string? text = reader.TokenType switch
        {
            JsonTokenType.String => reader.GetString(),
            JsonTokenType.Number => Encoding.UTF8.GetString(reader.ValueSpan),
            JsonTokenType.True or JsonTokenType.False => reader.GetBoolean() ? "true" : "false",
            _ => null,
        };
        JsonTokenType type = reader.TokenType;
        List<KeyValuePair<string, PositionedJson>> members = [];
        List<PositionedJson> items = [];
        while (type == JsonTokenType.StartObject && reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            string name = reader.GetString()!;
            reader.Read();
            members.Add(new(name, Value(ref reader, utf8, lines)));
        }

        while (type == JsonTokenType.StartArray && reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            items.Add(Value(ref reader, utf8, lines));
        }

        return new PositionedJson(line + 1, column, type, text) { Members = members, Items = items };
    }
}
