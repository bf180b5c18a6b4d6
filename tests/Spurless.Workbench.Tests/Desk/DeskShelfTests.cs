using System.Globalization;
using System.Text;
using Spurless.Tests.Common;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>
/// Desks of an open folder: kept while nothing changes, made anew when something does, and their studies can be followed and stopped.
/// </summary>
public sealed class DeskShelfTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-desk-").FullName;
    private readonly OpenFolder _folder;
    private readonly DeskShelf _shelf;

    public DeskShelfTests()
    {
        _folder = new OpenFolder(_path, TimeProvider.System);
        _shelf = new DeskShelf(_folder, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Of_keeps_a_desk_until_the_folder_changes_and_offers_what_lies_below_the_file()
    {
        Assert.Null(_shelf.Of("a.site.yaml"));
        DeskFiles files = new();
        Write("filters/parts.circuit.yaml", files["filters/parts.circuit.yaml"]);
        Write("filters/spare.circuit.yaml", files["filters/spare.circuit.yaml"]);
        Write("a.site.yaml", DeskFiles.Site);
        ShelvedDesk first = _shelf.Of("a.site.yaml")!;
        Assert.NotNull(first.Desk);
        Assert.Same(first, _shelf.Of("a.site.yaml"));
        Assert.Contains(first.Desk.Items, static i => i.Id == "0.add.filters/spare.circuit.yaml");
        Write("a.site.yaml", DeskFiles.Site.Replace("site: desk", "site: other", StringComparison.Ordinal));
        Assert.Equal("other (invented)", _shelf.Of("a.site.yaml")!.Desk!.Site.Document.Site);
    }

    [Fact]
    public async Task Of_many_pages_at_once_is_one_desk()
    {
        Write("filters/parts.circuit.yaml", new DeskFiles()["filters/parts.circuit.yaml"]);
        for (int change = 0; change < 5; change++)
        {
            Write("a.site.yaml", DeskFiles.Site + $"# {change}\n");
            ShelvedDesk?[] desks = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(() => _shelf.Of("a.site.yaml"))));
            Assert.NotNull(Assert.Single(desks.Distinct()));
        }
    }

    [Fact]
    public void Of_a_file_with_errors_has_no_desk_and_all_findings()
    {
        Write("bad.site.yaml", "spurless: 1\nsite: bad\nreceivers: []\n");
        ShelvedDesk bad = _shelf.Of("bad.site.yaml")!;
        Assert.Null(bad.Desk);
        Assert.NotEmpty(bad.Findings);
    }

    [Fact]
    public async Task Study_begun_once_is_shared_and_one_that_was_stopped_says_so_and_begins_anew()
    {
        Write("long.site.yaml", Long());
        ShelvedDesk desk = _shelf.Of("long.site.yaml")!;
        DeskStudy study = desk.Study(0, DeskSettings.None);
        Assert.Same(study, desk.Study(0, DeskSettings.None));
        study.Stop();
        DeskOutcome outcome = await study.Outcome;
        Assert.Null(outcome.Findings);
        Assert.StartsWith("Stopped", outcome.Problem, StringComparison.Ordinal);
        DeskStudy again = desk.Study(0, DeskSettings.None);
        Assert.NotSame(study, again);
        again.Stop();
        await again.Outcome;
    }

    [Fact]
    public async Task Study_goes_on_as_long_as_one_page_waits_for_it_and_stops_with_the_last()
    {
        Write("long.site.yaml", Long());
        DeskStudy study = _shelf.Of("long.site.yaml")!.Study(0, DeskSettings.None);
        study.Follow();
        study.Follow();
        study.Leave();
        Assert.False(study.Stopped);
        study.Leave();
        Assert.True(study.Stopped);
        Assert.Null((await study.Outcome).Findings);
    }

    [Fact]
    public async Task Study_that_ends_has_told_that_all_is_done()
    {
        Write("filters/parts.circuit.yaml", new DeskFiles()["filters/parts.circuit.yaml"]);
        Write("a.site.yaml", DeskFiles.Site);
        DeskStudy study = _shelf.Of("a.site.yaml")!.Study(0, DeskSettings.None);
        DeskOutcome outcome = await study.Outcome;
        Assert.Null(outcome.Problem);
        Assert.NotNull(outcome.Findings);
        Assert.Equal(1, study.Fraction);
        Assert.Equal(TimeSpan.Zero, study.Left);
    }

    private void Write(string name, string text) =>
        Assert.Equal(SaveOutcome.Saved, _folder.Session.Save(name, text, _folder.Session.Read(name)?.Version, "test"));

    /// <summary>Two thousand emitters, all strong: a search of seconds, four thousand million vectors.</summary>
    private static string Long()
    {
        StringBuilder text = new(
            "spurless: 1\nsite: long (invented)\nreceivers:\n  - { name: input, frequency: 145.050 MHz, "
                + "channel: 12.5 kHz, noise_figure: 6 dB, iip3: 0 dBm }\nemitters:\n");
        for (int i = 0; i < 2000; i++)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  - {{ name: e{i}, frequency: "
                    + $"{136 + ((((i * 7919L) + 104729) % 27200) * 0.0125):0.0000} MHz, emission: 11K2F3E, level: -41 dBm }}\n");
        }

        return text.Append("search: { orders: 2-7, signals: 3 }\n").ToString();
    }
}
