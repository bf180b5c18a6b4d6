using System.Globalization;
using Spurless.Radio.Quantities;
using Spurless.Sites.Tables;

namespace Spurless.Sites.Tests.Tables;

/// <summary>
/// The same invented transmitters written as tables in every dialect that spreadsheets have: each must come back as what it was. The writer
/// here knows nothing of the reader; thousands are parted as in the SI Brochure (5.4.4) or with the other sign.
/// </summary>
public sealed class TableDialectsTests
{
    private sealed record Station(string Name, long Hz, double Dbm, double Watts, double HeightM);

    private static readonly Station[] Stations =
    [
        new("alder base", 161_350_000, -30.5, 25, 30),
        new("birch, east", 145_612_500, -47, 1.5, 12.5),
        new("cedar \"old\"", 466_075_000, -61.25, 100, 110),
        new("dogwood; west", 51_500_000, -3.125, 0.5, 8),
        new("elm", 173_287_500, -88, 5, 21),
    ];

    public static TheoryData<char, char, string, string, string> Dialects()
    {
        TheoryData<char, char, string, string, string> all = [];
        foreach (char separator in (char[])[',', ';', '\t'])
        {
            foreach (char mark in (char[])['.', ','])
            {
                foreach ((string unit, string head) in ((string, string)[])[
                    ("MHz", "Frequency (MHz)"), ("kHz", "TX freq [kHz]"), ("Hz", "freq_Hz"), ("MHz", "carrier in MHz")])
                {
                    foreach (string group in (string[])["", " ", "\u00A0", "\u202F", "'"])
                    {
                        all.Add(separator, mark, unit, head, group);
                    }
                }
            }
        }

        return all;
    }

    [Theory]
    [MemberData(nameof(Dialects))]
    public void Ask_every_dialect_gives_the_same_stations(char separator, char mark, string unit, string head, string group)
    {
        string Cell(string cell) => cell.AsSpan().IndexOfAny(separator, '"') < 0
            ? cell
            : $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
        string Number(double value) => Cell(Grouped(value, mark, group));
        double scale = unit switch { "MHz" => 1e6, "kHz" => 1e3, _ => 1 };
        string text = string.Join(separator, ["Station", Cell(head), "Level (dBm)", "Power (W)", "Antenna height (m)"]) + "\r\n"
            + string.Concat(Stations.Select(s => string.Join(
                separator, [Cell(s.Name), Number(s.Hz / scale), Number(s.Dbm), Number(s.Watts), Number(s.HeightM)]) + "\r\n"));
        TableAnswer answer = TableService.Ask(new TableQuestion { Text = text }).Answer!;
        Assert.Equal("", string.Join('\n', answer.Skipped.Concat(answer.Cells)));
        Assert.Equal(separator, answer.Separator);
        Assert.Equal(Stations.Length, answer.Rows.Count);
        foreach ((Station s, TableRow row) in Stations.Zip(answer.Rows))
        {
            Assert.Equal(s.Name, row.Value("name"));
            Assert.Equal(s.Hz, Frequency.Parse(row.Value("frequency")!).Hertz);
            Assert.Equal(s.Dbm, Level.Parse(row.Value("level")!).Dbm, 1e-9);
            Assert.Equal(s.Watts, Power.Parse(row.Value("power")!).Watts, 1e-9);
            Assert.Equal(s.HeightM, Length.Parse(row.Value("antenna.height")!).Metres, 1e-9);
        }
    }

    /// <summary>A cell that carries its own unit is read in it, whatever the head says.</summary>
    [Theory]
    [InlineData("161.35 MHz", 161_350_000)]
    [InlineData("161350 kHz", 161_350_000)]
    [InlineData("161,35 MHz", 161_350_000)]
    [InlineData("0.16135 GHz", 161_350_000)]
    [InlineData("1.6135E+08 Hz", 161_350_000)]
    [InlineData("161.35MHz", 161_350_000)]
    [InlineData("161.35 mhz", 161_350_000)]
    public void Ask_a_cell_with_its_own_unit_is_read_in_it(string cell, long hertz)
    {
        TableAnswer answer = TableService.Ask(new TableQuestion { Text = $"name;frequency;level\nx;{cell};-30 dBm\n" }).Answer!;
        Assert.Equal(hertz, Frequency.Parse(Assert.Single(answer.Rows).Value("frequency")!).Hertz);
    }

    /// <summary>Columns in any order are the same table.</summary>
    [Fact]
    public void Ask_columns_in_any_order_are_one_table()
    {
        string[] heads = ["name", "frequency (MHz)", "level (dBm)", "emission"];
        string[] cells = ["alder", "161.35", "-30", "11K2F3E"];
        string? first = null;
        foreach (int[] order in Orders(4))
        {
            string text = string.Join(';', order.Select(i => heads[i])) + "\n" + string.Join(';', order.Select(i => cells[i])) + "\n";
            string native = TableService.Ask(new TableQuestion { Text = text }).Answer!.Native;
            Assert.Equal(first ??= native, native);
        }
    }

    /// <summary>Columns that say nothing of a transmitter change nothing, wherever they stand.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void Ask_columns_of_another_kind_are_left_out(int at)
    {
        List<string> heads = ["name", "frequency (MHz)", "level (dBm)"];
        List<string> cells = ["alder", "161.35", "-30"];
        string before = TableService.Ask(new TableQuestion { Text = Table(heads, cells) }).Answer!.Native;
        heads.Insert(at, "colour of the door");
        cells.Insert(at, "green");
        TableAnswer answer = TableService.Ask(new TableQuestion { Text = Table(heads, cells) }).Answer!;
        Assert.Null(answer.Columns[at].Key);
        Assert.Equal(before, answer.Native);
    }

    /// <summary>What is no value of its column is told with its line and head, and costs the row that cell and no other.</summary>
    [Theory]
    [InlineData("level (dBm)", "loud", "is no number")]
    [InlineData("power (W)", "-5", "is not above 0")]
    [InlineData("emission", "11K2Z3E", "character 5")]
    [InlineData("antenna height (m)", "tall", "is no number")]
    [InlineData("latitude", "40 N", "is no number of degrees")]
    public void Ask_a_cell_that_is_no_value_is_told_and_the_row_kept(string head, string cell, string what)
    {
        TableAnswer answer = TableService.Ask(new TableQuestion { Text = $"name;frequency (MHz);{head}\nalder;161.35;{cell}\n" }).Answer!;
        LeftOut told = Assert.Single(answer.Cells);
        Assert.Equal((2, head), (told.Line, told.Head));
        Assert.Contains(what, told.Why.What, StringComparison.Ordinal);
        Assert.NotEmpty(told.Why.Remedy);
        Assert.Equal("161.35 MHz", Assert.Single(answer.Rows).Value("frequency"));
    }

    private static string Table(IEnumerable<string> heads, IEnumerable<string> cells) =>
        string.Join(';', heads) + "\n" + string.Join(';', cells) + "\n";

    private static IEnumerable<int[]> Orders(int n) => n == 0
        ? [[]]
        : Orders(n - 1).SelectMany(o => Enumerable.Range(0, n).Select(i => (int[])[.. o[..i], n - 1, .. o[i..]]));

    private static string Grouped(double value, char mark, string group)
    {
        string plain = value.ToString("0.######", CultureInfo.InvariantCulture);
        string[] parts = plain.TrimStart('-').Split('.');
        string whole = parts[0];
        for (int i = whole.Length - 3; i > 0 && group.Length > 0; i -= 3)
        {
            whole = whole[..i] + group + whole[i..];
        }

        return (value < 0 ? "-" : "") + whole + (parts.Length > 1 ? mark + parts[1] : "");
    }
}
