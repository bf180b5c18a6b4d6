using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>The wrapper on a copy of the tree that was never built. Slow: it builds.</summary>
[Trait("Category", "Long")]
public sealed class FirstCallTests : IDisposable
{
    private readonly WorkFolder _folder = new();
    private readonly string _tree;
    private readonly string _script;

    public FirstCallTests()
    {
        _tree = _folder["a tree"]; // with a space
        Directory.CreateDirectory(_tree);
        foreach (string file in new[] { "spurless", "Directory.Build.props", "Directory.Packages.props", "global.json", ".editorconfig" })
        {
            File.Copy(Repository.PathOf(file), Path.Combine(_tree, file));
        }

        foreach (string folder in new[] { ".ci", "src", "demo" })
        {
            WorkFolder.Copy(Repository.PathOf(folder), Path.Combine(_tree, folder), static f => f is not ("bin" or "obj"));
        }

        _script = Path.Combine(_tree, "spurless");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Wrapper_two_first_calls_at_once_then_changes_and_a_broken_source()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");

        Ended[] both = await Task.WhenAll(CallAsync("--version"), CallAsync("--version"));
        Assert.All(both, static e => Assert.True(e.Status == 0, e.Error));
        Assert.All(both, static e => Assert.StartsWith("spurless ", e.Output, StringComparison.Ordinal));
        Assert.Single(both, static e => e.Error.Contains("building", StringComparison.Ordinal)); // the other one waited

        Ended warm = await CallAsync("--version");
        Assert.Equal((0, ""), (warm.Status, warm.Error));

        // A new file is seen even with an old date; it does not compile, so the build fails, and says where.
        string bad = Path.Combine(_tree, "src", "Spurless", "Bad.cs");
        File.WriteAllText(bad, "namespace Spurless;\n\ninternal static class Bad\n{\n    public static int Number => \"text\";\n}\n");
        File.SetLastWriteTimeUtc(bad, new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        for (int call = 0; call < 2; call++) // and again: a failed build is not taken for a good one
        {
            Ended broken = await CallAsync("--version");
            Assert.Equal(3, broken.Status);
            Assert.Contains("Bad.cs(5,", broken.Error, StringComparison.Ordinal);
            Assert.Contains("error CS0029", broken.Error, StringComparison.Ordinal);
            Assert.Empty(broken.Output);
        }

        File.Delete(bad);
        Ended mended = await CallAsync("--version");
        Assert.True(mended.Status == 0, mended.Error);
        Assert.Contains("building", mended.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrapper_too_old_an_SDK_says_which_it_needs()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        using FakePath path = new("#!/bin/bash\n[ \"$1\" = --list-sdks ] && { echo '8.0.100 [/somewhere]'; exit 0; }\nexit 145\n");
        Ended ended = await BuiltProgram.RunAsync(_folder.Path, "bash", [_script, "--version"], path.Environment);
        Assert.Equal(3, ended.Status);
        Assert.Contains("needs the .NET SDK 10.0; this machine has only 8.0.100", ended.Error, StringComparison.Ordinal);
    }

    private Task<Ended> CallAsync(params string[] args) => BuiltProgram.RunAsync(_folder.Path, _script, args);
}
