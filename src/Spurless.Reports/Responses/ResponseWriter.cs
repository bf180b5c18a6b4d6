using System.Globalization;
using System.Numerics;
using System.Text.Json;
using Spurless.Circuits.Response;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Responses;

/// <summary>Writes a response: figures and a table, JSON of the format <c>spurless-response/1</c>, or CSV of magnitudes.</summary>
public static class ResponseWriter
{
    /// <summary>So many points are shown in a table; the other formats list all.</summary>
    public const int Shown = 21;

    /// <summary>Writes figures of the pass-band and a table of points.</summary>
    /// <param name="answer">The answer; with a site also what the network takes from each of its carriers.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ResponseAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        (ResponseResult response, IReadOnlyList<CarrierLoss> carriers) = (answer.Result, answer.Losses);
        Paragraph(to, Answer(answer), ink, TextTone.Strong);
        to.Write('\n');
        Paragraph(to, $"{TextFlow.Printable(response.Name)}, {Impedance(response)}", ink, TextTone.Plain);
        if (response.Passband is { } pass)
        {
            to.Write('\n');
            WritePassband(pass, to);
            foreach (FurtherPassband further in response.FurtherPassbands)
            {
                to.Write($"{"passes again",-34}{Fixed(further.LossDb, 2)} dB at {Megahertz(further.PeakHz)} MHz\n");
            }

            foreach (FurtherPassband lobe in response.Lobes)
            {
                to.Write($"{"lobe, no pass-band",-34}{Fixed(lobe.LossDb, 1)} dB at {Megahertz(lobe.PeakHz)} MHz\n");
            }

            foreach (Notch notch in response.Notches)
            {
                to.Write($"{"notch",-34}{Fixed(notch.LossDb, 1)} dB at {Megahertz(notch.FrequencyHz)} MHz\n");
            }
        }

        to.Write('\n');
        WriteTable(response, to, ink);
        if (response.Points.Length > Shown)
        {
            Paragraph(
                to,
                string.Create(
                    CultureInfo.InvariantCulture, $"{Shown} of {response.Points.Length} points are shown; the other formats list all."),
                ink,
                TextTone.Faint);
        }

        if (carriers.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(
                new TextColumn("emitter", TextSide.Left, Wraps: true),
                new TextColumn("carrier\nMHz", TextSide.Right),
                new TextColumn("loss\ndB", TextSide.Right),
                new TextColumn("mismatched\nfrom .. to", TextSide.Right));
            foreach (CarrierLoss carrier in carriers)
            {
                table.Add(
                    carrier.Emitter,
                    MegahertzText.Of(carrier.FrequencyHz, 4),
                    carrier.LossDb is { } loss ? Fixed(loss, 1) : "not swept",
                    carrier.Rejection is { LowDb: { } low, HighDb: { } high } ? $"{Fixed(low, 1)} .. {Fixed(high, 1)}" : "");
            }

            table.WriteTo(to, ink);
        }

        foreach (string remark in response.Remarks.Select(NetworkRemarkWords.Of))
        {
            Paragraph(to, $"- {TextFlow.Printable(remark)}", ink, TextTone.Plain);
        }
    }

    /// <summary>
    /// The answer in up to three sentences: what passes, what the channel asked for or a notch loses, which carrier is weakened least.
    /// </summary>
    /// <param name="answer">The answer.</param>
    public static string Answer(ResponseAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ResponseResult response = answer.Result;
        string passes = new ResponseView(answer).Answer.Replace('\u00A0', ' ').Replace('\u2212', '-');
        List<string> said = [passes];
        if (response.Ports == 2 && response.NearHz is { } near && response.Points.MinBy(p => Math.Abs(p.FrequencyHz - near)) is var there)
        {
            double loss = -20 * Math.Log10(Math.Max(1e-20, there.S.S21.Magnitude));
            said.Add($"At {Megahertz(there.FrequencyHz)} MHz it loses {Fixed(loss, 1)} dB.");
        }
        else if (response.Notches.MaxBy(static n => n.LossDb) is { } deepest)
        {
            said.Add($"Its deepest notch takes {Fixed(deepest.LossDb, 1)} dB at {Megahertz(deepest.FrequencyHz)} MHz.");
        }

        if (answer.Losses.Where(static c => c.LossDb is not null).MinBy(static c => c.LossDb) is { } least)
        {
            string by = Fixed(least.LossDb!.Value, 1);
            said.Add($"Of the site's carriers it weakens {TextFlow.Printable(least.Emitter)} least, by {by} dB.");
        }

        return string.Join(' ', said);
    }

    /// <summary>Writes all points as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer; with a site also what the network takes from each of its carriers.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ResponseAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        (ResponseResult response, IReadOnlyList<CarrierLoss> carriers) = (answer.Result, answer.Losses);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-response/1");
            json.WriteString("name", response.Name);
            json.WritePropertyName("impedance_ohm");
            WriteImpedance(json, response);
            JsonText.Objects(json, "points", response.Points, point =>
            {
                json.WriteNumber("frequency_hz", point.FrequencyHz);
                WriteComplex(json, "s11", point.S.S11);
                if (response.Ports == 2)
                {
                    WriteComplex(json, "s21", point.S.S21);
                    WriteComplex(json, "s12", point.S.S12);
                    WriteComplex(json, "s22", point.S.S22);
                    JsonText.Number(json, "group_delay_s", point.GroupDelayS);
                }

                if (point.InputImpedanceOhm is { } input)
                {
                    WriteComplex(json, "input_impedance_ohm", input);
                }
                else
                {
                    json.WriteNull("input_impedance_ohm");
                }
            });
            WritePassband(json, response.Passband);
            JsonText.Objects(json, "further_passbands", response.FurtherPassbands, further =>
            {
                JsonText.Number(json, "peak_hz", further.PeakHz);
                JsonText.Decibels(json, "loss_db", further.LossDb);
            });
            JsonText.Objects(json, "lobes", response.Lobes, lobe =>
            {
                JsonText.Number(json, "peak_hz", lobe.PeakHz);
                JsonText.Decibels(json, "loss_db", lobe.LossDb);
            });
            JsonText.Objects(json, "notches", response.Notches, notch =>
            {
                JsonText.Number(json, "frequency_hz", notch.FrequencyHz);
                JsonText.Decibels(json, "loss_db", notch.LossDb);
                JsonText.Decibels(json, "depth_db", notch.DepthDb);
            });
            if (carriers.Count > 0)
            {
                JsonText.Objects(json, "carriers", carriers, carrier =>
                {
                    json.WriteString("emitter", carrier.Emitter);
                    json.WriteNumber("frequency_hz", carrier.FrequencyHz);
                    JsonText.Decibels(json, "loss_db", carrier.LossDb);
                    JsonText.Decibels(json, "loss_low_db", carrier.Rejection?.LowDb);
                    JsonText.Decibels(json, "loss_high_db", carrier.Rejection?.HighDb);
                });
            }

            JsonText.Strings(json, "remarks", response.Remarks.Select(NetworkRemarkWords.Of));
        });
    }

    /// <summary>Writes magnitudes as CSV, which reads back as a magnitude-only sweep.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(ResponseAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ResponseResult response = answer.Result;
        to.Write(response.Ports == 2 ? "frequency_hz,s21_db,s11_db\n" : "frequency_hz,s11_db\n");
        foreach (ResponsePoint point in response.Points)
        {
            string s21 = response.Ports == 2 ? "," + Csv(point.S.S21) : "";
            to.Write(string.Create(CultureInfo.InvariantCulture, $"{point.FrequencyHz:R}{s21},{Csv(point.S.S11)}\n"));
        }
    }

    /// <summary>All points as a Touchstone file of version 1.1.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="text">The file; empty where it cannot be written so.</param>
    /// <returns>Why it cannot be written so; null where it can.</returns>
    public static Refusal? Touchstone(ResponseAnswer answer, out string text)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return TouchstoneWriter.TryWrite(answer.Result.ToTouchstone(), null, out text, out string problem)
            ? null
            : Refusal.OfParser(problem, "ask for another format");
    }

    private static void WritePassband(Passband pass, TextWriter to)
    {
        void Row(string what, string figure) => to.Write($"{what,-34}{figure}\n");
        Row("least loss", $"{Fixed(pass.LossDb, 2)} dB at {Megahertz(pass.PeakHz)} MHz");
        if (pass.CornerHz is { } corner)
        {
            Row(pass.Kind == PassbandKind.LowPass ? "low-pass, corner at -3 dB" : "high-pass, corner at -3 dB", $"{Megahertz(corner)} MHz");
        }
        if (pass.CentreHz is { } centre)
        {
            Row("centre", $"{Megahertz(centre)} MHz");
        }

        Edge("width at -3 dB of the peak", pass.Width3DbHz, pass.Low3DbHz, pass.High3DbHz);
        Edge("width at -6 dB", pass.Width6DbHz, pass.Low6DbHz, pass.High6DbHz);
        Edge("width at -60 dB", pass.Width60DbHz, pass.Low60DbHz, pass.High60DbHz);
        if (pass.ShapeFactor60To3 is { } shape)
        {
            Row("shape factor 60 dB : 3 dB", Fixed(shape, 2));
        }

        if (pass.RippleDb is { } ripple)
        {
            Row("ripple", $"{Fixed(ripple, 2)} dB");
        }

        if (pass.ReturnLossDb is { } match && double.IsFinite(match))
        {
            Row("return loss at the centre", $"{Fixed(match, 1)} dB");
        }

        if (pass is { GroupDelayS: { } delay, GroupDelayVariationS: { } variation })
        {
            Row("group delay at the centre", $"{Fixed(delay * 1e9, 1)} ns");
            Row("varies over the 3 dB width by", $"{Fixed(variation * 1e9, 1)} ns");
        }

        void Edge(string what, double? width, double? low, double? high)
        {
            if (width is { } w && low is { } l && high is { } h)
            {
                Row(what, $"{Megahertz(w)} MHz ({Megahertz(l)} to {Megahertz(h)})");
            }
        }
    }

    private static void WriteTable(ResponseResult response, TextWriter to, TextInk ink)
    {
        TextTable table = response.Ports == 2
            ? new(
                new("frequency\nMHz", TextSide.Right),
                new("S21\ndB", TextSide.Right),
                new("S11\ndB", TextSide.Right),
                new("S22\ndB", TextSide.Right),
                new("group delay\nns", TextSide.Right))
            : new(new("frequency\nMHz", TextSide.Right), new("S11\ndB", TextSide.Right));
        foreach (int i in Rows(response))
        {
            ResponsePoint point = response.Points[i];
            string frequency = MegahertzText.Of(point.FrequencyHz, 4);
            if (response.Ports == 2)
            {
                table.Add(
                    frequency,
                    Db(point.S.S21),
                    Db(point.S.S11),
                    Db(point.S.S22),
                    point.GroupDelayS is { } delay ? Fixed(delay * 1e9, 2) : "");
            }
            else
            {
                table.Add(frequency, Db(point.S.S11));
            }
        }

        table.WriteTo(to, ink);
    }

    // Evenly over the points, both ends included, and the channel asked for.
    private static IEnumerable<int> Rows(ResponseResult response)
    {
        int count = response.Points.Length, rows = Math.Min(count, Shown);
        int[] even = [.. Enumerable.Range(0, rows).Select(i => rows == 1 ? 0 : (int)Math.Round((double)i * (count - 1) / (rows - 1)))];
        int[] asked = [.. Enumerable.Range(0, count).Where(i => response.Points[i].FrequencyHz == response.NearHz).Take(1)];
        return even.Union(asked).Order();
    }

    private static void WritePassband(Utf8JsonWriter json, Passband? pass)
    {
        if (pass is null)
        {
            json.WriteNull("passband");
            return;
        }

        json.WriteStartObject("passband");
        JsonText.Number(json, "centre_hz", pass.CentreHz);
        JsonText.Decibels(json, "loss_db", pass.LossDb);
        JsonText.Number(json, "peak_hz", pass.PeakHz);
        json.WriteString("kind", pass.Kind switch
        {
            PassbandKind.LowPass => "low_pass",
            PassbandKind.HighPass => "high_pass",
            PassbandKind.Everything => "everything",
            _ => "band_pass",
        });
        JsonText.Number(json, "corner_hz", pass.CornerHz);
        JsonText.Number(json, "low_3db_hz", pass.Low3DbHz);
        JsonText.Number(json, "high_3db_hz", pass.High3DbHz);
        JsonText.Number(json, "width_3db_hz", pass.Width3DbHz);
        JsonText.Number(json, "width_6db_hz", pass.Width6DbHz);
        JsonText.Number(json, "width_60db_hz", pass.Width60DbHz);
        JsonText.Number(json, "shape_factor_60_3", pass.ShapeFactor60To3);
        JsonText.Decibels(json, "ripple_db", pass.RippleDb);
        JsonText.Decibels(json, "return_loss_db", pass.ReturnLossDb);
        JsonText.Number(json, "group_delay_s", pass.GroupDelayS);
        JsonText.Number(json, "group_delay_variation_s", pass.GroupDelayVariationS);
        json.WriteEndObject();
    }

    // A number where all ports are alike, else one entry a port; a complex reference is a pair.
    private static void WriteImpedance(Utf8JsonWriter json, ResponseResult response)
    {
        bool alike = response.References.All(r => r == response.References[0]);
        if (!alike)
        {
            json.WriteStartArray();
        }

        foreach (Complex reference in alike ? response.References.Take(1) : response.References)
        {
            if (reference.Imaginary == 0)
            {
                json.WriteNumberValue(reference.Real);
            }
            else
            {
                json.WriteStartArray();
                json.WriteNumberValue(reference.Real);
                json.WriteNumberValue(reference.Imaginary);
                json.WriteEndArray();
            }
        }

        if (!alike)
        {
            json.WriteEndArray();
        }
    }

    private static void WriteComplex(Utf8JsonWriter json, string name, Complex value)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(value.Real);
        json.WriteNumberValue(value.Imaginary);
        json.WriteEndArray();
    }

    private static string Impedance(ResponseResult response)
    {
        IEnumerable<string> all = response.References.Distinct().Select(static r => r.Imaginary == 0
            ? Number(r.Real)
            : Number(r.Real) + (r.Imaginary < 0 ? "-" : "+") + Number(Math.Abs(r.Imaginary)) + "j");
        return string.Join(" and ", all) + " ohm";
    }

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static string Fixed(double value, int decimals) => FixedText.Of(value, decimals);

    private static string Megahertz(double hertz) => MegahertzText.InWords(hertz);

    private static double Decibels(Complex s) => Math.Max(-400, 20 * Math.Log10(s.Magnitude));

    private static string Db(Complex s) => Fixed(Decibels(s), 2);

    private static string Csv(Complex s) => CsvFigure.Of(Decibels(s));

    private static void Paragraph(TextWriter to, string text, TextInk ink, TextTone tone)
    {
        foreach (string line in TextFlow.Wrap(text, hanging: 2))
        {
            to.Write(ink.Apply(line, tone));
            to.Write('\n');
        }
    }
}
