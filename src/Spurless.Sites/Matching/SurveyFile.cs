using System.Text.Json;
using Spurless.Files.Diagnostics;
using Spurless.Files.Json;
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
    private const string Make = "make it by 'survey SWEEP --format json --out FILE.json'";
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

            return PositionedJson.Read(File.ReadAllBytes(path), path, diagnostics, Make) is { } root
                && Emitters(root, path, diagnostics) is { } emitters
                    ? new SurveyResult(emitters, Resolution(root))
                    : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            diagnostics.Error(path, 0, 0, "the file cannot be read", "see to its permissions and its disk");
        }

        return null;
    }

    private static List<SurveyedEmitter>? Emitters(PositionedJson root, string path, DiagnosticBag diagnostics)
    {
        if (Said(root, "format") != Format || root["emitters"] is not { Type: JsonTokenType.StartArray } list)
        {
            diagnostics.Error(path, 0, 0, $"this is no result of a survey in the format {Format}", Make);
            return null;
        }

        List<SurveyedEmitter> emitters = [];
        bool good = true;
        for (int i = 0; i < list.Items.Count; i++)
        {
            if (Emitter(list.Items[i]) is { } emitter)
            {
                emitters.Add(emitter);
                continue;
            }

            good = false;
            diagnostics.Error(
                path,
                list.Items[i].Line,
                list.Items[i].Column,
                FormattableString.Invariant($"its emitter {i + 1} has no frequency or no level"),
                Make.Replace("make it", "make it anew", StringComparison.Ordinal));
        }

        return good ? emitters : null;
    }

    /// <summary>An emitter; null where it has no frequency or no level.</summary>
    private static SurveyedEmitter? Emitter(PositionedJson item)
    {
        double? Number(string key) => item[key]?.Number;
        double? level = Number("level_dbm");
        double? under = Number("under_full_scale_db");
        if (Number("frequency_hz") is not (> 0 and { } hertz) || (level ?? -under) is not { } dbm)
        {
            return null;
        }

        double width = Number("bandwidth_hz") ?? 0;
        SpectrumLine line = new()
        {
            FrequencyHz = hertz,
            FrequencySigmaHz = Number("frequency_sigma_hz") ?? Math.Max(200, width / 10),
            BandwidthHz = width,
            BandwidthSigmaHz = Number("bandwidth_sigma_hz") ?? 0,
            LevelDbm = dbm,
            SigmaDb = Number("sigma_db") ?? 2,
            OnShare = Number("on_share") ?? 1,
            OnShareSigma = Number("on_share_sigma") ?? 0,
            Bins = (0, 0),
            Raster = Number("carrier_hz") is { } carrier && Number("raster_hz") is > 0 and { } raster
                ? new RasterFit((long)carrier, (long)raster)
                : null,
        };
        LineDoubt? doubt = Said(item, "doubtful") is { } words ? new LineDoubt.AsRead(words) : null;
        return new SurveyedEmitter(line, doubt) { IsRelative = level is null };
    }

    private static double Resolution(PositionedJson root) =>
        (root["resolution_hz"]?.Items ?? []).Select(static i => i.Number ?? 0).Append(UsualResolutionHz).Max();

    private static string? Said(PositionedJson of, string key) => of[key] is { Type: JsonTokenType.String } value ? value.Text : null;
}
