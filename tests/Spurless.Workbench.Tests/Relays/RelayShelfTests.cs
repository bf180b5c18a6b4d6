using Spurless.Sites.Documents.Bypasses;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Relays;

namespace Spurless.Workbench.Tests.Relays;

/// <summary>The bypass relays of a folder: each as it stands on disk, read once as long as nothing changes.</summary>
public sealed class RelayShelfTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-relays-").FullName;
    private readonly OpenFolder _folder;
    private readonly RelayShelf _shelf;

    public RelayShelfTests()
    {
        File.WriteAllText(Path.Combine(_path, "a.bypass.yaml"), BypassTemplate.Text);
        File.WriteAllText(Path.Combine(_path, "other.site.yaml"), "spurless: 1\n");
        _folder = new OpenFolder(_path, TimeProvider.System);
        _shelf = new RelayShelf(_folder);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Of_is_kept_until_anything_in_the_folder_changes()
    {
        Assert.Equal(["a.bypass.yaml"], _shelf.Relays);
        ShelvedRelay first = _shelf.Of("a.bypass.yaml")!;
        Assert.Equal(50, first.Bypass!.Document.PowerW);
        Assert.Same(first, _shelf.Of("a.bypass.yaml"));
        Assert.Null(_folder.Set("a.bypass.yaml", "transmitter.power", "25 W", "50 W", "power").Problem);
        Assert.Equal(25, _shelf.Of("a.bypass.yaml")!.Bypass!.Document.PowerW);
        _folder.Session.Undo();
        Assert.Equal(50, _shelf.Of("a.bypass.yaml")!.Bypass!.Document.PowerW);
    }

    [Fact]
    public void Of_a_relay_with_an_error_has_no_model_and_all_findings()
    {
        string broken = BypassTemplate.Text.Replace("power: 50 W", "power: 50", StringComparison.Ordinal)
            .Replace("supply: 12 V", "supply: much", StringComparison.Ordinal);
        Assert.Equal(SaveOutcome.Saved, _folder.Session.Save("b.bypass.yaml", broken, null, "broken"));
        ShelvedRelay relay = _shelf.Of("b.bypass.yaml")!;
        Assert.Null(relay.Bypass);
        Assert.Equal(2, relay.Findings.Count);
        Assert.All(relay.Findings, static f => Assert.Equal("b.bypass.yaml", f.File));
    }

    [Theory]
    [InlineData("nowhere.bypass.yaml")]
    [InlineData("other.site.yaml")]
    [InlineData("../a.bypass.yaml")]
    public void Of_what_is_no_relay_of_the_folder_is_nothing(string name) => Assert.Null(_shelf.Of(name));
}
