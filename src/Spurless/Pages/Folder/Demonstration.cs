using System.Reflection;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Folder;

/// <summary>The invented demonstration: it lies inside the program, and is copied before anybody works on it.</summary>
internal static class Demonstration
{
    /// <summary>The site that one begins with.</summary>
    public const string First = "quernmoss.site.yaml";

    private const string Prefix = "demo/";

    /// <summary>Copies what is not there yet: into an empty folder itself, else into <c>demo/</c> within it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="problem">Why not; null where it is done.</param>
    /// <returns>The name of the site to begin with.</returns>
    public static string Copy(OpenFolder folder, out string? problem)
    {
        problem = null;
        string to = folder.Files.Count == 0 || folder.Files.Any(static f => f.Name == First) ? "" : Prefix;
        Assembly program = typeof(Demonstration).Assembly;
        foreach (
            string resource in program.GetManifestResourceNames().Where(static n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(
                StringComparer.Ordinal))
        {
            string name = to + resource[Prefix.Length..].Replace('\\', '/');
            using Stream stream = program.GetManifestResourceStream(resource)!;
            using MemoryStream memory = new();
            stream.CopyTo(memory);
            if (folder.Session.Read(name) is null && FolderIntake.Take(folder, name, memory.ToArray(), undoable: false) is { } why)
            {
                problem = why;
                break;
            }
        }

        return to + First;
    }
}
