using System.Text;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Cures;

/// <summary>The files beside a site file and some that are not written yet.</summary>
internal sealed class FilesAndMore(ISiteFiles files, IReadOnlyDictionary<string, string> more) : ISiteFiles
{
    public bool Exists(string path) => more.ContainsKey(path) || files.Exists(path);

    public byte[]? Read(string path) => more.TryGetValue(path, out string? text) ? Encoding.UTF8.GetBytes(text) : files.Read(path);

    public string NameOf(string path) => files.NameOf(path);

    public string? Folder(string path) => files.Folder(path);
}
