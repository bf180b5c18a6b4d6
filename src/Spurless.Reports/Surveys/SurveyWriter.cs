using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Signals.Spectra;
using Spurless.Sites.Surveys;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Surveys;

/// <summary>Writes the emitters of a survey: a table, JSON of the format <c>spurless-survey/1</c>, or CSV.</summary>
public static class SurveyWriter
{
    private const int Shown = 60;

    /// <summary>Writes them as text, the strongest first.</summary>
    /// <param name="answer">What the survey found.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(SurveyAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        Paragraph(to, Conclusion(answer));
        if (answer.Emitters.Count > 0)
        {
            to.Write('\n');
            Table(answer).WriteTo(to, ink);
            if (answer.Emitters.Count > Shown)
            {
                string all = Figures.Count(answer.Emitters.Count, Typography.Plain);
                Paragraph(to, $"The strongest {Shown} of {all}; the other formats have all.");
            }
        }

        if (answer.MadeInside.Count > 0)
        {
            to.Write("\nMade in the instrument\n");
            foreach (InstrumentLine line in answer.MadeInside)
            {
                Paragraph(
                    to,
                    $"  {MegahertzText.Of(line.Line.FrequencyHz, 4)} MHz, {Figures.Db(line.Line.LevelDbm, Typography.Plain)} "
                        + $"dBm: fell by {(line.IsBound ? "at least " : "")}{Text(line.FellDb, "0.0")} dB behind the pad.");
            }
        }

        if (answer.Remarks.Count > 0)
        {
            to.Write("\nTo be said\n");
            foreach (string remark in SurveyRemarkWords.Of(answer.Remarks))
            {
                Paragraph(to, "  " + StudyWords.Capital(remark) + ".");
            }
        }
    }

    /// <summary>Writes them as JSON.</summary>
    /// <param name="answer">What the survey found.</param>
    /// <param name="added">Names of those written into a site file.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(SurveyAnswer answer, IReadOnlyList<string> added, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-survey/1");
            json.WriteStartArray("emitters");
            foreach (SurveyedEmitter emitter in answer.Emitters)
            {
                Write(json, emitter);
            }

            json.WriteEndArray();
            JsonText.Objects(json, "made_in_the_instrument", answer.MadeInside, line =>
            {
                json.WriteNumber("frequency_hz", (long)Math.Round(line.Line.FrequencyHz));
                JsonText.Decibels(json, "level_dbm", line.Line.LevelDbm);
                JsonText.Decibels(json, "fell_db", line.FellDb);
                json.WriteBoolean("fell_at_least", line.IsBound);
            });
            json.WriteStartArray("noise_floor_dbm");
            for (int i = 0; i < answer.FloorDbm.Count; i++)
            {
                double floor = answer.FloorDbm[i];
                if (double.IsFinite(floor) && !(i < answer.FloorsRelative.Count && answer.FloorsRelative[i]))
                {
                    json.WriteNumberValue(Math.Round(floor, 6));
                }
                else
                {
                    json.WriteNullValue();
                }
            }

            json.WriteEndArray();
            json.WriteStartArray("resolution_hz");
            foreach (double resolution in answer.ResolutionHz)
            {
                json.WriteNumberValue(Math.Round(resolution, 3));
            }

            json.WriteEndArray();
            JsonText.Decibels(json, "instrument_intercept_dbm", answer.InterceptDbm);
            json.WriteBoolean("intercept_fitted", answer.InterceptFitted);
            JsonText.Strings(json, "remarks", SurveyRemarkWords.Of(answer.Remarks));
            JsonText.Strings(json, "added", added);
        });
    }

    /// <summary>Writes them as CSV.</summary>
    /// <param name="answer">What the survey found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(SurveyAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write("frequency_hz,bandwidth_hz,level_dbm,sigma_db,on_share,carrier_hz,raster_hz,doubtful,under_full_scale_db\n");
        foreach (SurveyedEmitter emitter in answer.Emitters)
        {
            SpectrumLine line = emitter.Line;
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{line.FrequencyHz:F0},{line.BandwidthHz:F0},{CsvFigure.Of(emitter.LevelDbm)},{line.SigmaDb:F6},{line.OnShare:F6},"
                    + $"{emitter.CarrierHz},{line.Raster?.RasterHz},{CsvQuoting.Quote(LineDoubtWords.Of(emitter.Doubtful) ?? "")},"
                    + $"{CsvFigure.Of(emitter.IsRelative ? -line.LevelDbm : null)}\n"));
        }
    }

    /// <summary>What is to be said of an emitter beside its figures; empty for nothing.</summary>
    internal static string Remark(SurveyedEmitter emitter) => Remark(emitter, LineDoubtWords.Of(emitter.Doubtful));

    /// <summary>The same with other words for its doubt.</summary>
    internal static string Remark(SurveyedEmitter emitter, string? doubt) => string.Join("; ", ((string?[])
    [
        emitter.IsRelative ? $"{Text(-emitter.Line.LevelDbm, "0.0")} dB under full scale" : null,
        doubt,
    ]).OfType<string>());

    /// <summary>What the survey found, in a sentence or two.</summary>
    internal static string Conclusion(SurveyAnswer answer)
    {
        int count = answer.Emitters.Count, inside = answer.MadeInside.Count;
        int doubtful = answer.Emitters.Count(static e => e.Doubtful is not null);
        string strongest = answer.Emitters is [{ IsRelative: false } first, ..]
            ? $", the strongest on {Megahertz(first.CarrierHz)} MHz with {Figures.Db(first.Line.LevelDbm, Typography.Plain)} dBm"
            : "";
        return (count switch
        {
            0 => "No emitter stands over the noise",
            1 => "1 emitter stands over the noise",
            _ => $"{Figures.Count(count, Typography.Plain)} emitters stand over the noise",
        }) + $"{strongest}."
            + (doubtful == 0 ? ""
                : doubtful == 1 ? " 1 of the emitters is doubtful: the instrument may have made it."
                : $" {Figures.Count(doubtful, Typography.Plain)} of the emitters are doubtful: the instrument may have made them.")
            + (inside == 0 ? ""
                : inside == 1 ? " 1 more line was made in the instrument itself."
                : $" {Figures.Count(inside, Typography.Plain)} more lines were made in the instrument itself.");
    }

    private static TextTable Table(SurveyAnswer answer)
    {
        TextTable table = new(
            new("MHz", TextSide.Right),
            new("level\ndBm", TextSide.Right),
            new("give or\ntake dB", TextSide.Right),
            new("width\nkHz", TextSide.Right),
            new("on", TextSide.Right),
            new("raster\nkHz", TextSide.Right),
            new("remark", Wraps: true));
        foreach (SurveyedEmitter emitter in answer.Emitters.Take(Shown))
        {
            SpectrumLine line = emitter.Line;
            table.Add(
                Megahertz(emitter.CarrierHz),
                emitter.LevelDbm is { } dbm ? Figures.Db(dbm, Typography.Plain) : "not known",
                Text(line.SigmaDb, "0.0"),
                line.BandwidthHz > 0 ? Text(line.BandwidthHz / 1000, "0.0") : "narrow",
                line.OnShare < 1 ? Figures.Percent(line.OnShare) : "always",
                line.Raster is { } fit ? Text(fit.RasterHz / 1000.0, "0.###") : "none fits",
                Remark(emitter));
        }

        return table;
    }

    private static void Write(Utf8JsonWriter json, SurveyedEmitter emitter)
    {
        SpectrumLine line = emitter.Line;
        json.WriteStartObject();
        json.WriteNumber("frequency_hz", (long)Math.Round(line.FrequencyHz));
        json.WriteNumber("bandwidth_hz", (long)Math.Round(line.BandwidthHz));
        JsonText.Decibels(json, "level_dbm", emitter.LevelDbm);
        JsonText.Decibels(json, "sigma_db", line.SigmaDb);
        JsonText.Number(json, "on_share", Math.Round(line.OnShare, 6));
        json.WriteNumber("frequency_sigma_hz", Math.Round(line.FrequencySigmaHz, 3));
        json.WriteNumber("bandwidth_sigma_hz", Math.Round(line.BandwidthSigmaHz, 3));
        JsonText.Number(json, "on_share_sigma", Math.Round(line.OnShareSigma, 6));
        json.WriteNumber("carrier_hz", emitter.CarrierHz);
        JsonText.Number(json, "raster_hz", line.Raster?.RasterHz);
        json.WriteString("doubtful", LineDoubtWords.Of(emitter.Doubtful));
        JsonText.Decibels(json, "under_full_scale_db", emitter.IsRelative ? -line.LevelDbm : null);
        json.WriteEndObject();
    }

    private static string Megahertz(long hertz) => Figures.MegahertzExact(hertz);

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
