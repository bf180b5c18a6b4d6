using Spurless.Files.Diagnostics;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public sealed class FirstSiteTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-first-").FullName;
    private readonly OpenFolder _folder;

    public FirstSiteTests() => _folder = new OpenFolder(_path, TimeProvider.System);

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void ToText_of_full_answers_reads_without_an_error()
    {
        FirstSite first = new()
        {
            Site = "Hill: \"north\" # 1",
            Frequency = "145.050 MHz",
            Channel = "12.5 kHz",
            Heard = ["data bursts"],
            Antenna = "3 dBd",
            Emitters =
            [
                new("pager, dale", "153.350 MHz", "16K0F1D", "-25 dBm", "", "", ""),
                new("", "160.5125 MHz", "", "", "25 W", "6 dBd", "2.4 km"),
                new("", "", "", "", "", "", ""),
            ],
        };
        FolderSite site = _folder.SiteOf(new FolderText(first.FileName, first.ToText(), ""));
        Assert.Empty(site.Errors.Select(static e => e.ToString()));
        Assert.Equal("hill-north-1.site.yaml", first.FileName);
        Assert.Equal(first.Site, site.Site!.Document.Site);
        Assert.Equal(["pager, dale", "transmitter 2"], site.Site.Document.Emitters.Select(static e => e.Name));
        Assert.Equal(25, site.Site.Document.Emitters[1].Power!.Value.Watts, 6);
    }

    [Fact]
    public void ToText_of_faulty_answers_gives_the_reader_s_own_words_at_the_field()
    {
        FirstSite first = new()
        {
            Site = "x",
            Frequency = "145.050",
            Channel = "12.5 kHz",
            Emitters = [new("taxi", "161.650", "", "", "", "", "")],
        };
        FolderSite site = _folder.SiteOf(new FolderText("x.site.yaml", first.ToText(), ""));
        Diagnostic[] errors = [.. site.Errors];
        Assert.Equal(2, errors.Length);
        Assert.Contains(errors, static e => e.What.Contains("'161.650' has no unit", StringComparison.Ordinal));
        SiteFields fields = SiteFields.Of(site);
        Assert.Equal(["receivers[0].frequency", "emitters[0].frequency"], errors.Select(fields.FieldOf));
    }

    [Fact]
    public void ToText_of_nothing_names_what_is_missing()
    {
        FolderSite site = _folder.SiteOf(new FolderText("x.site.yaml", new FirstSite().ToText(), ""));
        Assert.NotEmpty(site.Errors);
    }
}
