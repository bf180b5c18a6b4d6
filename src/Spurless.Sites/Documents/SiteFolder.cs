using Spurless.Files.Yaml;
using Spurless.Sites.Storage;

namespace Spurless.Sites.Documents;

/// <summary>The files beside a site file, on disk.</summary>
/// <param name="siteFile">The site file's path as the user gave it.</param>
public sealed class SiteFolder(string siteFile) : ISiteFiles
{
    private readonly string _folder = Path.GetDirectoryName(siteFile) ?? "";

    /// <inheritdoc/>
    public bool Exists(string path) => IsPath(path) && FileFacts.IsFile(NameOf(path));

    /// <inheritdoc/>
    public byte[]? Read(string path) => IsPath(path) ? ReadFile(NameOf(path)) : null;

    /// <inheritdoc/>
    public string NameOf(string path) => Path.Combine(_folder, path);

    /// <inheritdoc/>
    public string? Folder(string path) => IsPath(path) && Directory.Exists(NameOf(path)) ? NameOf(path) : null;

    /// <summary>
    /// The bytes of any file, cut one byte over the limit of 10 MB; null where it is not there, cannot be read, or is no regular file: a
    /// pipe, a device or a socket may never come to an end.
    /// </summary>
    public static byte[]? ReadFile(string path)
    {
        if (IsPath(path) && File.Exists(path) && !FileFacts.IsFile(path))
        {
            return null;
        }

        try
        {
            using FileStream stream = File.OpenRead(path);
            using MemoryStream memory = new();
            byte[] block = new byte[65536];
            int read;
            while (memory.Length <= TextDecoder.MaximumBytes
                && (read = stream.Read(block, 0, (int)Math.Min(block.Length, TextDecoder.MaximumBytes + 1 - memory.Length))) > 0)
            {
                memory.Write(block, 0, read);
            }

            return memory.ToArray();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }

    private static bool IsPath(string path) => path.Length > 0 && !path.Contains('\0', StringComparison.Ordinal);
}
