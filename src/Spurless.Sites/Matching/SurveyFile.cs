using System.Text.Json;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Spectra;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Matching;

/// <summary>A survey as its result says.</summary>
/// <param name="Emitters">Its emitters.</param>
/// <param name="ResolutionHz">The widest bin that it counted with, in hertz.</param>
public sealed record SurveyResult(IReadOnlyList<SurveyedEmitter> Emitters, double ResolutionHz);

/// <summary>Reads the emitters of a survey from its result in JSON, format <c>spurless-survey/1</c>.</summary>
public static class SurveyFile
{
    private const string Format = "spurless-survey/1";
    private const double UsualResolutionHz = 1_000;
    private const long Largest = 64 << 20;

    /// <summary>Reads one.</summary>
    /// <param name="path">The file.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>It; null where it cannot be used.</returns>
    public static SurveyResult? Read(string path, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        try
        {
            FileInfo file = new(path);
            if (!file.Exists || file.Length > Largest)
            {
                diagnostics.Error(
                    path, 0, 0, file.Exists ? "the file is larger than 64 MB" : "there is no such file", "give the JSON of a survey");
                return null;
            }

            using JsonDocument json = JsonDocument.Parse(File.ReadAllBytes(path));
            return Emitters(json.RootElement, path, diagnostics) is { } emitters
                ? new SurveyResult(emitters, Resolution(json.RootElement))
                : null;
        }
        catch (JsonException e)
        {
            diagnostics.Error(
                path,
                (int)(e.LineNumber ?? 0) + 1,
                (int)(e.BytePositionInLine ?? 0) + 1,
                "this is no JSON",
                "make it by 'survey SWEEP --format json --out FILE.json'");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            diagnostics.Error(path, 0, 0, "the file cannot be read", "see to its permissions and its disk");
        }

        return null;
    }

    private static List<SurveyedEmitter>? Emitters(JsonElement root, string path, DiagnosticBag diagnostics)
    {
        if (root.ValueKind != JsonValueKind.Object
            || !root.TryGetProperty("format", out JsonElement format)
            || format.ValueKind != JsonValueKind.String
            || format.GetString() != Format
            || !root.TryGetProperty("emitters", out JsonElement list)
            || list.ValueKind != JsonValueKind.Array)
        {
            diagnostics.Error(
                path,
                0,
                0,
                $"this is no result of a survey in the format {Format}",
                "make it by 'survey SWEEP --format json --out FILE.json'");
            return null;
        }

        List<SurveyedEmitter> emitters = [];
        foreach (JsonElement item in list.EnumerateArray())
        {
            double? hertz = Number(item, "frequency_hz");
            double? level = Number(item, "level_dbm");
            double? under = Number(item, "under_full_scale_db");
            if (hertz is not > 0 || (level is null && under is null))
            {
                diagnostics.Error(
                    path,
                    0,
                    0,
                    FormattableString.Invariant($"its emitter {emitters.Count + 1} has no frequency or no level"),
                    "make it anew by 'survey SWEEP --format json --out FILE.json'");
                return null;
            }

            double width = Number(item, "bandwidth_hz") ?? 0;
            emitters.Add(new SurveyedEmitter(
                new SpectrumLine
                {
                    FrequencyHz = hertz.Value,
                    FrequencySigmaHz = Number(item, "frequency_sigma_hz") ?? Math.Max(200, width / 10),
                    BandwidthHz = width,
                    BandwidthSigmaHz = Number(item, "bandwidth_sigma_hz") ?? 0,
                    LevelDbm = level ?? -under!.Value,
                    SigmaDb = Number(item, "sigma_db") ?? 2,
                    OnShare = Number(item, "on_share") ?? 1,
                    OnShareSigma = Number(item, "on_share_sigma") ?? 0,
                    Bins = (0, 0),
                    Raster = Number(item, "carrier_hz") is { } carrier && Number(item, "raster_hz") is > 0 and { } raster
                        ? new RasterFit((long)carrier, (long)raster)
                        : null,
                },
                item.TryGetProperty("doubtful", out JsonElement doubt) && doubt.ValueKind == JsonValueKind.String
                    ? doubt.GetString()
                    : null)
            {
                IsRelative = level is null,
            });
        }

        return emitters;
    }

    private static double Resolution(JsonElement root) =>
        root.TryGetProperty("resolution_hz", out JsonElement list) && list.ValueKind == JsonValueKind.Array
            ? list.EnumerateArray().Select(static e => e.ValueKind == JsonValueKind.Number ? e.GetDouble() : 0)
                .Append(UsualResolutionHz).Max()
            : UsualResolutionHz;

    private static double? Number(JsonElement item, string key) =>
        item.ValueKind == JsonValueKind.Object
            && item.TryGetProperty(key, out JsonElement value)
            && value.ValueKind == JsonValueKind.Number
            && value.TryGetDouble(out double number)
            && double.IsFinite(number)
            ? number
            : null;
}
