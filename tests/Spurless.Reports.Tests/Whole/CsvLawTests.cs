using System.Globalization;
using System.Text.Json;
using Spurless.Reports.Tests.Text;

namespace Spurless.Reports.Tests.Whole;

/// <summary>What every table of comma-separated values keeps to, and that it holds what the JSON of the same answer holds.</summary>
public sealed class CsvLawTests
{
    private static readonly string[] _words =
    [
        "made_in", "mixture", "emitters", "because", "tied_with", "name", "what", "who", "effort", "cannot_cure", "from", "quantity",
        "unit", "receiver", "of", "cause", "verdict", "mechanism", "part", "limit", "kind", "passes", "limit_passed", "nearest_emitters",
        "not_offered",
    ];

    public static TheoryData<string> Answers => [.. Answered.Csvs.Keys];

    [Theory]
    [MemberData(nameof(Answers))]
    public void Head_names_each_column_once_and_every_row_has_all_of_them(string answer)
    {
        List<List<string>> rows = WrittenText.Csv(Answered.CsvOf(answer));
        Assert.True(rows.Count > 1, "an answer without a row proves nothing");
        Assert.Equal(rows[0].Count, rows[0].Distinct().Count());
        Assert.All(rows[0], static h => Assert.Matches("^[a-z][a-z0-9_]*$", h));
        Assert.All(rows, r => Assert.Equal(rows[0].Count, r.Count));
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void No_cell_is_a_formula_and_none_a_figure_that_is_none(string answer)
    {
        string csv = Answered.CsvOf(answer);
        Assert.DoesNotContain('\r', csv);
        foreach (string cell in WrittenText.Csv(csv).Skip(1).SelectMany(static r => r))
        {
            WrittenText.NoFormula(cell);
            WrittenText.Figures(cell);
        }
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Columns_of_figures_hold_plain_numbers_with_a_point_or_nothing(string answer)
    {
        List<List<string>> rows = WrittenText.Csv(Answered.CsvOf(answer));
        for (int column = 0; column < rows[0].Count; column++)
        {
            if (_words.Contains(rows[0][column]))
            {
                continue;
            }

            foreach (List<string> row in rows.Skip(1).Where(r => r[column].Length > 0))
            {
                Assert.True(
                    double.TryParse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture, out double figure)
                        && double.IsFinite(figure),
                    $"{rows[0][column]}: '{row[column]}'");
            }
        }
    }

    /// <summary>Where a row of the table is an object of a list, each column that has the object's key has its figure.</summary>
    [Theory]
    [InlineData("study", "receivers.products")]
    [InlineData("cure", "receivers.cures")]
    [InlineData("plan", "channels")]
    [InlineData("locate", "receivers.hypotheses")]
    [InlineData("stress", "parts")]
    [InlineData("mix", "products")]
    [InlineData("response", "points")]
    public void Rows_hold_the_figures_of_the_json(string answer, string list)
    {
        List<List<string>> rows = WrittenText.Csv(Answered.CsvOf(answer));
        JsonElement[] objects = [.. Descend(JsonDocument.Parse(Answered.JsonOf(answer)).RootElement, list.Split('.'))];
        Assert.True(rows.Count > objects.Length, "the table has a row for each");
        int shared = 0;
        foreach ((JsonElement of, List<string> row) in objects.Zip(rows.Skip(1)))
        {
            for (int column = 0; column < row.Count; column++)
            {
                if (!of.TryGetProperty(rows[0][column], out JsonElement value))
                {
                    continue;
                }

                shared++;
                switch (value.ValueKind)
                {
                    case JsonValueKind.Null:
                        Assert.Equal("", row[column]);
                        break;
                    case JsonValueKind.Number:
                        Assert.Equal(value.GetDouble(), double.Parse(row[column], CultureInfo.InvariantCulture), 0.51e-6);
                        break;
                    case JsonValueKind.String:
                        Assert.Equal(value.GetString(), row[column].StartsWith("'=", StringComparison.Ordinal) ? row[column][1..]
                            : row[column]);
                        break;
                    case JsonValueKind.True or JsonValueKind.False:
                        Assert.Equal(value.GetBoolean() ? "true" : "false", row[column]);
                        break;
                }
            }
        }

        Assert.True(shared >= objects.Length, "no column has the name of a key");
    }

    private static IEnumerable<JsonElement> Descend(JsonElement at, string[] names) => names.Length == 0
        ? [at]
        : at.GetProperty(names[0]).EnumerateArray().SelectMany(e => names.Length == 1 ? [e] : Descend(e, names[1..]));
}
