namespace Spurless.Sites.Documents;

/// <summary>The files beside a site file.</summary>
public interface ISiteFiles
{
    /// <summary>Whether there is a file of that path.</summary>
    /// <param name="path">As written in the site file: relative to it, or absolute.</param>
    bool Exists(string path);

    /// <summary>The bytes of a file, no more than one over 10 MB; null where it is not there or cannot be read.</summary>
    /// <inheritdoc cref="Exists"/>
    byte[]? Read(string path);

    /// <summary>The file's name for messages and results, as the user would write it where he stands.</summary>
    /// <inheritdoc cref="Exists"/>
    string NameOf(string path);

    /// <summary>The place on disk of a folder beside the site file; null where there is none.</summary>
    /// <inheritdoc cref="Exists"/>
    string? Folder(string path) => null;
}
