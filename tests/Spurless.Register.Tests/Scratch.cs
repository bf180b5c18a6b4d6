using System.IO.Compression;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;

namespace Spurless.Register.Tests;

/// <summary>A folder of its own for a test, and the usual import into a database within it.</summary>
internal sealed class Scratch : IDisposable
{
    public static readonly DateOnly Today = new(2031, 3, 4);

    public Scratch()
    {
        Folder = Directory.CreateTempSubdirectory("spurless-register-").FullName;
        Directory.CreateDirectory(Path.Combine(Folder, "in"));
    }

    public string Folder { get; }

    public string Input => Path.Combine(Folder, "in");

    public string Database => Path.Combine(Folder, "register.db");

    public string Write(string name, string text, Encoding? encoding = null)
    {
        string path = Path.Combine(Input, name);
        File.WriteAllBytes(path, (encoding ?? Encoding.Latin1).GetBytes(text));
        return path;
    }

    public string Zip()
    {
        string path = Path.Combine(Folder, "all.zip");
        ZipFile.CreateFromDirectory(Input, path);
        return path;
    }

    public ImportOutcome Import(params string[] files) =>
        RegisterImport.Run(new ImportQuestion { Files = files.Length > 0 ? files : [Input], Database = Database, AsOf = Today });

    public RegisterStore Open()
    {
        DiagnosticBag bag = new();
        return RegisterStore.Open(Database, bag) ?? throw new InvalidOperationException(string.Join('\n', bag.InOrder()));
    }

    public static string Counts(ImportAnswer answer) =>
        FormattableString.Invariant($"{answer.Read} {answer.Accepted} ") + string.Join(' ',
            answer.Rejected.Select(static r => FormattableString.Invariant($"{r.Reason.Word()}={r.Count}")));

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
