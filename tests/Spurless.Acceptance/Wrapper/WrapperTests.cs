using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>The script a user calls, on the built tree (<c>./test</c> has built it).</summary>
public class WrapperTests
{
    private static readonly string Script = Repository.PathOf("spurless");

    [Fact]
    public async Task Wrapper_from_another_folder_works_on_the_files_of_that_folder()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        using WorkFolder folder = new();
        Ended ended = await BuiltProgram.RunAsync(folder.Path, Script, ["mix", "145.05", "--of", "160.525, 466.1", "--out", "here.txt"]);
        Assert.True(ended.Status == 0, ended.Error);
        Assert.Contains("466.1000 - 2 x 160.5250 = 145.0500", File.ReadAllText(folder["here.txt"]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrapper_through_links_finds_its_tree()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        using WorkFolder folder = new();
        Directory.CreateDirectory(folder["a folder"]);
        File.CreateSymbolicLink(folder["a folder/spurless"], Script);
        File.CreateSymbolicLink(folder["s"], "a folder/spurless"); // relative, to a link with a space in its path
        Ended ended = await BuiltProgram.RunAsync(folder.Path, folder["s"], ["--version"]);
        Assert.True(ended.Status == 0, ended.Error);
        Assert.StartsWith("spurless ", ended.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrapper_hands_on_the_status()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        Ended ended = await BuiltProgram.RunAsync(Path.GetTempPath(), Script, ["nonsense"]);
        Assert.Equal(2, ended.Status);
    }

    [Fact]
    public async Task Wrapper_without_dotnet_says_which_and_how_to_get_it()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        using FakePath path = new(null);
        Ended ended = await BuiltProgram.RunAsync(Path.GetTempPath(), "bash", [Script, "--version"], path.Environment);
        Assert.Equal(3, ended.Status);
        Assert.Contains("needs the .NET SDK 10.0; there is no dotnet on this machine", ended.Error, StringComparison.Ordinal);
        Assert.Contains("https://dotnet.microsoft.com/download", ended.Error, StringComparison.Ordinal);
    }
}
