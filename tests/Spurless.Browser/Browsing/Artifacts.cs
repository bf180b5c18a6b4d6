using System.Reflection;

namespace Spurless.Browser.Browsing;

/// <summary>Where pictures are kept for people to look at: a folder that is not committed.</summary>
internal static class Artifacts
{
    /// <summary>A file in artifacts/looks at the root of the project.</summary>
    public static string File(string name)
    {
        string folder = Path.Combine(Root, "artifacts", "looks");
        Directory.CreateDirectory(folder);
        return Path.Combine(folder, name);
    }

    /// <summary>The project's root: the folder with the solution.</summary>
    public static string Root
    {
        get
        {
            for (DirectoryInfo? at = new(Path.GetDirectoryName(Assembly.GetExecutingAssembly().Location)!); at is not null; at = at.Parent)
            {
                if (System.IO.File.Exists(Path.Combine(at.FullName, "Spurless.slnx")))
                {
                    return at.FullName;
                }
            }

            throw new InvalidOperationException("The tests do not run inside the project's folder.");
        }
    }
}
