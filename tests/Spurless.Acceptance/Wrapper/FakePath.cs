using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>A PATH with the tools the scripts use and either no dotnet or one made for the test.</summary>
internal sealed class FakePath : IDisposable
{
    private static readonly string[] Tools =
        ["bash", "cat", "dirname", "env", "find", "flock", "grep", "head", "id", "mkdir", "mv", "readlink", "rm", "sed", "sleep", "sort", "touch", "tr", "wc"];

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
            File.WriteAllText(_folder["dotnet"], dotnet);
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(_folder["dotnet"], UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            }
        }
    }

    public IReadOnlyDictionary<string, string?> Environment => new Dictionary<string, string?> { ["PATH"] = _folder.Path };

    public void Dispose() => _folder.Dispose();

    private static string? Find(string tool) => (System.Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator)
        .Select(folder => Path.Combine(folder, tool))
        .FirstOrDefault(File.Exists);
}
