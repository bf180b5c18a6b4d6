using System.Globalization;
using Spurless.Register.Importing;

namespace Spurless.Bench.Registers;

/// <summary>The invented country imported, beside the plain import of the same files; the database goes with it.</summary>
internal sealed class CountryDatabase : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-bench-").FullName;

    public CountryDatabase(BenchContext context, int rows)
    {
        string files = Directory.CreateDirectory(Path.Combine(_folder, "in")).FullName;
        context.Log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"writing a country's files with {rows:#,0} frequency rows"));
        new Country(rows, 1).WritePublicAccess(files);
        GC.Collect();
        string bare = Path.Combine(_folder, "bare.db");
        Plain = Measured.Of(() => PlainRegister.Import(files, bare));
        File.Delete(bare);
        ImportOutcome? outcome = null;
        Own = Measured.Of(() => outcome = RegisterImport.Run(
            new ImportQuestion { Files = [files], Database = DatabasePath, AsOf = new DateOnly(2031, 3, 4) }));
        Answer = outcome!.Answer ?? throw new InvalidOperationException(string.Join('\n', outcome.Diagnostics));
        context.Log.WriteLine($"{Own}; plain {Plain}");
        Directory.Delete(files, recursive: true);
        Bytes = new FileInfo(DatabasePath).Length;
    }

    /// <summary>The database's file.</summary>
    public string DatabasePath => Path.Combine(_folder, "register.db");

    public Measured Own { get; }

    public Measured Plain { get; }

    public ImportAnswer Answer { get; }

    public long Bytes { get; }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

/// <summary>What something took.</summary>
/// <param name="Seconds">By the clock.</param>
/// <param name="Processor">Processor seconds of all threads.</param>
/// <param name="MostBytes">Most memory of the process meanwhile, looked at five times a second.</param>
internal readonly record struct Measured(double Seconds, double Processor, long MostBytes)
{
    public static Measured Of(Action action)
    {
        GC.Collect();
        long most = Environment.WorkingSet;
        using Timer watch = new(_ => most = Math.Max(most, Environment.WorkingSet), null, 0, 200);
        double before = Environment.CpuUsage.TotalTime.TotalSeconds;
        double seconds = Timing.Once(action);
        return new Measured(seconds, Environment.CpuUsage.TotalTime.TotalSeconds - before, Math.Max(most, Environment.WorkingSet));
    }

    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Timing.Text(Seconds)} ({Processor:0.0} s of processor), {MostBytes / 1e9:0.00} GB");
}
