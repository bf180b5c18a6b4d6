using System.Globalization;
using Spurless.Drawing.Paths;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;
using Spurless.Sites.Paths;

namespace Spurless.Reports.Paths;

/// <summary>What is said of a path, made from the answer's data.</summary>
public static class PathWords
{
    /// <summary>The answer in one or two sentences: loss and level, and what lies in the way.</summary>
    /// <param name="answer">The answer.</param>
    public static string Answer(PathAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TerrainPrediction p = answer.Prediction;
        (double loss, _, double more) = Printed(p);
        string from = answer.From is { } name ? $"From {name} to {answer.To}, " : "";
        string over = more >= 0.05 ? $"{Db(more)} dB more than free space"
            : more <= -0.05 ? $"{Db(-more)} dB less than free space" : "as much as free space";
        string time = answer.Question.TimePercent < 50
            ? string.Create(CultureInfo.InvariantCulture, $" for {100 - answer.Question.TimePercent:0.##} % of the time it is more")
            : "";
        string head = string.Create(
            CultureInfo.InvariantCulture,
            $"{from}{Km(answer.Profile.LengthM)} km on {Mhz(answer.Question.FrequencyHz)} MHz, the path loses {loss:0.0} dB, "
                + $"give or take {p.SigmaDb:0.0} dB (one sigma): {over}, "
                + $"{PathNoteWords.Way(p.Mechanism!.Value)}{(time.Length > 0 ? ";" + time : "")}.");
        return StudyWords.Capital($"{head} {Way(p.Sight!)}{Level(answer)}");
    }

    /// <summary>What lies in the way, in a sentence.</summary>
    /// <param name="sight">The line of sight.</param>
    public static string Way(SightLine sight)
    {
        ArgumentNullException.ThrowIfNull(sight);
        PathObstacle worst = sight.Worst;
        string where = string.Create(
            CultureInfo.InvariantCulture,
            $"{Km(worst.DistanceM)} km from the transmitter, {Math.Round(worst.TopM):0;-0;0} m over sea level");
        if (!sight.IsClear)
        {
            string others = sight.Edges.Count switch
            {
                3 => ", with two more hills that matter",
                2 => ", with one more hill that matters",
                _ => "",
            };
            return string.Create(
                CultureInfo.InvariantCulture,
                $"The ground hides one antenna from the other: {where}, it stands {worst.OverLineM:0} m over the line of sight"
                    + $"{others}.");
        }

        double percent = Math.Min(100, 100 * worst.ClearanceInRadii);
        string free = worst.ClearanceInRadii >= 1
            ? "the whole first Fresnel zone is free there"
            : string.Create(CultureInfo.InvariantCulture,
                $"{percent:0} % of the first Fresnel zone's radius is free "
                    + $"there{(sight.IsFresnelClear ? ", enough" : ", and 60 % would be enough")}");
        return $"The line of sight is clear; the ground comes nearest {where}: {free}.";
    }

    /// <summary>The level that arrives, in a sentence with a blank before it; empty where none is known.</summary>
    public static string Level(PathAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (answer.Level is not { } level)
        {
            return answer.From is null ? "" : " The transmitter's power is not stated, so no level follows.";
        }

        string unsure = level.SigmaDb > answer.Prediction.SigmaDb + 0.05
            ? $", give or take {Figures.BareDb(level.SigmaDb)} dB with what the antennas leave open"
            : "";
        string predicted = $" That makes {Figures.Db(level.AtAntennaDbm, Typography.Plain)} dBm at the antenna{unsure}";
        return level.MeasuredDbm is { } measured
            ? $"{predicted}; the site file states {Figures.Db(measured, Typography.Plain)} dBm, measured, which wins."
            : predicted + ".";
    }

    /// <summary>Loss, free space and their difference as printed, so that they add up.</summary>
    internal static (double Loss, double Free, double More) Printed(TerrainPrediction prediction)
    {
        double loss = Figures.Rounded(prediction.LossDb!.Value);
        double free = Figures.Rounded(prediction.FreeSpaceDb!.Value);
        return (loss, free, Math.Round(loss - free, 1));
    }

    /// <summary>The picture of the path.</summary>
    /// <param name="answer">The answer.</param>
    public static PathPictureModel Picture(PathAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        double gradient = answer.Question.Conditions.Gradient;
        return new PathPictureModel
        {
            Title = answer.From is { } from ? $"The ground between {from} and {answer.To}" : "The ground along the path",
            Description = string.Create(
                CultureInfo.InvariantCulture,
                $"Profile over {Km(answer.Profile.LengthM)} km with the bulge of the earth, the line of sight and the first Fresnel "
                    + $"zone. {Way(answer.Prediction.Sight!)}"),
            From = answer.From ?? "transmitter",
            To = answer.To ?? "receiver",
            Profile = answer.Profile,
            TransmitterHeightM = answer.Question.TransmitterHeightM,
            ReceiverHeightM = answer.Question.ReceiverHeightM,
            FrequencyHz = answer.Question.FrequencyHz,
            RadiusKm = answer.Prediction.Parts?.MedianRadiusKm ?? 6371 * 157 / (157 - gradient),
            Sight = answer.Prediction.Sight!,
        };
    }

    /// <summary>Where the ground came from, in a sentence.</summary>
    public static string Ground(PathAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Sampled is { } sampled
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"Ground from {string.Join(", ", sampled.Tiles)}, {answer.Profile.Count} points {sampled.StepM:0} m apart along the "
                    + $"geodesic, heights good to {sampled.HeightErrorM:0.#} m.")
            : string.Create(CultureInfo.InvariantCulture, $"Ground from the profile's {answer.Profile.Count} points.");
    }

    internal static string Km(double metres) => (metres / 1000).ToString(metres < 10_000 ? "0.00" : "0.0", CultureInfo.InvariantCulture);

    internal static string Mhz(double hertz) => MegahertzText.InWords(hertz);

    internal static string Db(double value) => Figures.BareDb(value);
}
