using Spurless.Register.Importing;

namespace Spurless.Fuzz.Readers;

/// <summary>A folder in which imports are made, one after another, each into a new database.</summary>
internal sealed class ImportPlace
{
    private static readonly DateOnly Today = new(2031, 3, 4);
    private readonly string _folder;

    public ImportPlace()
    {
        // In memory where the system has such a place: what is written here is read at once and never again.
        string memory = "/dev/shm";
        string name = "spurless-fuzz-" + Path.GetRandomFileName();
        _folder = Path.Combine(Directory.Exists(memory) ? memory : Path.GetTempPath(), name);
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Forget();
    }

    /// <summary>Imports files.</summary>
    public ImportOutcome Import(IReadOnlyList<(string Name, byte[] Bytes)> files)
    {
        Forget();
        string input = Directory.CreateDirectory(Path.Combine(_folder, "in")).FullName;
        foreach ((string name, byte[] bytes) in files)
        {
            File.WriteAllBytes(Path.Combine(input, name), bytes);
        }

        return RegisterImport.Run(new ImportQuestion { Files = [input], Database = Path.Combine(_folder, "x.db"), AsOf = Today });
    }

    private void Forget()
    {
        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }
    }
}
