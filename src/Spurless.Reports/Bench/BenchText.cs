using System.Text.Json;
using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>What the writers of the bench share.</summary>
internal static class BenchText
{
    /// <summary>Writes a paragraph broken at the page's width.</summary>
    public static void Paragraph(TextWriter to, string text, TextInk ink, TextTone tone = TextTone.Plain) => Lines(to, TextFlow.Printable(text), ink, tone, 0);

    /// <summary>Writes sentences as a list, each with its full stop.</summary>
    public static void List(TextWriter to, IEnumerable<string> sentences, TextInk ink, TextTone tone = TextTone.Plain)
    {
        foreach (string sentence in sentences)
        {
            Lines(to, "- " + TextFlow.Printable(sentence.TrimEnd('.')) + ".", ink, tone, 2);
        }
    }

    /// <summary>Writes an object, indented, with a final line feed.</summary>
    public static void Json(Stream to, Action<Utf8JsonWriter> members)
    {
        using (Utf8JsonWriter json = new(to, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }

        to.WriteByte((byte)'\n');
    }

    /// <summary>Writes a number, or null where there is none or it is not finite.</summary>
    public static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>Writes a list of texts.</summary>
    public static void Strings(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void Lines(TextWriter to, string text, TextInk ink, TextTone tone, int hanging)
    {
        foreach (string line in TextFlow.Wrap(text, hanging: hanging))
        {
            to.Write(ink.Apply(line, tone));
            to.Write('\n');
        }
    }
}
