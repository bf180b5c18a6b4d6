namespace Spurless.Acceptance.Running;

/// <summary>A folder of a test's own, gone afterwards.</summary>
internal sealed class WorkFolder : IDisposable
{
    public WorkFolder() => Path = Directory.CreateTempSubdirectory("spurless-test-").FullName;

    public string Path { get; }

    /// <summary>A name in it.</summary>
    public string this[string name] => System.IO.Path.Combine(Path, name);

    /// <summary>A folder with a copy of <c>demo/</c>, as the examples of help and README expect it.</summary>
    public static WorkFolder WithDemo()
    {
        WorkFolder folder = new();
        if (Directory.Exists(Repository.PathOf("demo")))
        {
            Copy(Repository.PathOf("demo"), folder["demo"], static _ => true);
        }

        return folder;
    }

    /// <summary>Copies a folder; subfolders that do not please are left out.</summary>
    public static void Copy(string from, string to, Func<string, bool> takesFolder)
    {
        Directory.CreateDirectory(to);
        foreach (string file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, System.IO.Path.Combine(to, System.IO.Path.GetFileName(file)));
        }

        foreach (string folder in Directory.EnumerateDirectories(from))
        {
            string name = System.IO.Path.GetFileName(folder);
            if (takesFolder(name))
            {
                Copy(folder, System.IO.Path.Combine(to, name), takesFolder);
            }
        }
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
