using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Registers;

/// <summary>Writes a screening: rows of CSV as they come, GeoJSON (RFC 7946) of them, and what was done in a few sentences.</summary>
public static class ScreenWriter
{
    /// <summary>
    /// The head of the CSV.
    /// The columns after the emitters say what the counts leave out, and whether the worst level was capped at what the receiver can make.
    /// </summary>
    public const string Head =
        "name,latitude,longitude,frequency_hz,harmful,marginal,worst_over_noise_db,mixture,emitters,level_unknown,complete,capped";

    /// <summary>A row of the CSV.</summary>
    /// <param name="row">The row.</param>
    public static string Row(ScreenRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        string[] cells =
        [
            // A row is one line, whatever the name: a screening is taken up again, and turned to GeoJSON, line by line.
            TextFlow.Printable(row.Name),
            Number(row.LatitudeDegrees, "0.0######"),
            Number(row.LongitudeDegrees, "0.0######"),
            Whole(row.FrequencyHz),
            Whole(row.Harmful),
            Whole(row.Marginal),
            CsvFigure.Of(row.WorstOverNoiseDb),
            Mixture(row),
            TextFlow.Printable(string.Join("; ", row.Terms.Select(static t => t.Name))),
            Whole(row.Unknown),
            row.IsComplete ? "yes" : "no",
            row.Saturated ? "yes" : "no",
        ];
        return string.Join(',', cells.Select(CsvQuoting.Quote));
    }

    /// <summary>Makes GeoJSON of the CSV's lines.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="lines">The lines, the head first.</param>
    public static void WriteGeoJson(TextWriter to, IEnumerable<string> lines)
    {
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(lines);
        string[] heads = Head.Split(',');
        to.Write("{\"type\":\"FeatureCollection\",\"features\":[");
        bool first = true;
        foreach (string line in lines.Where(static l => l != Head))
        {
            string[] cells = [.. Cells(line)];
            to.Write(first ? "\n" : ",\n");
            first = false;
            to.Write(
                $"{{\"type\":\"Feature\",\"geometry\":{{\"type\":\"Point\",\"coordinates\":[{cells[2]},{cells[1]}]}},\"properties\":{{");
            to.Write(
                string.Join(
                    ',',
                    Enumerable.Range(0, heads.Length)
                        .Where(static i => i is not (1 or 2))
                        .Select(i => $"{JsonSerializer.Serialize(heads[i])}:{Value(i, cells[i])}")));
            to.Write("}}");
        }

        to.Write("\n]}\n");
    }

    /// <summary>Says what was done.</summary>
    /// <param name="answer">What was done.</param>
    /// <param name="file">Where the rows are.</param>
    /// <param name="to">Where to.</param>
    public static void WriteText(ScreenAnswer answer, string file, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        foreach (string line in TextFlow.Wrap(TextFlow.Printable(string.Join(' ', Sentences(answer, file)))))
        {
            to.Write(line);
            to.Write('\n');
        }
    }

    /// <summary>What was done, a sentence each.</summary>
    /// <param name="answer">What was done.</param>
    /// <param name="file">Where the rows are.</param>
    internal static IReadOnlyList<string> Sentences(ScreenAnswer answer, string file)
    {
        List<string> said =
        [
            $"{Count(answer.Harmed)} of {Several(answer.Receivers, "receiver")} "
                + (answer.Harmed == 1 || answer.Receivers == 1 ? "has" : "have") + " a harmful mixture"
                + (answer.Tiles.Before > 0 ? " among those screened now" : "") + $"; the rows are in {file}.",
            $"{Several(answer.Emitters, "transmitter")} took part"
                + (answer.WithoutPower > 0
                    ? $"; {Count(answer.WithoutPower)} {(answer.WithoutPower == 1 ? "is" : "are")} of unknown power and did not."
                    : "."),
        ];
        if (answer.Tiles.Before > 0)
        {
            said.Add(
                $"An earlier run had done {Several(answer.Tiles.Before, "tile")}; {Count(answer.Tiles.Done)} "
                    + $"{(answer.Tiles.Done == 1 ? "was" : "were")} done now.");
        }

        if (answer.WithUnknown > 0)
        {
            said.Add(
                $"On {Several(answer.WithUnknown, "receiver")} some transmitters stand within a wavelength, "
                    + $"of unknown level (column level_unknown): what they make is not counted.");
        }

        if (answer.Incomplete > 0)
        {
            said.Add(
                $"On {Several(answer.Incomplete, "receiver")} there are more mixtures than are counted (column "
                    + $"complete): their counts are the least that there are.");
        }

        if (answer.Ground is { } ground)
        {
            said.AddRange(Ground(ground));
        }

        said.AddRange(answer.Assumed.Select(static a => Assumed(a) + "."));
        return said;
    }

    private static string Assumed(ScreenAssumption assumption) => assumption switch
    {
        ScreenAssumption.OfRegister of => string.Create(
            CultureInfo.InvariantCulture,
            $"A receiver of the register is taken to have a noise figure of {of.NoiseFigureDb:0.##} dB, iip3 {of.Iip3Dbm:0.##} dBm, "
                + $"no selectivity and a dipole of {of.GainDbi:0.##} dBi without feedline"),
        ScreenAssumption.GainAlike => "An antenna's gain counts alike at all frequencies but where antenna.response states it: over a "
            + "tenth from the receiver's own that is a guess, mostly too high; polarisation and tilt are not counted",
        _ => throw new ArgumentOutOfRangeException(nameof(assumption)),
    };

    private static IEnumerable<string> Ground(ScreenGroundSum ground)
    {
        yield return $"Over the ground went {Several(ground.Paths, "path")}"
            + (ground.Without == 0
                ? "."
                : $"; {Count(ground.Without)} had none that is known and went by free space or plane earth: "
                    + $"{string.Join("; ", ground.Missing.Select(static m => m.Split("; ")[0]))}.");
    }

    /// <summary>The mixture in megahertz, what is added first.</summary>
    private static string Mixture(ScreenRow row)
    {
        if (row.Terms.Count == 0)
        {
            return "";
        }

        long at = row.Terms.Sum(static t => t.Coefficient * t.FrequencyHz);
        int decimals = Figures.DecimalsFor(row.Terms.Select(static t => t.FrequencyHz).Append(at));
        string sum = "";
        foreach (
            (int coefficient, _, long hertz) in row.Terms
                .Where(static t => t.Coefficient > 0)
                .Concat(row.Terms.Where(static t => t.Coefficient < 0)))
        {
            int times = Math.Abs(coefficient);
            sum += sum.Length == 0 ? "" : coefficient < 0 ? " - " : " + ";
            sum += (times == 1 ? "" : Whole(times) + " x ") + Figures.Megahertz(hertz, decimals);
        }

        return $"{sum} = {Figures.Megahertz(at, decimals)}";
    }

    private static string Value(int column, string cell) => column switch
    {
        3 or 4 or 5 or 9 => cell,
        6 => cell.Length == 0 ? "null" : cell,
        10 or 11 => cell == "yes" ? "true" : "false",
        _ => JsonSerializer.Serialize(cell),
    };

    internal static IEnumerable<string> Cells(string line)
    {
        int at = 0;
        while (at <= line.Length)
        {
            if (at < line.Length && line[at] == '"')
            {
                System.Text.StringBuilder cell = new();
                for (at++; at < line.Length && (line[at] != '"' || (at + 1 < line.Length && line[at + 1] == '"')); at++)
                {
                    at += line[at] == '"' ? 1 : 0;
                    cell.Append(line[at]);
                }

                at += 2;
                yield return cell.ToString();
                continue;
            }

            int end = line.IndexOf(',', at);
            end = end < 0 ? line.Length : end;
            yield return line[at..end];
            at = end + 1;
        }
    }

    private static string Several(long count, string what) => $"{Count(count)} {what}{(count == 1 ? "" : "s")}";

    private static string Count(long count) => Figures.Count(count, Typography.Plain);

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
