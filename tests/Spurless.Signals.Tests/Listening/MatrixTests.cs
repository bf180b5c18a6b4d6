using System.Globalization;
using System.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// The confusion matrix of docs/method/listen.md. By command:
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
}
