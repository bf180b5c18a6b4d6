using System.Diagnostics;
using System.Globalization;
using System.Text;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Kills;

/// <summary>What else may come between a save and the disk: no space, no right, somebody else, a clock that jumps.</summary>
internal static class Trouble
{
    private const int Fills = 12;

    /// <summary>Tells each trouble and what became of it.</summary>
    /// <param name="rounds">How often others change the file, and the clock jumps.</param>
    /// <param name="seed">Decides what and when.</param>
    public static IEnumerable<(string What, string Outcome, bool Held)> Run(int rounds, int seed)
    {
        yield return OwnDisk();
        yield return Told("another program changes the file meanwhile", () => Meanwhile(rounds, seed));
        yield return Told("the clock jumps, dates of the file too", () => Clock(rounds, seed));
    }

    /// <summary>A disk that fills up, and one that takes nothing: run in a file system of its own (<paramref name="folder"/>).</summary>
    public static async Task<int> OnOwnDiskAsync(string folder)
    {
        string file = Path.Combine(folder, Saver.File);
        string filler = Path.Combine(folder, "filler");
        await File.WriteAllTextAsync(file, Saver.Text(0)).ConfigureAwait(false);
        using OpenFolder open = new(folder, TimeProvider.System);
        int now = 0;
        for (; now < Fills; now++)
        {
            Fill(filler, now * 512); // less than any of the texts
            Refused(folder, "with a full disk", await SavesAsync(open, folder, now + 1).ConfigureAwait(false), now);
            File.Delete(filler);
            Require(Saver.Page(open, now + 1), "no save after space was made");
        }

        Mount(folder, "ro");
        Refused(folder, "in a folder that takes nothing", await SavesAsync(open, folder, now + 1).ConfigureAwait(false), now);
        Mount(folder, "rw");
        Require(Saver.Page(open, now + 1), "no save after the folder takes something again");
        return 0;
    }

    private static async Task<bool> SavesAsync(OpenFolder open, string folder, int number) =>
        Saver.Page(open, number) || await Saver.OutAsync(folder, number).ConfigureAwait(false) == 0;

    private static void Refused(string folder, string when, bool saved, int number)
    {
        Require(!saved, "'saved' was said " + when);
        Require(File.ReadAllText(Path.Combine(folder, Saver.File)) == Saver.Text(number), "the file was changed " + when);
        Require(Directory.GetFiles(folder, ".*saving").Length == 0, "a text in the making was left " + when);
    }

    private static void Fill(string filler, int spare)
    {
        using FileStream stream = new(filler, FileMode.Create, FileAccess.Write, FileShare.None, 0);
        try
        {
            byte[] block = new byte[1024];
            while (true)
            {
                stream.Write(block);
            }
        }
        catch (IOException)
        {
            stream.SetLength(Math.Max(0, stream.Length - spare));
        }
    }

    private static (string, string, bool) OwnDisk()
    {
        const string What = "the disk is full; the folder takes nothing";
        string folder = Directory.CreateTempSubdirectory("spurless-disk-").FullName;
        ProcessStartInfo start = new("unshare") { RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (string arg in (string[])["--map-root-user", "--mount", "sh", "-c",
            "mount -t tmpfs -o size=1m none \"$1\" || exit 77; exec dotnet \"$2\" own-disk \"$1\"", "sh", folder,
            typeof(Trouble).Assembly.Location])
        {
            start.ArgumentList.Add(arg);
        }

        try
        {
            using Process process = Process.Start(start)!;
            Task<string> error = process.StandardError.ReadToEndAsync();
            _ = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode switch
            {
                0 => (What, $"{Fills} saves of pages and {Fills} of --out refused on the one, 1 each on the other; nothing lost", true),
                77 or 1 when !error.Result.Contains("Spurless", StringComparison.Ordinal) =>
                    (What, "not run: this machine gives no file system of one's own", true),
                _ => (What, error.Result.Split('\n')[0], false),
            };
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return (What, "not run: this machine has no 'unshare'", true);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Mount(string folder, string how)
    {
        using Process process = Process.Start("mount", ["-o", "remount," + how, folder]);
        process.WaitForExit();
        Require(process.ExitCode == 0, "mount: " + how);
    }

    // The other one writes after the page has read and before it saves: both changes must stand, or the page must be told.
    private static string Meanwhile(int rounds, int seed)
    {
        Random random = new(seed);
        using Place place = new();
        int conflicts = 0;
        for (int i = 1; i <= rounds; i++)
        {
            string mark = string.Create(CultureInfo.InvariantCulture, $"# other {i}\n");
            bool same = random.Next(2) == 0;
            bool once = false;
            FieldOutcome outcome = place.Open.Edit(Saver.File, "named", text =>
            {
                if (!once)
                {
                    once = true;
                    string theirs = same ? text.Replace("site: save", "site: theirs", StringComparison.Ordinal) : text;
                    File.WriteAllText(place.File, mark + theirs);
                }

                return FieldText.TrySet(text, "emitters[0].level", $"-{i % 90 + 1} dBm", out string? edited, out string? problem)
                    ? (edited, null) : (null, problem);
            });
            string now = File.ReadAllText(place.File);
            Require(outcome.Ok && now.Contains(mark, StringComparison.Ordinal), "what the other wrote is gone");
            Require(now.Contains($"level: -{i % 90 + 1} dBm", StringComparison.Ordinal), "what the page wrote is gone");
            Require(same == now.Contains("theirs", StringComparison.Ordinal), "a field of the other is gone");
            string? there = FieldText.ValueOf(now, "site");
            FieldOutcome late = place.Open.Set(Saver.File, "site", "mine", "seen long ago", "named");
            Require(late.Result == FieldResult.Conflict && late.There == there, "a conflict was not told");
            Require(File.ReadAllText(place.File) == now, "a conflict changed the file");
            conflicts++;
            File.WriteAllText(place.File, Saver.Text(0));
        }

        return string.Create(CultureInfo.InvariantCulture,
            $"{rounds} changes kept beside the page's own, {conflicts} conflicts told; nothing lost");
    }

    private static string Clock(int rounds, int seed)
    {
        Random random = new(seed);
        JumpingClock clock = new();
        using Place place = new(clock);
        for (int i = 1; i <= rounds; i++)
        {
            clock.Now = clock.Now.AddSeconds((random.NextDouble() - 0.5) * 2e8);
            Require(Saver.Page(place.Open, i), "a save was refused");
            Require(File.ReadAllText(place.File) == Saver.Text(i), "a save is not there");
            File.SetLastWriteTimeUtc(place.File, clock.Now.UtcDateTime);

            // Somebody else's change of the same length, with the date it had.
            string theirs = Saver.Text(i).Replace("-40 dBm", "-41 dBm", StringComparison.Ordinal);
            string mine = Saver.Text(i).Replace("save", "mine", StringComparison.Ordinal);
            FolderText read = place.Open.Session.Read(Saver.File)!;
            File.WriteAllText(place.File, theirs);
            File.SetLastWriteTimeUtc(place.File, clock.Now.UtcDateTime);
            Require(place.Open.Session.Save(Saver.File, mine, read.Version, "typed") == SaveOutcome.ChangedMeanwhile, "it was not noticed");
            Require(File.ReadAllText(place.File) == theirs, "their change is gone");
            File.WriteAllText(place.File, Saver.Text(i));
        }

        return string.Create(CultureInfo.InvariantCulture, $"{rounds} jumps by up to three years either way; nothing lost");
    }

    private static (string, string, bool) Told(string what, Func<string> run)
    {
        try
        {
            return (what, run(), true);
        }
        catch (Violation e)
        {
            return (what, e.Message, false);
        }
    }

    private static void Require(bool holds, string otherwise)
    {
        if (!holds)
        {
            throw new Violation(otherwise);
        }
    }

    private sealed class Place : IDisposable
    {
        private readonly string _folder = Directory.CreateTempSubdirectory("spurless-trouble-").FullName;

        public Place(TimeProvider? time = null)
        {
            System.IO.File.WriteAllText(File, Saver.Text(0), new UTF8Encoding(false));
            Open = new OpenFolder(_folder, time ?? TimeProvider.System);
        }

        public OpenFolder Open { get; }

        public string File => Path.Combine(_folder, Saver.File);

        public void Dispose()
        {
            Open.Dispose();
            Directory.Delete(_folder, recursive: true);
        }
    }

    private sealed class JumpingClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2031, 3, 4, 8, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
