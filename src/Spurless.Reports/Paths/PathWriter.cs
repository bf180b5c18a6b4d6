using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Radio.Terrain;
using Spurless.Reports.Text;
using Spurless.Sites.Paths;

namespace Spurless.Reports.Paths;

/// <summary>Writes the answer to one path: sentences and tables, or JSON of the format <c>spurless-path/1</c>.</summary>
public static class PathWriter
{
    /// <summary>Writes the answer, the loss by each way, what lies in the way, and what was assumed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(PathAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        TextParagraphs.Paragraph(to, PathWords.Answer(answer), ink, TextTone.Strong);
        to.Write('\n');
        Sum(answer, to, ink);
        if (answer.Prediction.Parts is { } parts)
        {
            to.Write('\n');
            TextTable ways = new(new TextColumn("loss by each way alone"), new TextColumn("dB", TextSide.Right));
            ways.Add("free space", One(parts.FreeSpaceDb));
            ways.Add("diffraction over the ground", One(parts.ByDiffractionDb));
            ways.Add("ducting and layer reflection", One(parts.DuctingDb));
            ways.Add("troposcatter", One(parts.TroposcatterDb));
            ways.WriteTo(to, ink);
        }

        if (answer.Prediction.Sight!.Edges.Count > 0)
        {
            to.Write('\n');
            Edges(answer.Prediction.Sight, to, ink);
        }

        to.Write('\n');
        TextParagraphs.Paragraph(to, PathWords.Ground(answer) + " " + Sigma(answer.Prediction), ink);
        if (answer.Assumed.Count > 0)
        {
            to.Write("\nAssumed\n");
            TextParagraphs.List(to, LevelNoteWords.Of(answer.Assumed), ink);
        }
    }

    /// <summary>Writes the answer as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(PathAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TerrainPrediction p = answer.Prediction;
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-path/1");
            json.WriteString("says", PathWords.Answer(answer));
            json.WriteString("from", answer.From);
            json.WriteString("to", answer.To);
            JsonText.Number(json, "distance_m", answer.Profile.LengthM);
            JsonText.Number(json, "bearing_deg", answer.BearingDegrees);
            JsonText.Number(json, "frequency_hz", answer.Question.FrequencyHz);
            JsonText.Number(json, "time_percent", answer.Question.TimePercent);
            JsonText.Decibels(json, "loss_db", p.LossDb);
            JsonText.Decibels(json, "sigma_db", p.SigmaDb);
            json.WriteString("mechanism", PathNoteWords.Name(p.Mechanism!.Value));
            json.WriteStartObject("parts");
            JsonText.Decibels(json, "free_space_db", p.FreeSpaceDb);
            JsonText.Decibels(json, "diffraction_db", p.Parts?.DiffractionDb ?? (p.LossDb - p.FreeSpaceDb));
            JsonText.Decibels(json, "ducting_db", p.Parts?.DuctingDb);
            JsonText.Decibels(json, "troposcatter_db", p.Parts?.TroposcatterDb);
            JsonText.Decibels(json, "by_diffraction_db", p.Parts?.ByDiffractionDb);
            json.WriteEndObject();
            json.WriteStartObject("sigma_parts");
            JsonText.Decibels(json, "location_db", p.Sigma?.LocationDb);
            JsonText.Decibels(json, "heights_db", p.Sigma?.DataDb);
            JsonText.Decibels(json, "model_db", p.Sigma?.ModelDb);
            json.WriteEndObject();
            Way(json, p.Sight!);
            JsonText.Decibels(json, "level_dbm", answer.Level?.AtAntennaDbm);
            JsonText.Decibels(json, "level_sigma_db", answer.Level?.SigmaDb);
            JsonText.Decibels(json, "antenna_effects_db", answer.Level?.EffectsDb);
            JsonText.Decibels(json, "measured_dbm", answer.Level?.MeasuredDbm);
            JsonText.Number(json, "points", answer.Profile.Count);
            JsonText.Strings(json, "tiles", answer.Sampled?.Tiles ?? []);
            JsonText.Number(json, "filled_points", answer.Sampled?.Filled ?? 0);
            JsonText.Strings(json, "assumed", LevelNoteWords.Of(answer.Assumed));
        });
    }

    private static void Way(Utf8JsonWriter json, SightLine sight)
    {
        json.WriteBoolean("line_of_sight", sight.IsClear);
        JsonText.Number(json, "clearance_fresnel_radii", sight.Worst.ClearanceInRadii);
        json.WritePropertyName("summit");
        Obstacle(json, sight.Worst);
        json.WriteStartArray("edges");
        foreach (PathObstacle edge in sight.Edges)
        {
            Obstacle(json, edge);
        }

        json.WriteEndArray();
        JsonText.Decibels(json, "edges_loss_db", sight.EdgesLossDb);
    }

    private static void Obstacle(Utf8JsonWriter json, PathObstacle obstacle)
    {
        json.WriteStartObject();
        JsonText.Number(json, "distance_m", obstacle.DistanceM);
        JsonText.Number(json, "height_m", obstacle.TopM);
        JsonText.Number(json, "over_line_m", obstacle.OverLineM);
        JsonText.Number(json, "v", obstacle.V);
        JsonText.Decibels(json, "edge_loss_db", obstacle.EdgeLossDb);
        json.WriteEndObject();
    }

    private static void Sum(PathAnswer answer, TextWriter to, TextInk ink)
    {
        TextTable sum = new(new TextColumn(answer.Level is null ? "loss" : "level"), new TextColumn(
            answer.Level is null ? "dB" : "dB, dBm", TextSide.Right));
        foreach ((string what, string figure) in SumRows(answer))
        {
            sum.Add(what, figure);
        }

        sum.WriteTo(to, ink);
    }

    /// <summary>
    /// The sum as printed: free space and the ground as in the sentence above it; what rounding leaves over goes to what is radiated.
    /// </summary>
    internal static IEnumerable<(string What, string Figure)> SumRows(PathAnswer answer)
    {
        (double loss, double free, double more) = PathWords.Printed(answer.Prediction);
        string ground = answer.Prediction.Sight!.IsClear ? "the ground and the air on the way" : "the ground in the way";
        if (answer.Level is not { } level)
        {
            yield return ("free space", One(free));
            yield return (ground, One(more));
            yield return ("loss", One(loss));
            yield break;
        }

        double arrives = Figures.Rounded(level.AtAntennaDbm);
        IReadOnlyList<double> parts = PrintedSum.Of([level.RadiatedDbm, level.ReceiverGainDbi, level.EffectsDb], arrives + loss, taker: 0);
        yield return ("radiated towards the receiver", One(parts[0]));
        yield return ("gain of the receiving antenna", One(parts[1]));
        if (parts[2] != 0)
        {
            yield return ("antennas off their band, crossed or tilted; output filter", One(parts[2]));
        }

        yield return ("free space", One(-free));
        yield return (ground, One(-more));
        yield return ("at the antenna", One(arrives));
    }

    private static void Edges(SightLine sight, TextWriter to, TextInk ink)
    {
        TextTable edges = new(
            new TextColumn("in the way, at km", TextSide.Right),
            new TextColumn("over sea\nm", TextSide.Right),
            new TextColumn("over the line\nm", TextSide.Right),
            new TextColumn("as an edge\ndB", TextSide.Right));
        foreach (PathObstacle edge in sight.Edges)
        {
            edges.Add(PathWords.Km(edge.DistanceM), Whole(edge.TopM), Whole(edge.OverLineM), One(edge.EdgeLossDb));
        }

        edges.WriteTo(to, ink);
        TextParagraphs.Paragraph(
            to, $"As knife edges (ITU-R P.526) these lose {One(sight.EdgesLossDb)} dB together; the loss above is that of ITU-R P.1812.",
                ink);
    }

    private static string Sigma(TerrainPrediction prediction) => prediction.Sigma is { } s
        ? $"Sigma: {One(s.LocationDb)} dB from place to place, {One(s.DataDb)} dB by the heights, {One(s.ModelDb)} dB by the method."
        : $"Sigma: {One(prediction.SigmaDb!.Value)} dB, common practice outside the method's range.";

    private static string One(double value) => Figures.Db(value, Typography.Plain);

    private static string Whole(double value) => Math.Round(value).ToString("0;-0;0", CultureInfo.InvariantCulture);
}
