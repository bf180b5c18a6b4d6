namespace Spurless.Sites.Documents;

/// <summary>The files beside a document that another document names.</summary>
/// <param name="files">The files beside the document that names it.</param>
/// <param name="document">Path of the named document, relative to that one.</param>
internal sealed class FilesBeside(ISiteFiles files, string document) : ISiteFiles
{
    private readonly string _folder = Path.GetDirectoryName(document) ?? "";

    /// <inheritdoc/>
    public bool Exists(string path) => files.Exists(At(path));

    /// <inheritdoc/>
    public byte[]? Read(string path) => files.Read(At(path));

    /// <inheritdoc/>
    public string NameOf(string path) => files.NameOf(At(path));

    /// <inheritdoc/>
    public string? Folder(string path) => files.Folder(At(path));

    private string At(string path) => Path.Combine(_folder, path);
}
