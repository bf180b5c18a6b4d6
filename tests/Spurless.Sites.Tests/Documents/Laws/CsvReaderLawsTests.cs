using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents.Laws;

/// <summary>
/// What the readers of tables owe their user: every cell that cannot be is said at its line and column, all of them at once, whatever
/// separates the cells and however they are quoted.
/// </summary>
public sealed class CsvReaderLawsTests
{
    private sealed record Table(string[] Heads, string[][] Rows, Func<string, IReadOnlyList<Diagnostic>> Read)
    {
        public string Text(char separator) =>
            string.Concat(((string[][])[Heads, .. Rows]).Select(r => string.Join(separator, r) + "\n"));

        public Table With(int row, int column, string cell) => this with
        {
            Rows = [.. Rows.Select((r, i) => i == row ? [.. r.Select((c, j) => j == column ? cell : c)] : r)],
        };

        /// <summary>Column of a cell, 1-based, counted over the text.</summary>
        public int ColumnOf(int row, int column) => Rows[row].Take(column).Sum(static c => c.Length + 1) + 1;
    }

    private static readonly Dictionary<string, Table> Tables = new()
    {
        ["log"] = new(
            ["time", "repeater input", "paging mast", "waterworks base"],
            [
                ["2031-03-04T19:02:00Z", "1", "1", "0"], ["2031-03-04T19:02:30Z", "0", "", "1"],
                ["2031-03-04T19:04:00Z", "1", "0", "0"], ["2031-03-04T19:05:00Z", "", "1", "1"],
            ],
            static text => Bag(bag => ObservationLogReader.Read(Encoding.UTF8.GetBytes(text), "t", Site, bag))),
        ["band plan"] = new(
            ["from", "to", "use"],
            [["144 MHz", "144.5 MHz", "receive only"], ["145.2 MHz", "145.25 MHz", "forbidden"], ["145.5 MHz", "146 MHz", "any"]],
            static text => Bag(bag => BandPlanReader.Read(Encoding.UTF8.GetBytes(text), "t", bag))),
        ["emitters"] = new(
            ["name", "frequency", "emission", "level", "antenna.height"],
            [
                ["alder", "161.35 MHz", "11K2F3E", "-30 dBm", "20 m"], ["birch", "162.35 MHz", "16K0F1D", "-40 dBm", "12 m"],
                ["cedar", "163.35 MHz", "11K2F3E", "-50 dBm", "8 m"],
            ],
            static text => SiteReader.Read(
                "spurless: 1\nsite: s\nreceivers: [{ name: r, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]\n"
                    + "emitters_from: t\n", "s", new StubFiles(("t", text))).Diagnostics),
    };

    private static SiteDocument Site { get; } =
        SiteReader.Read(TestData.Read("site", "example.site.yaml"), "s", StubFiles.OfExample).Document!;

    public static TheoryData<string, char> Each
    {
        get
        {
            TheoryData<string, char> all = [];
            foreach (string name in Tables.Keys)
            {
                foreach (char separator in ",;\t")
                {
                    all.Add(name, separator);
                }
            }

            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void The_table_reads_whatever_separates_its_cells(string name, char separator) =>
        Assert.Equal("", string.Join('\n', Tables[name].Read(Tables[name].Text(separator))));

    /// <summary>One cell that cannot be: one finding, there, with something to write instead.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void A_cell_that_cannot_be_is_said_where_it_stands(string name, char separator)
    {
        Table table = Tables[name];
        foreach ((int row, int column) in Cells(name))
        {
            Table broken = table.With(row, column, "!?");
            Diagnostic only = Assert.Single(table.Read(broken.Text(separator)));
            Assert.Equal(("t", row + 2, broken.ColumnOf(row, column)), (only.File, only.Line, only.Column));
            Assert.NotEmpty(only.Remedy);
        }
    }

    /// <summary>Every cell wrong at once: every one is said, in the order of the file.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void All_cells_that_cannot_be_are_said_at_once(string name, char separator)
    {
        Table table = Tables[name];
        foreach ((int row, int column) in Cells(name))
        {
            table = table.With(row, column, "!?");
        }

        IReadOnlyList<Diagnostic> findings = table.Read(table.Text(separator));
        Assert.Equal(
            Cells(name).Select(c => (c.Row + 2, table.ColumnOf(c.Row, c.Column))), findings.Select(static f => (f.Line, f.Column)));
    }

    /// <summary>Remarks, empty lines, ends of lines of another system and a mark of the encoding move nothing but lines.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void Remarks_and_line_ends_change_nothing(string name, char separator)
    {
        Table table = Tables[name];
        string text = "\uFEFF# a remark\n\n" + table.Text(separator).Replace("\n", "\r\n", StringComparison.Ordinal) + "\r\n# the end\r\n";
        Assert.Equal("", string.Join('\n', table.Read(text)));
        (int row, int column) = Cells(name).Last();
        Table broken = table.With(row, column, "!?");
        Diagnostic only = Assert.Single(table.Read("# a remark\n\n" + broken.Text(separator)));
        Assert.Equal((row + 4, broken.ColumnOf(row, column)), (only.Line, only.Column));
    }

    /// <summary>A cell in quotes is the cell.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void Cells_in_quotes_are_the_cells(string name, char separator)
    {
        Table table = Tables[name];
        Table quoted = table with
        {
            Heads = [.. table.Heads.Select(static h => $"\"{h}\"")],
            Rows = [.. table.Rows.Select(static r => (string[])[.. r.Select(static c => $"\"{c}\"")])],
        };
        Assert.Equal("", string.Join('\n', table.Read(quoted.Text(separator))));
    }

    /// <summary>A row with a cell too few or too many is said at the row.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void A_row_of_another_length_is_said_at_its_line(string name, char separator)
    {
        Table table = Tables[name];
        foreach (int change in (int[])[-1, 1])
        {
            Table ragged = table with
            {
                Rows =
                [
                    .. table.Rows.Select((r, i) => i != 1 ? r : change < 0 ? r[..^1] : (string[])[.. r, "more"]),
                ],
            };
            IReadOnlyList<Diagnostic> findings = table.Read(ragged.Text(separator));
            Assert.Contains(findings, static f => f.Line == 3 && f.What.Contains("cells", StringComparison.Ordinal));
        }
    }

    /// <summary>A head that nobody knows is said at it, with the nearest that there is.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void A_misspelt_head_is_said_with_the_right_one(string name, char separator)
    {
        Table table = Tables[name];
        for (int column = name == "log" ? 1 : 0; column < table.Heads.Length; column++)
        {
            string right = table.Heads[column].Split('.')[^1];
            if (right.Length < 4)
            {
                continue;
            }

            string wrong = table.Heads[column] + right[^1];
            string text = string.Join(separator, table.Heads.Select((h, i) => i == column ? wrong : h)) + "\n"
                + table.Text(separator)[(string.Join(separator, table.Heads).Length + 1)..];
            IReadOnlyList<Diagnostic> findings = table.Read(text);
            Assert.True(
                findings.Any(f => f.Line == 1 && f.Remedy.Contains($"'{right}'", StringComparison.Ordinal)),
                $"{wrong}: {string.Join('\n', findings)}");
        }
    }

    /// <summary>Cells of which junk is wrong: a name can be anything.</summary>
    private static IEnumerable<(int Row, int Column)> Cells(string name) =>
        from row in Enumerable.Range(0, Tables[name].Rows.Length)
        from column in Enumerable.Range(name == "emitters" ? 1 : 0, Tables[name].Heads.Length - (name == "emitters" ? 1 : 0))
        select (row, column);

    private static IReadOnlyList<Diagnostic> Bag(Action<DiagnosticBag> read)
    {
        DiagnosticBag bag = new();
        read(bag);
        return bag.InOrder();
    }
}
