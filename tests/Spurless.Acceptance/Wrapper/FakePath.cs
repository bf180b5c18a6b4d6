using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>A PATH with the tools the scripts use and either no dotnet or one made for the test.</summary>
internal sealed class FakePath : IDisposable
{
    private static readonly string[] Tools =
    [
        "bash", "cat", "cksum", "cp",
        "dirname", "env", "find", "flock", "grep", "head", "id", "mkdir", "mv", "readlink", "rm", "sed", "sleep",
        "sort", "tail", "timeout",
        "touch", "tr", "uname", "wc", "xargs",
    ];

    private readonly WorkFolder _folder = new();

    /// <param name="dotnet">The text of a script that plays dotnet, or null for none.</param>
    public FakePath(string? dotnet)
    {
        foreach (string tool in Tools)
        {
            if (Find(tool) is { } real)
            {
                File.CreateSymbolicLink(_folder[tool], real);
            }
        }

        if (dotnet is not null)
        {
            Add("dotnet", dotnet);
        }
    }

    /// <summary>A tool played by a script, in place of the machine's own.</summary>
    public void Add(string tool, string script)
    {
        File.Delete(_folder[tool]); // a link to the real one
        File.WriteAllText(_folder[tool], script);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(_folder[tool], UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Takes a tool away, as on a machine that has none.</summary>
    public void Remove(string tool) => File.Delete(_folder[tool]);

    public IReadOnlyDictionary<string, string?> Environment => new Dictionary<string, string?> { ["PATH"] = _folder.Path };

    public void Dispose() => _folder.Dispose();

    private static string? Find(string tool) => (System.Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator)
        .Select(folder => Path.Combine(folder, tool))
        .FirstOrDefault(File.Exists);
}
