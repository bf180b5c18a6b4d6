using System.Globalization;
using System.Text.Json;
using Spurless.Fuzz;
using Spurless.Fuzz.Commands;
using Spurless.Fuzz.Kills;
using Spurless.Fuzz.Pages;
using Spurless.Fuzz.Readers;
using Spurless.Fuzz.Running;

// Commands of fuzz/run; 'one', 'saver' and 'own-disk' are what it starts itself.
return args switch
{
    ["one", string reader, string inputs, string seconds, string seed, string current, string keep] =>
        One(reader, double.Parse(inputs, CultureInfo.InvariantCulture), double.Parse(seconds, CultureInfo.InvariantCulture),
            int.Parse(seed, CultureInfo.InvariantCulture), current, keep),
    ["replay", string reader, string file] => Replay(reader, file),
    ["readers", .. string[] rest] => ReadersCommand.Run(rest, Console.Out),
    ["kills", .. string[] rest] => await KillsCommand.RunAsync(rest, Console.Out),
    ["commands", .. string[] rest] => await CommandsCommand.RunAsync(rest, Console.Out),
    ["pages", .. string[] rest] => await PagesCommand.RunAsync(rest, Console.Out),
    ["saver", string way, string folder, string number] =>
        await Saver.RunAsync(way, folder, int.Parse(number, CultureInfo.InvariantCulture)),
    ["own-disk", string folder] => await Trouble.OnOwnDiskAsync(folder),
    _ => Usage(),
};

static int One(string reader, double inputs, double seconds, int seed, string current, string keep)
{
    using ReaderRun run = new(Named(reader), seed, current);
    ReaderReport report = run.Run((long)inputs, seconds);
    if (keep.Length > 0)
    {
        SmallCorpus.Write(Named(reader), run.Kept, keep);
    }

    Console.Out.WriteLine(JsonSerializer.Serialize(report));
    return 0;
}

static int Replay(string reader, string file)
{
    Named(reader).Read(File.ReadAllBytes(file));
    Console.Out.WriteLine("read without a fault");
    return 0;
}

static IFuzzedReader Named(string name) => Reading.All.FirstOrDefault(r => r.Name == name)
    ?? throw new ArgumentException($"no reader '{name}'; there are {string.Join(", ", Reading.All.Select(static r => r.Name))}");

static int Usage()
{
    Console.Error.WriteLine("""
        usage: fuzz/run [readers] [NAME ...] [--inputs N] [--minutes M] [--seed S] [--keep FOLDER]
                                  reads changed inputs and prints a table; --minutes are processor time for each reader
               fuzz/run replay READER FILE
                                  reads what was found once more
               fuzz/run commands [--sites N] [--circuits N] [--seed S]
                                  random sites and circuits through the commands, some of them stopped on their way
               fuzz/run kills [--pages N] [--outs N] [--rounds N] [--seed S]
                                  kills a program that saves, fills the disk, changes files meanwhile, lets the clock jump
               fuzz/run pages [--pages N] [--moves N] [--pause S] [--emitters N] [--minutes M] [--seed S]
                                  many pages at once on a large site, then minutes of random clicks
        """);
    return 2;
}
