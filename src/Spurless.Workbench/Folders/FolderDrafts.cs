using System.Text.Json;
using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>
/// What was typed and is in no file of the user's yet, kept in the hidden folder <c>.spurless</c> beside his files, so that it outlives a
/// reload, a lost connection and the program itself. A draft that cannot be kept is no fault: the page still has it.
/// </summary>
public sealed class FolderDrafts
{
    private const long Largest = 1024 * 1024;

    private readonly string _folder;

    /// <param name="paths">The names of the folder.</param>
    public FolderDrafts(FolderPaths paths)
    {
        ArgumentNullException.ThrowIfNull(paths);
        _folder = Path.Combine(paths.Root, ".spurless", "drafts");
    }

    /// <summary>A draft as it was kept; null where there is none or it cannot be read.</summary>
    /// <param name="name">Its name: letters, digits and hyphens.</param>
    public T? Read<T>(string name)
        where T : class
    {
        try
        {
            FileInfo file = new(PathOf(name));
            return file.Exists && file.Length <= Largest ? JsonSerializer.Deserialize<T>(File.ReadAllBytes(file.FullName)) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException)
        {
            return null;
        }
    }

    /// <summary>Keeps a draft in place of the one before.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="draft">What is kept.</param>
    /// <returns>Whether it could be.</returns>
    public bool Keep<T>(string name, T draft)
        where T : class
    {
        string path = PathOf(name);
        try
        {
            Directory.CreateDirectory(_folder);
            WholeFile.Write(path, to => JsonSerializer.Serialize(to, draft));
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Forgets a draft; the hidden folders go with the last one.</summary>
    /// <param name="name">Its name.</param>
    public void Forget(string name)
    {
        try
        {
            File.Delete(PathOf(name));
            foreach (string folder in (string[])[_folder, Path.GetDirectoryName(_folder)!])
            {
                if (Directory.Exists(folder) && !Directory.EnumerateFileSystemEntries(folder).Any())
                {
                    Directory.Delete(folder);
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // It stays, and is offered once more.
        }
    }

    private string PathOf(string name) => name.Length > 0 && name.All(static c => char.IsAsciiLetterOrDigit(c) || c == '-')
        ? Path.Combine(_folder, name + ".json")
        : throw new ArgumentException($"'{name}' is no name of a draft", nameof(name));
}
