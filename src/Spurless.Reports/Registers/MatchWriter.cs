using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Reports.Lists;
using Spurless.Reports.Text;
using Spurless.Sites.Matching;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Registers;

/// <summary>Writes what measured emitters and licences have in common: as a part of what is near.</summary>
public static class MatchWriter
{
    private const int Shown = 60;
    private const int MostCandidates = 4;

    /// <summary>The head of the section.</summary>
    public const string Title = "Joined with what was measured";

    /// <summary>Writes it as text.</summary>
    /// <param name="answer">What was joined.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(MatchAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write($"\n{Title}\n");
        foreach (string sentence in Sentences(answer))
        {
            Paragraph(to, sentence);
        }

        if (answer.Matches.Count == 0)
        {
            return;
        }

        to.Write('\n');
        TextTable table = new(
            new("MHz", TextSide.Right), new("level\ndBm", TextSide.Right), new("measured", Wraps: true), new("is", Wraps: true));
        foreach (EmitterMatch match in answer.Matches.Take(Shown))
        {
            IReadOnlyList<string> row = Row(match, Typography.Plain);
            table.Add(row[0], row[1], row[2], row[3]);
        }

        table.WriteTo(to, ink);
    }

    /// <summary>Writes it as a member of a JSON object.</summary>
    /// <param name="answer">What was joined.</param>
    /// <param name="json">Where to.</param>
    internal static void WriteJson(MatchAnswer answer, Utf8JsonWriter json) =>
        JsonText.Objects(json, "matches", answer.Matches, match =>
        {
            json.WriteString("measured", match.Measured.Name);
            json.WriteNumber("frequency_hz", (long)Math.Round(match.Measured.FrequencyHz));
            JsonText.Decibels(json, "level_dbm", match.Measured.LevelDbm);
            json.WriteString("outcome", match.Outcome switch
            {
                MatchOutcome.Joined => "joined",
                MatchOutcome.Ambiguous => "ambiguous",
                _ => "unexplained",
            });
            JsonText.Number(json, "other_weight", Math.Round(match.OtherWeight, 6));
            JsonText.Objects(json, "candidates", match.Candidates, candidate =>
            {
                json.WriteString("name", candidate.Licensed.Name);
                json.WriteString("licence", candidate.Licensed.Record.Licence);
                JsonText.Number(json, "weight", Math.Round(candidate.Weight, 6));
                JsonText.Number(json, "off_hz", Math.Round(candidate.OffHz));
                JsonText.Decibels(json, "over_predicted_db", candidate.OverPredictedDb);
                JsonText.Number(
                    json, "bearing_off_deg", candidate.BearingOffDegrees is { } aside ? Math.Round(aside, 3) : null);
            });
        });

    /// <summary>It as a table of a page.</summary>
    /// <param name="answer">What was joined.</param>
    public static ListTable Table(MatchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new ListTable(
            Title,
            [new("MHz", true), new("dBm", true), new("measured"), new("is")],
            [.. answer.Matches.Select(static m => Row(m, Typography.Fine))],
            string.Join(' ', Sentences(answer)));
    }

    /// <summary>What came of it, a sentence each.</summary>
    public static IEnumerable<string> Sentences(MatchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        int joined = answer.Matches.Count(static m => m.Outcome == MatchOutcome.Joined);
        int ambiguous = answer.Matches.Count(static m => m.Outcome == MatchOutcome.Ambiguous);
        int rest = answer.Matches.Count - joined - ambiguous;
        yield return answer.Matches.Count == 0
            ? "Nothing that was measured is given."
            : $"Of {Figures.Count(answer.Matches.Count, Typography.Plain)} measured {(answer.Matches.Count == 1 ? "emitter" : "emitters")} "
                + $"{joined} {(joined == 1 ? "is" : "are")} joined with a licence, {ambiguous} "
                + $"{(ambiguous == 1 ? "is" : "are")} ambiguous, and {rest} no licence explains.";
        yield return "Weights rank the explanations by frequency"
            + (answer.Matches.Any(static m => m.Measured.BearingDegrees is not null) ? ", direction" : "")
            + (answer.ByLevel ? " and level" : "") + "; they are no proof: an identification heard on the air is.";
    }

    private static IReadOnlyList<string> Row(EmitterMatch match, Typography typography) =>
    [
        MegahertzText.Of(match.Measured.FrequencyHz, 4),
        match.Measured.LevelDbm is { } level ? Figures.Db(level, typography) : "not known",
        match.Measured.Name,
        Is(match),
    ];

    /// <summary>What a measured emitter is, in words.</summary>
    public static string Is(EmitterMatch match)
    {
        ArgumentNullException.ThrowIfNull(match);
        return match.Outcome switch
        {
            MatchOutcome.Joined => Told(match.Candidates[0]),
            MatchOutcome.Ambiguous => "ambiguous: " + string.Join("; or ", match.Candidates.Take(MostCandidates).Select(Told))
                + (match.Candidates.Count > MostCandidates ? $"; or {match.Candidates.Count - MostCandidates} more" : ""),
            _ => match.Candidates.Count == 0
                ? "no licence on its frequency"
                : $"no licence of that level and direction; the nearest is {match.Candidates[0].Licensed.Name}",
        };
    }

    private static string Told(MatchCandidate candidate)
    {
        string over = candidate.OverPredictedDb is { } db
            ? string.Create(
                CultureInfo.InvariantCulture, $", {Math.Abs(db):0} dB {(db < 0 ? "under" : "over")} the prediction")
            : "";
        string aside = candidate.BearingOffDegrees is { } degrees
            ? string.Create(CultureInfo.InvariantCulture, $", {degrees:0} degrees aside")
            : "";
        string licence = candidate.Licensed.Record.Licence.Length > 0 ? $", licence {candidate.Licensed.Record.Licence}" : "";
        return string.Create(
            CultureInfo.InvariantCulture, $"{candidate.Licensed.Name}{licence} (weight {candidate.Weight:0.00}{over}{aside})");
    }
}
