using System.Globalization;
using System.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// The confusion matrix of docs/method/listen.md, and false alarms. By command:
/// <c>dotnet run --project tests/Spurless.Signals.Tests -c Release -- -class '*MatrixTests'</c>; it prints what the document keeps.
/// </summary>
public sealed class MatrixTests(ITestOutputHelper output)
{
    private const int Recordings = 40;

    [Fact]
    [Trait("Category", "Long")]
    public void Matrix_onMadeSignals_holds()
    {
        SignalKind[] kinds = MadeKinds.All;
        int[,] counts = new int[kinds.Length, 18];
        SortedSet<string> strangers = [];
        Parallel.For(0, kinds.Length * Recordings, new ParallelOptions { MaxDegreeOfParallelism = 2 }, job =>
        {
            int row = job / Recordings;
            Heard heard = Made.Hear(MadeKinds.Make(kinds[row], job % Recordings + 1));
            Finding[] all = [.. heard.Transmissions.SelectMany(static t => t.Kinds)];
            HashSet<SignalKind> found = [.. all.Select(static k => k.Kind)];
            lock (counts)
            {
                foreach (SignalKind kind in found)
                {
                    counts[row, (int)kind]++;
                }

                strangers.UnionWith(all.Where(f => f.Kind != kinds[row])
                    .Select(f => $"{kinds[row]} {job % Recordings + 1}: {f.Kind} {f.StartS:0.00} to {f.EndS:0.00} s {f.Code}"));
                counts[row, 17] += found.Count == 0 ? 1 : 0;
            }
        });
        StringBuilder table = new("| made \\ found |");
        foreach (SignalKind kind in Enum.GetValues<SignalKind>())
        {
            table.Append(CultureInfo.InvariantCulture, $" {Word(kind)} |");
        }

        table.Append(" nothing |\n|---|").Insert(table.Length, "---|", 18).Append('\n');
        for (int row = 0; row < kinds.Length; row++)
        {
            table.Append(CultureInfo.InvariantCulture, $"| {Word(kinds[row])} |");
            for (int column = 0; column < 18; column++)
            {
                table.Append(counts[row, column] == 0 ? " |" : string.Create(CultureInfo.InvariantCulture, $" {counts[row, column]} |"));
            }

            table.Append('\n');
        }

        output.WriteLine(table + string.Join('\n', strangers));
        if (Environment.GetEnvironmentVariable("SPURLESS_MATRIX") is { } path)
        {
            File.WriteAllText(path, table + "\n" + string.Join('\n', strangers) + "\n");
        }

        for (int row = 0; row < kinds.Length; row++)
        {
            // Four levels are found from some 16 dB on, and an eighth of these recordings is under that.
            double least = kinds[row] == SignalKind.FourLevelFsk ? 0.9 : 0.99;
            Assert.True(counts[row, (int)kinds[row]] >= least * Recordings,
                $"{kinds[row]}: {counts[row, (int)kinds[row]]} of {Recordings}\n{table}");
        }
    }

    /// <summary>A kind as it stands in results.</summary>
    internal static string Word(SignalKind kind) => string.Concat(kind.ToString()
        .Select(static (c, i) => char.IsUpper(c) ? (i > 0 ? "_" : "") + char.ToLowerInvariant(c) : c.ToString()));

    /// <summary>
    /// Noise, a third in each of three colours: an hour, or as many as SPURLESS_HOURS says; at most one transmission is claimed in ten
    /// hours or less.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inNoise_areAtMostOneInTenHours()
    {
        double hours = Hours(1);
        const double Rate = 16_000;
        List<string> alarms = [];
        foreach (string colour in (string[])["white", "fallen", "speaker"])
        {
            for (int part = 0; part < 4 * hours; part++)
            {
                double[] noise = new Sound(Rate, 300).Noise(0.1, 77_000 + part).Samples;
                noise = colour switch
                {
                    "fallen" => Channels.DeEmphasis(noise, Rate),
                    "speaker" => Channels.Speaker(noise, Rate),
                    _ => noise,
                };
                alarms.AddRange(Made.Hear(RecordingFiles.Wav(Rate, 16, noise)).Transmissions
                    .Select(t => $"{colour} {part}: {string.Join(' ', t.Kinds.Select(static k => k.Kind))} at {t.StartS:0.00} s"));
            }
        }

        output.WriteLine($"{hours} h of noise: {alarms.Count} claimed. {string.Join("; ", alarms)}");
        Assert.True(alarms.Count <= Math.Max(1, hours / 10), string.Join('\n', alarms));
    }

    private static double Hours(double usual) => double.TryParse(
        Environment.GetEnvironmentVariable("SPURLESS_HOURS"), NumberStyles.Float, CultureInfo.InvariantCulture, out double hours)
        ? hours : usual;

    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inSpeech_areNone()
    {
        List<string> alarms = [];
        double hours = Hours(0.5);
        for (int part = 0; part < 12 * hours; part++)
        {
            Heard heard = Made.Hear(16_000, 300, s => s.Add(0, SpeechSignal.Make(300, 16_000, 88_000 + part, 90 + 25 * (part % 6))));
            alarms.AddRange(heard.Transmissions.SelectMany(static t => t.Kinds)
                .Where(static k => k.Kind is not (SignalKind.Voice or SignalKind.Carrier or SignalKind.Tone))
                .Select(k => $"{part}: {k.Kind} {k.StartS:0.00}-{k.EndS:0.00} {k.Code}"));
        }

        output.WriteLine($"{hours} h of made speech: {alarms.Count} claimed. {string.Join("; ", alarms)}");
        Assert.True(alarms.Count <= hours / 10, string.Join(", ", alarms));
    }

    /// <summary>
    /// The other kinds, one recording after another (MadeKinds), as long for each: what is claimed beside what was made. Quieting and
    /// what is called unknown are no claim of a kind.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inOtherKinds_areAtMostOneInTenHours()
    {
        double hours = Hours(0.2);
        List<string> alarms = [];
        Parallel.ForEach(MadeKinds.All, new ParallelOptions { MaxDegreeOfParallelism = 2 }, kind =>
        {
            double heardS = 0;
            for (int number = 10_000; heardS < 3_600 * hours / MadeKinds.All.Length; number++)
            {
                Heard heard = Made.Hear(MadeKinds.Make(kind, number));
                heardS += heard.DurationS;
                lock (alarms)
                {
                    alarms.AddRange(heard.Transmissions.SelectMany(static t => t.Kinds)
                        .Where(k => k.Kind != kind && k.Kind is not (SignalKind.Unknown or SignalKind.Carrier))
                        .Select(k => $"{kind} {number}: {k.Kind} {k.StartS:0.00}-{k.EndS:0.00} {k.Code}"));
                }
            }
        });
        alarms.Sort(StringComparer.Ordinal);
        output.WriteLine($"{hours} h of other kinds: {alarms.Count} claimed. {string.Join("; ", alarms)}");
        Assert.True(alarms.Count <= Math.Max(1, hours / 10), string.Join('\n', alarms));
    }
}
