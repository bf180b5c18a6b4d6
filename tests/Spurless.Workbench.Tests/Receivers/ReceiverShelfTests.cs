using Spurless.Tests.Common.Fixtures;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Receivers;

namespace Spurless.Workbench.Tests.Receivers;

/// <summary>Readings typed into the invented demo's measurements of a receiver.</summary>
public sealed class ReceiverShelfTests : IDisposable
{
    private const string Name = "quernmoss.receiver.yaml";
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-receiver-").FullName;
    private readonly OpenFolder _folder;
    private readonly ReceiverShelf _shelf;

    public ReceiverShelfTests()
    {
        string demo = Path.GetDirectoryName(DemoSites.PathOf("quernmoss.site.yaml"))!;
        foreach (string file in Directory.EnumerateFiles(demo, "quernmoss*.yaml"))
        {
            File.Copy(file, Path.Combine(_path, Path.GetFileName(file)));
        }

        Directory.CreateDirectory(Path.Combine(_path, "filters"));
        foreach (string file in Directory.EnumerateFiles(Path.Combine(demo, "filters")))
        {
            File.Copy(file, Path.Combine(_path, "filters", Path.GetFileName(file)));
        }

        _folder = new OpenFolder(_path, TimeProvider.System);
        _shelf = new ReceiverShelf(_folder);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    private string Text => File.ReadAllText(Path.Combine(_path, Name));

    private double Iip3 => _shelf.Of(Name)!.Answer!.Intercepts.First(static i => i.Order == 3 && i.CloseTones).Figure.Value;

    [Fact]
    public void Of_lists_every_reading_with_what_stands_there()
    {
        IReadOnlyList<ListedReading> readings = ReceiverReadings.Of(Text);
        Assert.Equal(
            ["sensitivity", "two_tone", "two_tone", "two_tone", "two_tone", "response", "response", "blocking", "product"],
            readings.Select(static r => r.Kind.Kind));
        Assert.Equal(
            ["3", "[145.1 MHz, 145.15 MHz]", "-44.5 dBm", "", "", "0.7 dB"], readings[1].Fields.Select(static f => f.Text));
        Assert.Equal("{ regional paging: 1, waterworks base: -2 }", readings[8].Fields[2].Text);
    }

    // IIP3 = (3 P - N)/2: two dB more of each tone are three of the intercept. Every comment stays.
    [Fact]
    public void Set_of_a_level_is_in_the_file_and_moves_the_intercept_by_the_law()
    {
        string before = Text;
        double was = Iip3;
        Assert.True(_shelf.Set(Name, "measured[1].two_tone.level", "-42.5 dBm", "level").Ok);
        Assert.Equal(before.Replace("level: -44.5 dBm", "level: -42.5 dBm", StringComparison.Ordinal), Text);
        Assert.InRange(Iip3 - was, 0.1, 3.0 + 1e-9); // of several readings of one order the mean counts
    }

    [Fact]
    public void Set_that_would_be_an_error_is_refused_in_words_and_the_file_stays()
    {
        string before = Text;
        FieldOutcome outcome = _shelf.Set(Name, "measured[1].two_tone.level", "-42.5", "level");
        Assert.Equal("'-42.5' has no unit; write -42.5 dBm", outcome.Problem);
        FieldOutcome order = _shelf.Set(Name, "measured[1].two_tone.order", "", "order");
        Assert.NotNull(order.Problem);
        Assert.Equal(before, Text);
    }

    [Fact]
    public void Add_writes_a_reading_behind_the_last_and_remove_takes_it_away()
    {
        string before = Text;
        Assert.True(_shelf.Add(Name, "response", [("at", "100 MHz"), ("level", "-50 dBm"), ("plus_minus", "")], "a reading").Ok);
        ListedReading last = ReceiverReadings.Of(Text)[^1];
        Assert.Equal(["100 MHz", "-50 dBm", ""], last.Fields.Select(static f => f.Text));
        Assert.Contains(_shelf.Of(Name)!.Answer!.Responses, static r => r.FrequencyHz == 100_000_000);
        Assert.True(_shelf.Remove(Name, last.Item, "taken away").Ok);
        Assert.Equal(before.TrimEnd(), Text.TrimEnd());
    }

    [Fact]
    public void Add_of_half_a_reading_is_refused_with_what_is_missing()
    {
        string before = Text;
        string? half = _shelf.Add(Name, "response", [("at", "100 MHz"), ("level", " ")], "a reading").Problem;
        Assert.Contains("level", half, StringComparison.Ordinal);
        string? none = _shelf.Add(Name, "response", [("at", ""), ("level", "")], "a reading").Problem;
        Assert.Equal("nothing was typed; type what was read", none);
        Assert.Equal(before, Text);
    }

    [Fact]
    public void Of_another_kind_of_file_is_nothing() => Assert.Null(_shelf.Of("quernmoss.site.yaml"));
}
