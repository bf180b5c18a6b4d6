using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Typefaces;
using Spurless.Drawing.Words;
using Spurless.Reports.Html;
using Spurless.Reports.Text;

namespace Spurless.Reports.Pictures;

/// <summary>The study picture as a file that stands by itself, and what it shows as a table.</summary>
public static partial class PictureFile
{
    // Points of the response in the table; the goal's number of points in a picture.
    private const int ResponsePoints = 801;

    /// <summary>The picture as SVG, in the light colours, its style within it and no variable left for a program to resolve.</summary>
    /// <param name="model">What it shows.</param>
    /// <param name="width">For what width it is drawn, in CSS pixels.</param>
    /// <param name="selected">Number of the mixture whose arithmetic is drawn; null for none.</param>
    public static async Task<string> SvgAsync(StudyPictureModel model, double width, int? selected)
    {
        string svg = await PageRenderer.RenderAsync<StudyPicture>(new Dictionary<string, object?>
        {
            [nameof(StudyPicture.Model)] = model,
            [nameof(StudyPicture.Id)] = "p",
            [nameof(StudyPicture.Width)] = width,
            [nameof(StudyPicture.Selected)] = selected,
        }).ConfigureAwait(false);
        return Alone(svg);
    }

    /// <summary>Any drawing as SVG that stands by itself.</summary>
    /// <param name="scene">The drawing.</param>
    public static async Task<string> SvgAsync(Scene scene) => Alone(
        await PageRenderer.RenderAsync<SceneView>(new Dictionary<string, object?>
        {
            [nameof(SceneView.Scene)] = scene,
            [nameof(SceneView.Id)] = "p",
        }).ConfigureAwait(false));

    private static string Alone(string svg)
    {
        int at = svg.IndexOf('>', StringComparison.Ordinal);
        string ground = Value("paper");
        return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            + svg[..at].Replace("<svg ", "<svg xmlns=\"http://www.w3.org/2000/svg\" ", StringComparison.Ordinal)
            + $"><style>{Styles()}</style><rect width=\"100%\" height=\"100%\" fill=\"{ground}\"/>"
            + NoCharacter().Replace(svg[(at + 1)..], "?");
    }

    /// <summary>Everything that the picture shows, one row a thing: carriers, mixtures, the response. Null is an empty cell.</summary>
    public static string Csv(StudyPictureModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        StringBuilder csv = new(
            "part,mark,name,frequency_hz,offset_hz,before_dbm,now_dbm,before_over_noise_db,now_over_noise_db,"
                + "verdict_before,verdict_now,gain_db\n");
        foreach (LetteredCarrier c in model.Carriers)
        {
            Row(
                "carrier",
                c.Letter,
                c.Finding.Emitter,
                Whole(c.Finding.FrequencyHz),
                "",
                CsvFigure.Of(c.Finding.LevelAtAntennaDbm),
                CsvFigure.Of(c.Finding.LevelAtReceiverDbm),
                "",
                "",
                "",
                "",
                "");
        }

        foreach (NumberedFinding f in model.Findings)
        {
            Row(
                "mixture",
                Whole(f.Number),
                $"{StudyWords.Mixture(f.Either, Typography.Plain)} ({StudyWords.Names(f.Either, Typography.Plain)})",
                Whole(f.Either.FrequencyHz),
                Whole(f.Either.OffsetHz),
                CsvFigure.Of(f.Before?.InChannelLevelDbm),
                CsvFigure.Of(f.InChannelNowDbm),
                CsvFigure.Of(f.Before?.OverNoiseDb),
                CsvFigure.Of(f.OverNoiseNowDb),
                f.Before is { } before ? StudyWords.Word(before.Verdict) : "",
                StudyWords.Word(f.Now),
                "");
        }

        double low = model.Carriers.Select(static c => (double)c.Finding.FrequencyHz).Append(model.Receiver.FrequencyHz).Min() / 1.1;
        double high = model.Carriers.Select(static c => (double)c.Finding.FrequencyHz).Append(model.Receiver.FrequencyHz).Max() * 1.1;
        for (int i = 0; i < ResponsePoints; i++)
        {
            double frequency = Math.Round(low * Math.Pow(high / low, i / (ResponsePoints - 1.0)));
            Row(
                "response",
                "",
                "",
                frequency.ToString("0", CultureInfo.InvariantCulture),
                "",
                "",
                "",
                "",
                "",
                "",
                "",
                CsvFigure.Of(model.ResponseDb(frequency)));
        }

        return csv.ToString();

        void Row(params ReadOnlySpan<string> cells)
        {
            for (int i = 0; i < cells.Length; i++)
            {
                csv.Append(i > 0 ? "," : "").Append(CsvQuoting.Quote(cells[i]));
            }

            csv.Append('\n');
        }
    }

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>The rules of pictures with every variable replaced by its value in the light theme.</summary>
    private static string Styles()
    {
        string css = DrawingStyles.Css;
        int rules = css.IndexOf("svg.pic", StringComparison.Ordinal);
        return TypefaceStyles.OfPictures + Variable().Replace(css[rules..], static m => Value(m.Groups[1].Value));
    }

    private static string Value(string name) =>
        Regex.Match(DrawingStyles.Css, $"--{name}: ([^;]+);", RegexOptions.CultureInvariant, TimeSpan.FromSeconds(1)).Groups[1].Value;

    // XML 1.0 has no place for control characters but tab and line ends (section 2.2), whatever a name holds.
    [GeneratedRegex("&#x(?:0?[0-8BCEF]|1[0-9A-F]|FFF[EF]);", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex NoCharacter();

    [GeneratedRegex(@"var\(--([a-z-]+)\)", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Variable();
}
