using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>The files people wrote: what git would hold of source, tests and documents.</summary>
internal static class SourceText
{
    private static readonly string[] Folders = ["src", "tests", "bench", "docs", "demo", ".ci", ".github"];

    private static readonly HashSet<string> NotOurs = ["bin", "obj", "TestResults", "artifacts", "BenchmarkDotNet.Artifacts"];

    /// <summary>Paths from the root, with slashes, of files whose names end so, in the folders of the house and at its root.</summary>
    public static IEnumerable<string> Files(params string[] endings) => Folders
        .SelectMany(static f => Under(Repository.PathOf(f)))
        .Concat(Directory.EnumerateFiles(Repository.Root))
        .Where(f => endings.Any(e => f.EndsWith(e, StringComparison.Ordinal)))
        .Select(static f => Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    /// <summary>The lines of such a file.</summary>
    public static string[] Lines(string file) => File.ReadAllLines(Repository.PathOf(file));

    private static IEnumerable<string> Under(string folder) => !Directory.Exists(folder)
        ? []
        : Directory.EnumerateFiles(folder).Concat(
            Directory.EnumerateDirectories(folder).Where(static d => !NotOurs.Contains(Path.GetFileName(d))).SelectMany(Under));
}
