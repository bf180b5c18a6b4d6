using Spurless.Sites.Documents;

namespace Spurless.Fuzz.Readers;

/// <summary>The files beside an input, in memory.</summary>
/// <param name="files">Their names and bytes.</param>
internal sealed class FilesAtHand(IReadOnlyDictionary<string, byte[]> files) : ISiteFiles
{
    /// <summary>The filters of the demonstration.</summary>
    public static FilesAtHand Demo { get; } = new(Directory.GetFiles(Places.Of("demo", "filters"))
        .Append(Places.Of("tests", "data", "site", "bad", "table.csv"))
        .ToDictionary(static f => Path.GetFileName(Path.GetDirectoryName(f)!) == "filters" ? "filters/" + Path.GetFileName(f)
            : Path.GetFileName(f), File.ReadAllBytes, StringComparer.Ordinal));

    public bool Exists(string path) => files.ContainsKey(path);

    public byte[]? Read(string path) => files.GetValueOrDefault(path);

    public string NameOf(string path) => path;
}
