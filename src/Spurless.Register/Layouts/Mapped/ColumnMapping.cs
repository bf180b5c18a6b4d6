using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Register.Layouts.Mapped;

/// <summary>One value of a record: the column it stands in, and the unit of its figures.</summary>
/// <param name="Column">The column's head.</param>
/// <param name="Unit">The unit; empty where the value has none.</param>
/// <param name="At">Where the head is named, for messages.</param>
internal sealed record MappedColumn(string Column, string Unit, Located<string> At);

/// <summary>
/// A mapping file, <c>*.columns.yaml</c>: what the columns of any other table mean.
/// </summary>
internal sealed record ColumnMapping
{
    public const string VersionKey = "spurless_columns";

    /// <summary>Units by the kind of value; the first is what a bare column is told to write.</summary>
    private static readonly Dictionary<string, (string[] Units, string Example)> UnitsOf = new(StringComparer.Ordinal)
    {
        ["frequency"] = (["Hz", "kHz", "MHz", "GHz"], "MHz"),
        ["upper_edge"] = (["Hz", "kHz", "MHz", "GHz"], "MHz"),
        ["bandwidth"] = (["Hz", "kHz", "MHz"], "kHz"),
        ["eirp"] = (["W", "kW", "mW", "dBW", "dBm"], "dBm"),
        ["erp"] = (["W", "kW", "mW", "dBW", "dBm"], "W"),
        ["power"] = (["W", "kW", "mW", "dBW", "dBm"], "W"),
        ["gain"] = (["dBi", "dBd"], "dBd"),
        ["height"] = (["m", "ft"], "m"),
        ["ground"] = (["m", "ft"], "m"),
    };

    private static readonly string[] Plain =
        ["licence", "call_sign", "service", "emission", "latitude", "longitude", "bearing", "beamwidth", "expires", "status", "class",
        "kind", "datum"];

    public required string File { get; init; }

    public required string Register { get; init; }

    public string? Table { get; init; }

    public string? Datum { get; init; }

    public required IReadOnlyDictionary<string, MappedColumn> Columns { get; init; }

    /// <summary>Reads one; null where it has errors.</summary>
    public static ColumnMapping? Read(ReadOnlySpan<byte> bytes, string file, DiagnosticBag diagnostics)
    {
        DiagnosticBag own = new();
        YamlMapping? root = YamlReader.Read(bytes, file, own);
        ColumnMapping? mapping = root is null ? null : Read(new MappingReader(root, own), file);
        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : mapping;
    }

    private static ColumnMapping Read(MappingReader reader, string file)
    {
        reader.Required(VersionKey, Shapes.Integer("1, the version of this kind of file", 1, 1));
        string register = reader.Required("register", Shapes.TextOf("what the register is called"), "what the register is called in " +
            "results");
        string? table = reader.Optional("table", Shapes.TextOf("the table's file name"), "the table; without it every table that nothing " +
            "else fits");
        string? datum = reader.Optional("datum", Shapes.TextOf("WGS84, NAD83 or NAD27"), "datum of all positions");
        IReadOnlyDictionary<string, MappedColumn> columns =
            reader.Required("columns", Shapes.Mapping("frequency: { column: Freq, unit: MHz } and so on", ReadColumns),
            "the columns by what they hold") ?? new Dictionary<string, MappedColumn>();
        reader.Finish();
        return new ColumnMapping { File = file, Register = register ?? "", Table = table, Datum = datum, Columns = columns };
    }

    private static IReadOnlyDictionary<string, MappedColumn> ReadColumns(MappingReader reader)
    {
        Dictionary<string, MappedColumn> columns = new(StringComparer.Ordinal);
        foreach (string key in Plain)
        {
            if (reader.Optional(key, Shapes.Text.WithPlace(), "column with the " + key) is { } head)
            {
                columns.Add(key, new MappedColumn(head.Value, "", head));
            }
        }

        foreach ((string key, (string[] units, string example)) in UnitsOf)
        {
            Shape<MappedColumn> shape = Shapes.Mapping("{ column: Head, unit: " + example + " }", inner =>
            {
                Located<string>? head = inner.Required("column", Shapes.TextOf("the column's head").WithPlace());
                string? unit = inner.Required("unit", Shapes.Words([.. units.Select(static u => (u, u))]));
                inner.Finish();
                return new MappedColumn(head?.Value ?? "", unit ?? "", head ?? new Located<string>("", "", default));
            });
            if (reader.Optional(key, shape, "column with the " + key) is { } column)
            {
                columns.Add(key, column);
            }
        }

        reader.AtLeastOne("name the column: frequency: { column: Freq, unit: MHz }", "frequency");
        reader.AtLeastOne("name the column of the latitude", "latitude");
        reader.AtLeastOne("name the column of the longitude", "longitude");
        reader.Finish();
        return columns;
    }

    /// <summary>Hertz, or metres, of one of the unit.</summary>
    public static double Scale(string unit) => unit switch
    {
        "kHz" => 1e3,
        "MHz" => 1e6,
        "GHz" => 1e9,
        "ft" => 0.3048,
        _ => 1,
    };

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{File}: {Register}");
}
