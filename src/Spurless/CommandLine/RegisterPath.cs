using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;

namespace Spurless.CommandLine;

/// <summary>
/// A register as a command line names it: a database, or the files of one, which are then imported into a database for this call only.
/// </summary>
internal sealed class RegisterPath : IDisposable
{
    private readonly string? _folder;

    private RegisterPath(string database, string? folder) => (Database, _folder) = (database, folder);

    /// <summary>The database.</summary>
    public string Database { get; }

    /// <summary>Takes a database as it is, and imports a folder or a zip file.</summary>
    public static RegisterPath? Open(string path, DiagnosticBag findings, CancellationToken cancel)
    {
        bool files = Directory.Exists(path) || path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);
        if (!files)
        {
            return new RegisterPath(path, null);
        }

        string folder = Directory.CreateTempSubdirectory("spurless-").FullName;
        RegisterPath own = new(Path.Combine(folder, "register.db"), folder);
        DateOnly today = DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);
        ImportOutcome outcome = RegisterImport.Run(
            new ImportQuestion { Files = [path], Database = own.Database, AsOf = today }, null, cancel);
        findings.AddRange(outcome.Diagnostics);
        if (outcome.Answer is not null)
        {
            return own;
        }

        own.Dispose();
        return null;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_folder is not null)
        {
            Directory.Delete(_folder, recursive: true);
        }
    }
}
