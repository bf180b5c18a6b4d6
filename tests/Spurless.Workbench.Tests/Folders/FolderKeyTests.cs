using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public sealed class FolderKeyTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-key-").FullName;
    private readonly FolderLock _held;

    public FolderKeyTests()
    {
        Assert.True(FolderLock.TryTake(_folder, out FolderLock? held));
        _held = held!;
    }

    private string KeyFile => Path.Combine(_folder, ".spurless", "serve.key");

    public void Dispose()
    {
        _held.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Of_is_the_same_from_one_run_to_the_next_and_another_for_another_folder()
    {
        string key = FolderKey.Of(_folder);
        Assert.Matches("^[0-9a-f]{32}$", key);
        Assert.Equal(key, FolderKey.Of(_folder));
        Assert.Equal(key, FolderKey.Known(_folder));
        Assert.NotEqual(key, FolderKey.Fresh());
    }

    [Fact]
    public void Of_a_key_that_others_can_read_is_made_anew_for_its_owner_alone()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "It has no such rights.");
#pragma warning disable CA1416 // skipped there
        string key = FolderKey.Of(_folder);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(KeyFile));
        File.SetUnixFileMode(KeyFile, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead);
        Assert.Null(FolderKey.Known(_folder));
        Assert.NotEqual(key, FolderKey.Of(_folder));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(KeyFile));
#pragma warning restore CA1416
    }

    [Theory]
    [InlineData("")]
    [InlineData("short")]
    [InlineData("00000000000000000000000000000000\n")]
    [InlineData("0000000000000000000000000000000G")]
    public void Of_what_is_no_key_is_made_anew(string text)
    {
        FolderKey.Of(_folder);
        File.WriteAllText(KeyFile, text);
        Assert.Null(FolderKey.Known(_folder));
        Assert.Matches("^[0-9a-f]{32}$", FolderKey.Of(_folder));
        Assert.NotNull(FolderKey.Known(_folder));
    }

    [Fact]
    public void Of_a_link_in_its_place_reads_and_writes_nothing_through_it()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        string planted = Path.Combine(_folder, "planted");
        string known = new('a', 32);
        File.WriteAllText(planted, known);
        File.CreateSymbolicLink(KeyFile, planted);
        Assert.Null(FolderKey.Known(_folder));
        Assert.NotEqual(known, FolderKey.Of(_folder));
        Assert.Equal(known, File.ReadAllText(planted));
        Assert.Null(new FileInfo(KeyFile).LinkTarget);
    }
}
