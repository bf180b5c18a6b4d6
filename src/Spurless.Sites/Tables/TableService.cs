using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tables;

/// <summary>
/// Reads somebody's table of transmitters as emitters of a site: what each column is, in which unit, with which decimal sign, and row by
/// row what can be written and what cannot. It takes no time: nothing to watch and nothing to stop.
/// </summary>
public static class TableService
{
    private const int Samples = 3;

    /// <summary>Answers a question.</summary>
    public static Outcome<TableAnswer> Ask(TableQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> rows = TableText.Read(question.Text, out char separator);
        int width = rows.Count == 0 ? 0 : rows.Max(static r => r.Cells.Count);
        if (rows.Count == 0)
        {
            return new Refusal("the table is empty", "give one row a line, its cells separated by commas, semicolons or tabs");
        }

        if (width > CsvRecords.MaximumColumns)
        {
            return new Refusal(
                FormattableString.Invariant($"the table has {width} columns, and at most {CsvRecords.MaximumColumns} are read"),
                "keep the columns that say something of a transmitter");
        }

        bool hasHead = question.HasHead ?? TableColumns.IsHead(rows[0].Cells);
        IReadOnlyList<string> heads = hasHead ? rows[0].Cells : [];
        List<(int Line, IReadOnlyList<string> Cells)> body = [.. rows.Skip(hasHead ? 1 : 0)];
        bool comma = question.DecimalComma ?? TableColumns.DecimalComma(heads, body, separator);
        TableColumn[] columns =
        [
            .. TableColumns.Recognise(heads, body, width, comma, question.Columns, Samples),
        ];
        Reading reading = new(question, columns, comma, separator);
        foreach ((int line, IReadOnlyList<string> cells) in body)
        {
            reading.Add(line, cells);
        }

        return reading.Answer(hasHead);
    }

    /// <summary>Rows on their way to emitters.</summary>
    private sealed class Reading(TableQuestion question, TableColumn[] columns, bool comma, char separator)
    {
        private readonly List<TableRow> _rows = [];
        private readonly List<LeftOut> _skipped = [];
        private readonly List<LeftOut> _cells = [];
        private readonly Dictionary<string, long> _names = new(question.Taken, StringComparer.Ordinal);
        private int _widths;

        public void Add(int line, IReadOnlyList<string> cells)
        {
            List<(string Key, string Value)> values = [];
            List<LeftOut> lost = [];
            for (int i = 0; i < Math.Min(cells.Count, columns.Length); i++)
            {
                if (columns[i].Key is not { } key || TableCells.IsBlank(cells[i]))
                {
                    continue;
                }

                Refusal? why = TableCells.Read(key, columns[i].Unit, cells[i], comma, out string value);
                if (why is null)
                {
                    values.Add((key, value));
                }
                else if (key == "frequency")
                {
                    _skipped.Add(new LeftOut(line, null, why));
                    return;
                }
                else
                {
                    lost.Add(new LeftOut(line, columns[i].Head, why));
                }
            }

            Take(line, values, lost);
        }

        public TableAnswer Answer(bool hasHead) => new()
        {
            Question = question,
            Separator = separator,
            HasHead = hasHead,
            DecimalComma = comma,
            Columns = columns,
            Rows = _rows,
            Skipped = _skipped,
            Cells = _cells,
            WidthAssumed = _widths,
        };

        private void Take(int line, List<(string Key, string Value)> values, List<LeftOut> lost)
        {
            string? frequency = values.Find(static v => v.Key == "frequency").Value;
            if (frequency is null || !Frequency.TryParsePositive(frequency, out Frequency carrier, out _))
            {
                Skip(line, columns.Any(static c => c.Key == "frequency") ? "the row has no frequency"
                    : "no column is taken for the frequency", "say which column holds the carrier");
                return;
            }

            bool assumed = values.TrueForAll(static v => v.Key is not ("emission" or "bandwidth"));
            if (values.Exists(static v => v.Key == "emission"))
            {
                values.RemoveAll(static v => v.Key == "bandwidth"); // the designator holds it
            }

            if (assumed && string.IsNullOrWhiteSpace(question.Width))
            {
                Skip(line, "the row states neither an emission nor a width", "say which width such rows have");
                return;
            }

            string? name = NameOf(values, carrier.Hertz, frequency);
            if (name is null)
            {
                string called = Files.Quote.Short(values.Find(static v => v.Key == "name").Value ?? frequency);
                Skip(line, $"'{called}' on {frequency} is there already", "take it out of the table, or give it another name");
                return;
            }

            values.RemoveAll(static v => v.Key == "name");
            values.Insert(0, ("name", name));
            if (assumed)
            {
                values.Insert(2, ("bandwidth", question.Width.Trim()));
            }

            values = [.. values.OrderBy(static v => Order(v.Key))];
            if (_names.Count >= SiteReader.MaximumEmitters)
            {
                Skip(line, FormattableString.Invariant($"a site has at most {SiteReader.MaximumEmitters} emitters"),
                    "keep those that are near or strong");
                return;
            }

            TableRow row = new(line, values);
            if (Wrong(row) is { } why)
            {
                _skipped.Add(new LeftOut(line, null, why));
                return;
            }

            _names[name] = carrier.Hertz;
            _rows.Add(row);
            _cells.AddRange(lost);
            _widths += assumed ? 1 : 0;
        }

        private void Skip(int line, string what, string remedy) => _skipped.Add(new LeftOut(line, null, new Refusal(what, remedy)));

        // One holder with several carriers has them told apart by frequency; the same one twice is one.
        private string? NameOf(List<(string Key, string Value)> values, long hertz, string frequency)
        {
            string said = values.Find(static v => v.Key == "name").Value ?? $"transmitter on {frequency}";
            return !_names.TryGetValue(said, out long other) ? said
                : other == hertz ? null
                : _names.ContainsKey($"{said} {frequency}") ? null : $"{said} {frequency}";
        }

        private static int Order(string key)
        {
            for (int i = 0; i < TableKeys.All.Count; i++)
            {
                if (TableKeys.All[i].Key == key)
                {
                    return i;
                }
            }

            return int.MaxValue;
        }

        // What the site's reader would say of it: the same words as in the file.
        private static Refusal? Wrong(TableRow row)
        {
            DiagnosticBag findings = new();
            if (CsvTable.Read(TableText.Write([row]), "", findings) is { } table
                && CsvRecords.Of(table, findings) is [YamlMapping mapping])
            {
                _ = EmitterShapes.Emitter.TryRead(mapping, findings, out _);
            }

            Diagnostic? first = findings.InOrder().FirstOrDefault(static f => f.Severity == Severity.Error);
            return first is null ? null : new Refusal(first.What, first.Remedy);
        }
    }
}
