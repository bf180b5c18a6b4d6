using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Register.Records;
using Spurless.Reports.Text;
using Spurless.Sites.Levels;
using Spurless.Sites.Matching;
using Spurless.Sites.Registers;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Registers;

/// <summary>Writes the licensed transmitters near a site: a table, JSON of the format <c>spurless-near/1</c>, or CSV.</summary>
public static class NearWriter
{
    private const int Shown = 40;

    private const string CsvHead =
        "name,register,licence,frequency_hz,upper_edge_hz,emission,distance_m,bearing_deg,eirp_dbm,level_dbm,sigma_db,assumed";

    /// <summary>Writes them as text, the strongest first.</summary>
    /// <param name="answer">The transmitters.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(NearAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        Paragraph(to, Answer(answer));
        if (answer.Emitters.Count == 0)
        {
            return;
        }

        to.Write('\n');
        TextTable table = new(
            new("level\ndBm", TextSide.Right),
            new("give or\ntake dB", TextSide.Right),
            new("km", TextSide.Right),
            new("bearing", TextSide.Right),
            new("emission"),
            new("transmitter", Wraps: true));
        foreach (NearEmitter emitter in answer.Emitters.Take(Shown))
        {
            table.Add(
                emitter.LevelDbm is { } dbm ? Figures.Db(dbm, Typography.Plain) : "not known",
                emitter.SigmaDb?.ToString("0", CultureInfo.InvariantCulture) ?? "",
                (emitter.DistanceM / 1000).ToString("0.00", CultureInfo.InvariantCulture),
                (Math.Round(emitter.BearingDegrees) % 360).ToString("0", CultureInfo.InvariantCulture),
                emitter.Record.Emission ?? "",
                emitter.Name + (emitter.InSite ? " (in the site file)" : ""));
        }

        table.WriteTo(to, ink);
        to.Write('\n');
        string more = answer.Emitters.Count > Shown ? $" The strongest {Shown} are shown; --format csv lists all." : "";
        Paragraph(to, $"Levels are predicted at the antenna connector of {answer.Receiver}: a measured one beats them.{more}");
        string[] assumed = [.. Assumed(answer)];
        if (assumed.Length > 0)
        {
            to.Write("\nAssumed\n");
            foreach (string line in assumed)
            {
                Paragraph(to, "  " + line + ".");
            }
        }
    }

    /// <summary>The answer in a sentence or two.</summary>
    internal static string Answer(NearAnswer answer)
    {
        int unknown = answer.Emitters.Count(static e => e.LevelDbm is null);
        int there = answer.Emitters.Count(static e => e.InSite);
        string radius = (answer.RadiusM / 1000).ToString("0.###", CultureInfo.InvariantCulture);
        string strongest = answer.Emitters is [{ LevelDbm: { } level } first, ..]
            ? $" The strongest is {first.Name} with {Figures.Db(level, Typography.Plain)} dBm, give or take {first.SigmaDb:0} dB."
            : "";
        return Standing(answer.Emitters.Count) + $" within {radius} km of {answer.Site}"
            + (there == 0 ? "."
                : answer.Emitters.Count == 1 ? "; it is in the site file."
                : $"; {there} of them {(there == 1 ? "is" : "are")} in the site file.")
            + strongest
            + (unknown == 0 ? "" : answer.Emitters.Count == 1 ? " Its level is not known." : $" Of {unknown} the level is not known.");
    }

    /// <summary>What was assumed most often, with how often.</summary>
    internal static IEnumerable<string> Assumed(NearAnswer answer) => answer.Emitters
        .SelectMany(static e => e.Assumed.Skip(1))
        .GroupBy(static n => n is LevelNote.GainOutOfBand gain ? gain with { AtHz = 0 } : n)
        .OrderByDescending(static g => g.Count())
        .Take(8)
        .Select(g => (g.Count() == answer.Emitters.Count ? "of all: " : string.Create(CultureInfo.InvariantCulture, $"of {g.Count()}: "))
            + LevelNoteWords.OfAlike([.. g]));

    /// <summary>Writes them as JSON.</summary>
    /// <param name="answer">The transmitters.</param>
    /// <param name="added">Names of those written into the site file.</param>
    /// <param name="to">Where to.</param>
    /// <param name="match">What was joined with them; null where nothing was asked to be.</param>
    public static void WriteJson(NearAnswer answer, IReadOnlyList<string> added, Stream to, MatchAnswer? match = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-near/1");
            json.WriteString("site", answer.Site);
            json.WriteString("receiver", answer.Receiver);
            json.WriteNumber("radius_m", answer.RadiusM);
            json.WriteStartArray("emitters");
            foreach (NearEmitter emitter in answer.Emitters)
            {
                Write(json, emitter);
            }

            json.WriteEndArray();
            JsonText.Strings(json, "added", added);
            if (match is not null)
            {
                MatchWriter.WriteJson(match, json);
            }
        });
    }

    /// <summary>Writes them as CSV; null is an empty cell.</summary>
    /// <param name="answer">The transmitters.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(NearAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (NearEmitter emitter in answer.Emitters)
        {
            RegisterRecord record = emitter.Record;
            string[] cells =
            [
                emitter.Name,
                record.Register,
                record.Licence,
                Whole(record.FrequencyHz),
                record.UpperEdgeHz is { } upper ? Whole(upper) : "",
                record.Emission ?? "",
                CsvFigure.Of(emitter.DistanceM),
                CsvFigure.Of(emitter.BearingDegrees),
                CsvFigure.Of(record.EirpDbm),
                CsvFigure.Of(emitter.LevelDbm),
                CsvFigure.Of(emitter.SigmaDb),
                string.Join("; ", LevelNoteWords.Of(emitter.Assumed)),
            ];
            to.Write(string.Join(',', cells.Select(CsvQuoting.Quote)) + "\n");
        }
    }

    private static void Write(Utf8JsonWriter json, NearEmitter emitter)
    {
        RegisterRecord record = emitter.Record;
        json.WriteStartObject();
        json.WriteString("name", emitter.Name);
        json.WriteString("register", record.Register);
        json.WriteString("licence", record.Licence);
        json.WriteNumber("frequency_hz", record.FrequencyHz);
        if (record.UpperEdgeHz is { } upper)
        {
            json.WriteNumber("upper_edge_hz", upper);
        }
        else
        {
            json.WriteNull("upper_edge_hz");
        }

        json.WriteString("emission", record.Emission);
        JsonText.Number(json, "distance_m", Math.Round(emitter.DistanceM, 3));
        JsonText.Number(json, "bearing_deg", Math.Round(emitter.BearingDegrees, 6));
        JsonText.Decibels(json, "eirp_dbm", record.EirpDbm);
        JsonText.Decibels(json, "level_dbm", emitter.LevelDbm);
        JsonText.Decibels(json, "sigma_db", emitter.SigmaDb);
        JsonText.Strings(json, "assumed", LevelNoteWords.Of(emitter.Assumed));
        json.WriteString("service", record.Service);
        json.WriteNumber("latitude", record.Place.LatitudeDegrees);
        json.WriteNumber("longitude", record.Place.LongitudeDegrees);
        JsonText.Number(json, "height_m", record.HeightM);
        JsonText.Number(json, "ground_m", record.GroundM);
        json.WriteBoolean("in_site", emitter.InSite);
        json.WriteEndObject();
    }

    private static string Standing(int count) => count switch
    {
        0 => "No licensed transmitter stands",
        1 => "1 licensed transmitter stands",
        _ => $"{Figures.Count(count, Typography.Plain)} licensed transmitters stand",
    };

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
