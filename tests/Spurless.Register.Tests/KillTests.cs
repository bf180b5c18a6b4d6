using System.Diagnostics;
using Spurless.Files.Diagnostics;

namespace Spurless.Register.Tests;

public sealed class KillTests
{
    [Fact]
    public void Import_killed_five_times_leaves_nothing_half_and_ends_alike() => KillAndGoOn(5, 1);

    [Fact]
    [Trait("Category", "Long")]
    public void Import_killed_fifty_times_leaves_nothing_half_and_ends_alike() => KillAndGoOn(50, 2);

    private static void KillAndGoOn(int kills, int seed)
    {
        using Scratch whole = new();
        new RowMaker(3).Uls(whole, 2_500);
        string expected = Scratch.Counts(whole.Import().Answer!);
        string hash;
        using (RegisterStore store = whole.Open())
        {
            hash = store.ContentHash();
        }

        string database = Path.Combine(whole.Folder, "killed.db");
        Random random = new(seed);
        int killed = 0;
        for (int i = 0; i < kills; i++)
        {
            using Process process = Start(whole.Input, database);
            if (!process.WaitForExit(random.Next(60, 700)))
            {
                process.Kill();
                killed++;
            }

            process.WaitForExit();
            if (!File.Exists(database))
            {
                continue;
            }

            // Opens, and shows nothing or all.
            DiagnosticBag bag = new();
            using RegisterStore? store = RegisterStore.Open(database, bag);
            if (store is null)
            {
                Assert.Contains("empty", bag.InOrder()[0].What, StringComparison.Ordinal);
                continue;
            }

            Assert.True(store.Count == 0 || store.ContentHash() == hash);
        }

        Assert.True(killed > 0, "no import was killed in its course");
        using (Process last = Start(whole.Input, database))
        {
            last.WaitForExit();
            Assert.Equal(0, last.ExitCode);
        }

        DiagnosticBag none = new();
        using RegisterStore end = RegisterStore.Open(database, none)!;
        Assert.Equal(hash, end.ContentHash());

        // A reject file that was written to by a killed run holds no row twice.
        string[] rejects = File.ReadAllLines(database + ".rejects.csv");
        string[] clean = File.ReadAllLines(whole.Database + ".rejects.csv");
        Assert.Equal(clean.Length, rejects.Length);
        Assert.NotEmpty(expected);
    }

    private static Process Start(string input, string database)
    {
        string dll = Path.Combine(AppContext.BaseDirectory, "Spurless.Register.Importer.dll");
        return Process.Start(new ProcessStartInfo(Environment.ProcessPath is { } host
            && Path.GetFileNameWithoutExtension(host) == "dotnet" ? host : "dotnet")
        {
            ArgumentList = { dll, input, database },
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }
}
