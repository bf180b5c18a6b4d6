using Spurless.Circuits.Documents;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Checking;

/// <summary>Opens the files that a document names.</summary>
public static class FolderOpener
{
    /// <summary>An opener of paths relative to a document's own folder.</summary>
    /// <param name="document">The document's path.</param>
    public static FileOpener Beside(string document) => Beside(new SiteFolder(document));

    /// <summary>An opener of paths relative to a document.</summary>
    /// <param name="files">The files beside it.</param>
    public static FileOpener Beside(ISiteFiles files) => new Opener(files).Open;

    private sealed class Opener(ISiteFiles files)
    {
        public Stream? Open(string path, out string problem)
        {
            problem = "";
            if (files.Read(path) is { } bytes)
            {
                return new MemoryStream(bytes);
            }

            problem = files.Exists(path)
                ? $"the file '{path}' cannot be read; see to its permissions"
                : $"there is no file '{path}'; write a path relative to this file";
            return null;
        }
    }
}
