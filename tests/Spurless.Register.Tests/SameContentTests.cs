using Spurless.Register.Importing;

namespace Spurless.Register.Tests;

/// <summary>What a register says does not depend on how it is handed over: each way must give the content of the plain one.</summary>
public sealed class SameContentTests
{
    public static TheoryData<string> Layouts => ImportTests.Layouts;

    /// <summary>
    /// Checkpoints are for kills alone: one after every row, after every seventh and none give the same records and counts.
    /// </summary>
    [Theory]
    [MemberData(nameof(Layouts))]
    public void Content_does_not_depend_on_how_often_is_committed(string layout)
    {
        using Scratch scratch = new();
        string expected = ImportTests.Make(layout, scratch, 60);
        string? first = null;
        foreach (int rows in (int[])[1_000_000, 7, 1])
        {
            File.Delete(scratch.Database);
            ImportAnswer answer = RegisterImport.Run(new ImportQuestion
            {
                Files = [scratch.Input],
                Database = scratch.Database,
                AsOf = Scratch.Today,
                RowsPerCommit = rows,
            }).Answer!;
            using RegisterStore store = scratch.Open();

            Assert.Equal(expected, Scratch.Counts(answer));
            Assert.Equal(first ??= store.ContentHash(), store.ContentHash());
        }
    }

    /// <summary>Rows have no order: the bulk files are printed from tables. Only of rows alike in all that identifies them the first
    /// counts, and those say the same here.</summary>
    [Fact]
    public void Content_does_not_depend_on_the_order_of_the_rows()
    {
        const string mapping = """
            spurless_columns: 1
            register: invented
            columns: { licence: L, latitude: Lat, longitude: Lon, frequency: { column: F, unit: Hz } }
            """;
        Random random = new(3);
        string[] rows =
        [
            .. Enumerable.Range(0, 400).Select(i => FormattableString.Invariant(
                $"{i / 3},{150_000_000 + (12_500 * random.Next(50))},{50 + random.NextDouble():0.00000},{random.NextDouble():0.00000}")),
            "900,0,50,0.5", "901,160000000,,0.5", "902,160000000,50,181",
        ];
        string? first = null;
        for (int turn = 0; turn < 4; turn++)
        {
            using Scratch scratch = new();
            scratch.Write("a.columns.yaml", mapping);
            scratch.Write("a.csv", "L,F,Lat,Lon\n" + string.Join('\n', rows) + "\n");
            ImportAnswer answer = scratch.Import().Answer!;
            using RegisterStore store = scratch.Open();

            Assert.Equal(400, answer.Accepted);
            Assert.Equal(3, answer.Rejected.Sum(static r => r.Count));
            Assert.Equal(first ??= store.ContentHash(), store.ContentHash());
            random.Shuffle(rows);
        }
    }
}
