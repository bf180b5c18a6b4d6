using Spurless.Circuits.Documents;

namespace Spurless.Sites.Checking;

/// <summary>Opens the files that a document on disk names.</summary>
public static class FolderOpener
{
    /// <summary>An opener of paths relative to a document's own folder.</summary>
    /// <param name="document">The document's path.</param>
    public static FileOpener Beside(string document)
    {
        SiteFolderFiles files = new(document);
        return files.Open;
    }

    private sealed class SiteFolderFiles(string document)
    {
        private readonly Documents.SiteFolder _folder = new(document);

        public Stream? Open(string path, out string problem)
        {
            problem = "";
            if (_folder.Read(path) is { } bytes)
            {
                return new MemoryStream(bytes);
            }

            problem = _folder.Exists(path)
                ? $"the file '{path}' cannot be read; see to its permissions"
                : $"there is no file '{path}'; write a path relative to this file";
            return null;
        }
    }
}
