using System.Globalization;
using System.Text.Json;

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
            json.WriteNumber(name, number);
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
            json.WriteRawValue(number.ToString("F6", CultureInfo.InvariantCulture), skipInputValidation: true);
        }
        else
        {
            json.WriteNullValue();
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
}
