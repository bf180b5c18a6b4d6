using System.Globalization;
using CsCheck;
using Spurless.Reports.Tests.Whole;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

/// <summary>Tables and paragraphs of any words against plain ways to lay them out and to take them apart again.</summary>
public sealed class TextLayoutOracleTests
{
    // One line each, no wider than the head's column may be: words, figures, letters of several signs, nothing.
    private static readonly Gen<string> _cell = Gen.OneOf<string>(
        Gen.String[Gen.Char['a', 'f'], 0, 9],
        Gen.Int[-9_999, 9_999].Select(static n => n.ToString(CultureInfo.InvariantCulture)),
        Gen.OneOf("two words", "Türme", "u\u0308ber", "\U0001D538b", "", "+23.3", "a - b"));

    private static readonly Gen<(TextColumn[] Columns, string[][] Rows)> _table =
        from sides in Gen.OneOf(TextSide.Left, TextSide.Right).Array[1, 5]
        from heads in Gen.OneOf("order", "MHz", "level\ndBm", "give or\ntake dB", "x").Array[sides.Length]
        from rows in _cell.Array[sides.Length].Array[0, 8]
        select (sides.Select((s, i) => new TextColumn(heads[i], s)).ToArray(), rows);

    // Columns two blanks apart, figures at their right, words at their left: each line is built here by padding alone.
    [Fact]
    public void Table_is_its_cells_padded_to_the_widest_two_blanks_apart() => _table.Sample(static (columns, rows) =>
    {
        TextTable table = new(columns);
        foreach (string[] row in rows)
        {
            table.Add([.. row.Select(static c => new TextCell(c))]);
        }

        int[] widths = [.. columns.Select((c, i) => rows.Select(r => Width(r[i])).Concat(c.Heading.Split('\n').Select(Width)).Max())];
        int height = columns.Max(static c => c.Heading.Split('\n').Length);
        List<string> wanted = [];
        for (int line = 0; line < height; line++)
        {
            wanted.Add(Line([.. columns.Select(c =>
            {
                string[] parts = c.Heading.Split('\n');
                int at = line - (height - parts.Length);
                return at < 0 ? "" : parts[at];
            })]));
        }

        wanted.Add(string.Join("  ", widths.Select(static w => new string('-', w))));
        wanted.AddRange(rows.Select(Line));
        Assert.Equal(wanted, table.ToText(400).Split('\n')[..^1]);

        string Line(string[] cells) => string.Join("  ", cells.Select((cell, i) =>
        {
            string pad = new(' ', widths[i] - Width(cell));
            return columns[i].Side == TextSide.Right ? pad + cell : cell + pad;
        })).TrimEnd(' ');
    });

    // However narrow: what may wrap gives way, no word is lost, and the other columns read back whole.
    [Fact]
    public void Narrow_table_loses_no_word() =>
        Gen.Select(Gen.String[Gen.Char['a', 'e'], 1, 9].Array[0, 12].Array[1, 6], Gen.Int[30, 80]).Sample(static (texts, width) =>
        {
            TextTable table = new(new TextColumn("no.", TextSide.Right), new TextColumn("what", TextSide.Left, Wraps: true),
                new TextColumn("end"));
            for (int i = 0; i < texts.Length; i++)
            {
                string number = (i + 1).ToString(CultureInfo.InvariantCulture);
                table.Add(number, string.Join(' ', texts[i]), "x" + number);
            }

            string text = table.ToText(width);
            Assert.All(text.Split('\n'), l => Assert.InRange(Width(l), 0, Math.Max(width, 3 + 2 + 12 + 2 + 3)));
            PrintedTable read = Assert.Single(PrintedTable.OfText("\n" + text));
            Assert.Equal(["no.", "what", "end"], read.Heads);
            List<string> found = [];
            List<string> keys = [];
            foreach (string[] row in read.Rows)
            {
                if (row[0].Length > 0)
                {
                    keys.Add(row[0] + row[2]);
                    found.Add(row[1]);
                }
                else
                {
                    found[^1] += " " + row[1];
                }
            }

            Assert.Equal(texts.Select(static (_, i) => FormattableString.Invariant($"{i + 1}x{i + 1}")), keys);
            Assert.Equal(texts.Select(static t => string.Join(' ', t)), found);
        });

    // Greedy: a word stands on a line if it has room there, else it begins the next; a word longer than a line is cut where it ends.
    [Fact]
    public void Wrap_fills_every_line_as_far_as_words_go() =>
        Gen.Select(Gen.String[Gen.Char['a', 'e'], 1, 14].Array[0, 25], Gen.Int[1, 30], Gen.Int[0, 4], Gen.Int[0, 4]).Sample(
            static (words, width, indent, hanging) =>
            {
                List<string> wanted = [];
                string line = "";
                foreach (string word in words)
                {
                    string rest = word;
                    if (line.Length > 0 && line.Length + 1 + rest.Length <= Room())
                    {
                        line += " " + rest;
                        continue;
                    }

                    if (line.Length > 0)
                    {
                        End();
                    }

                    while (rest.Length > Room())
                    {
                        (line, rest) = (rest[..Room()], rest[Room()..]);
                        End();
                    }

                    line = rest;
                }

                if (line.Length > 0 || words.Length == 0)
                {
                    End();
                }

                Assert.Equal(wanted, TextFlow.Wrap(string.Join(' ', words), width, indent, hanging));

                int Margin() => wanted.Count == 0 ? indent : indent + hanging;
                int Room() => Math.Max(1, width - Margin());
                void End()
                {
                    wanted.Add(line.Length == 0 ? "" : new string(' ', Margin()) + line);
                    line = "";
                }
            },
            iter: 300);

    // What steers a terminal or turns the direction of a line is a question mark; all else is as it was.
    [Fact]
    public void Printable_changes_what_steers_and_nothing_else() => Gen.String[Gen.OneOf(
        'a', 'ü', ' ', '\n', '\t', '\u001b', '\u0007', '\u0085', '\u202e', '\u2028', '\u2066', '\u00a0', '\u4e2d', '='), 0,
            20].Sample(static text =>
    {
        string printable = TextFlow.Printable(text);
        Assert.Equal(text.Length, printable.Length);
        for (int i = 0; i < text.Length; i++)
        {
            bool steers = text[i] is < ' ' or (>= '\u007f' and <= '\u009f') or '\u2028' or '\u2029' or (>= '\u202a' and <= '\u202e')
                or (>= '\u2066' and <= '\u2069');
            Assert.Equal(steers ? '?' : text[i], printable[i]);
        }
    });

    // Letters as a reader counts them.
    private static int Width(string text) => new StringInfo(text).LengthInTextElements;
}
