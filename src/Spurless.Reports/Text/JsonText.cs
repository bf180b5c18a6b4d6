using System.Text.Json;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Text;

/// <summary>What all writers of JSON share.</summary>
internal static class JsonText
{
    /// <summary>Writes an object, indented, in UTF-8 with a final line feed.</summary>
    public static void Write(Stream to, Action<Utf8JsonWriter> members)
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
            json.WriteNumber(name, number + 0.0); // a negative zero is none
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>Writes decibels or a level with six decimals, or null where there is none or it is not finite.</summary>
    public static void Decibels(Utf8JsonWriter json, string name, double? value)
    {
        json.WritePropertyName(name);
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteRawValue(FixedText.Of(number, 6), skipInputValidation: true);
        }
        else
        {
            json.WriteNullValue();
        }
    }

    /// <summary>Writes a mixture's emitters with their coefficients, as a list without a key.</summary>
    public static void Terms(Utf8JsonWriter json, IReadOnlyList<Term> terms)
    {
        json.WriteStartArray();
        foreach (Term term in terms)
        {
            json.WriteStartObject();
            json.WriteString("emitter", term.Name);
            json.WriteNumber("coefficient", term.Coefficient);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>The same under the key <c>terms</c>, as all formats have it.</summary>
    public static void TermsOf(Utf8JsonWriter json, IReadOnlyList<Term> terms)
    {
        json.WritePropertyName("terms");
        Terms(json, terms);
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

    /// <summary>Writes a list of objects.</summary>
    /// <param name="json">The writer.</param>
    /// <param name="name">The list's key.</param>
    /// <param name="items">What there is an object of each of.</param>
    /// <param name="members">Writes the members of one.</param>
    public static void Objects<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> members)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            members(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
