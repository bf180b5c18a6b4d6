using Spurless.Sites.Tables;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>How a table was taken once is how the next one with its head is taken.</summary>
public sealed class TableMemoryTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-tables-").FullName;
    private readonly OpenFolder _folder;

    public TableMemoryTests() => _folder = new OpenFolder(_path, TimeProvider.System);

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    /// <summary>Taken by hand once, by memory the second time: the same emitters from the same text.</summary>
    [Theory]
    [InlineData("who;where;how strong\nalder;161,350;-30\n", "MHz", true)]
    [InlineData("who;where;how strong\nalder;161350;-30\n", "kHz", false)]
    [InlineData("who;where;how strong\nalder;161.350,0;-30\n", "kHz", true)]
    public void Of_a_table_taken_once_takes_the_next_alike(string text, string unit, bool comma)
    {
        TableAnswer first = Ask(text, new ColumnChoice("frequency", unit), comma);
        TableMemory.Keep(_folder, first);
        RememberedTable known = TableMemory.Of(_folder, ["WHO", "Where", "how strong"])!;
        TableAnswer again = TableService.Ask(new TableQuestion
        {
            Text = text,
            Columns = known.Columns,
            HasHead = true,
            DecimalComma = known.DecimalComma,
            Width = known.Width,
        }).Answer!;
        Assert.NotEmpty(first.Rows);
        Assert.Equal(first.Native, again.Native);
    }

    [Fact]
    public void Of_another_head_is_nothing()
    {
        TableMemory.Keep(_folder, Ask("who;where;how strong\nalder;161.35;-30\n", new("frequency", "MHz"), false));
        Assert.Null(TableMemory.Of(_folder, ["who", "where"]));
        Assert.Null(TableMemory.Of(_folder, ["who", "where", "how loud"]));
        Assert.Null(TableMemory.Of(_folder, []));
    }

    [Fact]
    public void Keep_the_same_head_again_takes_the_place_of_the_one_before()
    {
        TableMemory.Keep(_folder, Ask("who;where;how strong\nalder;161.35;-30\n", new("frequency", "MHz"), false));
        TableMemory.Keep(_folder, Ask("Who;Where;How strong\nalder;161350;-30\n", new("frequency", "kHz"), false));
        Assert.Equal("kHz", TableMemory.Of(_folder, ["who", "where", "how strong"])!.Columns[1].Unit);
    }

    [Fact]
    public void Keep_holds_the_latest_twenty()
    {
        for (int i = 0; i < 23; i++)
        {
            TableMemory.Keep(_folder, Ask($"who;where;head {i}\nalder;161.35;-30\n", new("frequency", "MHz"), false));
        }

        for (int i = 0; i < 23; i++)
        {
            Assert.Equal(i >= 3, TableMemory.Of(_folder, ["who", "where", $"head {i}"]) is not null);
        }
    }

    [Fact]
    public void Keep_a_table_without_a_head_is_not_known_again()
    {
        TableMemory.Keep(_folder, TableService.Ask(new TableQuestion { Text = "alder;161.35 MHz;-30 dBm\n", HasHead = false }).Answer!);
        Assert.False(Directory.Exists(Path.Combine(_path, ".spurless")));
    }

    private static TableAnswer Ask(string text, ColumnChoice frequency, bool comma) => TableService.Ask(new TableQuestion
    {
        Text = text,
        Columns = [new("name", null), frequency, new("level", "dBm")],
        HasHead = true,
        DecimalComma = comma,
    }).Answer!;
}
