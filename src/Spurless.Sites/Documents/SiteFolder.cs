using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents;

/// <summary>The files beside a site file, on disk.</summary>
/// <param name="siteFile">The site file's path as the user gave it.</param>
public sealed class SiteFolder(string siteFile) : ISiteFiles
{
    private readonly string _folder = Path.GetDirectoryName(siteFile) ?? "";

    /// <inheritdoc/>
    public bool Exists(string path) => IsPath(path) && File.Exists(NameOf(path));

    /// <inheritdoc/>
    public byte[]? Read(string path) => IsPath(path) ? ReadFile(NameOf(path)) : null;

    /// <inheritdoc/>
    public string NameOf(string path) => Path.Combine(_folder, path);

    /// <summary>The bytes of any file, cut one byte over the limit of 10 MB; null where it is not there or cannot be read.</summary>
    public static byte[]? ReadFile(string path)
    {
        try
        {
            using FileStream stream = File.OpenRead(path);
            using MemoryStream memory = new();
            byte[] block = new byte[65536];
            int read;
            while (memory.Length <= TextDecoder.MaximumBytes && (read = stream.Read(block, 0, (int)Math.Min(block.Length, TextDecoder.MaximumBytes + 1 - memory.Length))) > 0)
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
