using System.Globalization;
using System.Numerics;
using System.Text.Json;
using Spurless.Circuits.Response;
using Spurless.Reports.Text;

namespace Spurless.Reports.Responses;

/// <summary>Writes a response: figures and a table, JSON of the format <c>spurless-response/1</c>, or CSV of magnitudes.</summary>
public static class ResponseWriter
{
    /// <summary>So many points are shown in a table; the other formats list all.</summary>
    public const int Shown = 21;

    /// <summary>Writes figures of the pass-band and a table of points.</summary>
    /// <param name="response">The response.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ResponseResult response, TextWriter to, TextInk ink) => WriteText(response, [], to, ink);

    /// <summary>The same with what the network takes from each carrier of a site.</summary>
    /// <param name="response">The response.</param>
    /// <param name="carriers">The carriers; empty without a site.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ResponseResult response, IReadOnlyList<CarrierLoss> carriers, TextWriter to, TextInk ink)
    {
        Paragraph(to, $"{TextFlow.Printable(response.Name)}, {Impedance(response)}", ink, TextTone.Strong);
        if (response.Passband is { } pass)
        {
            to.Write('\n');
            WritePassband(pass, to);
            foreach (FurtherPassband further in response.FurtherPassbands)
            {
                to.Write($"{"passes again",-34}{Fixed(further.LossDb, 2)} dB at {Megahertz(further.PeakHz)} MHz\n");
            }
        }

        to.Write('\n');
        WriteTable(response, to, ink);
        if (response.Points.Length > Shown)
        {
            Paragraph(to, string.Create(CultureInfo.InvariantCulture, $"{Shown} of {response.Points.Length} points are shown; the other formats list all."), ink, TextTone.Faint);
        }

        if (carriers.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(new TextColumn("emitter", TextSide.Left, Wraps: true), new TextColumn("carrier\nMHz", TextSide.Right), new TextColumn("loss\ndB", TextSide.Right), new TextColumn("mismatched\nfrom .. to", TextSide.Right));
            foreach (CarrierLoss carrier in carriers)
            {
                table.Add(carrier.Emitter, Fixed(carrier.FrequencyHz / 1e6, 4), carrier.LossDb is { } loss ? Fixed(loss, 1) : "not swept", carrier.Rejection is { LowDb: { } low, HighDb: { } high } ? $"{Fixed(low, 1)} .. {Fixed(high, 1)}" : "");
            }

            table.WriteTo(to, ink);
        }

        foreach (string remark in response.Remarks)
        {
            Paragraph(to, $"- {TextFlow.Printable(remark)}", ink, TextTone.Plain);
        }
    }

    /// <summary>Writes all points as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="response">The response.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ResponseResult response, Stream to) => WriteJson(response, [], to);

    /// <summary>The same with what the network takes from each carrier of a site.</summary>
    /// <param name="response">The response.</param>
    /// <param name="carriers">The carriers; empty without a site.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ResponseResult response, IReadOnlyList<CarrierLoss> carriers, Stream to)
    {
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-response/1");
            json.WriteString("name", response.Name);
            json.WritePropertyName("impedance_ohm");
            WriteImpedance(json, response);
            json.WriteStartArray("points");
            foreach (ResponsePoint point in response.Points)
            {
                json.WriteStartObject();
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

                json.WriteEndObject();
            }

            json.WriteEndArray();
            WritePassband(json, response.Passband);
            json.WriteStartArray("further_passbands");
            foreach (FurtherPassband further in response.FurtherPassbands)
            {
                json.WriteStartObject();
                JsonText.Number(json, "peak_hz", further.PeakHz);
                JsonText.Number(json, "loss_db", further.LossDb);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            if (carriers.Count > 0)
            {
                json.WriteStartArray("carriers");
                foreach (CarrierLoss carrier in carriers)
                {
                    json.WriteStartObject();
                    json.WriteString("emitter", carrier.Emitter);
                    json.WriteNumber("frequency_hz", carrier.FrequencyHz);
                    JsonText.Number(json, "loss_db", carrier.LossDb);
                    JsonText.Number(json, "loss_low_db", carrier.Rejection?.LowDb);
                    JsonText.Number(json, "loss_high_db", carrier.Rejection?.HighDb);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteStartArray("remarks");
            foreach (string remark in response.Remarks)
            {
                json.WriteStringValue(remark);
            }

            json.WriteEndArray();
        });
    }

    /// <summary>Writes magnitudes as CSV, which reads back as a magnitude-only sweep.</summary>
    /// <param name="response">The response.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(ResponseResult response, TextWriter to)
    {
        to.Write(response.Ports == 2 ? "frequency_hz,s21_db,s11_db\n" : "frequency_hz,s11_db\n");
        foreach (ResponsePoint point in response.Points)
        {
            string s21 = response.Ports == 2 ? "," + Csv(point.S.S21) : "";
            to.Write(string.Create(CultureInfo.InvariantCulture, $"{point.FrequencyHz:R}{s21},{Csv(point.S.S11)}\n"));
        }
    }

    private static void WritePassband(Passband pass, TextWriter to)
    {
        void Row(string what, string figure) => to.Write($"{what,-34}{figure}\n");
        Row("least loss", $"{Fixed(pass.LossDb, 2)} dB at {Megahertz(pass.PeakHz)} MHz");
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
            Row("group delay at the centre", $"{Fixed(delay * 1e9, 1)} ns, {Fixed(variation * 1e9, 1)} ns apart between the -3 dB points");
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
            ? new(new("frequency\nMHz", TextSide.Right), new("S21\ndB", TextSide.Right), new("S11\ndB", TextSide.Right), new("S22\ndB", TextSide.Right), new("group delay\nns", TextSide.Right))
            : new(new("frequency\nMHz", TextSide.Right), new("S11\ndB", TextSide.Right));
        int count = response.Points.Length;
        int rows = Math.Min(count, Shown);
        for (int i = 0; i < rows; i++)
        {
            // Evenly over the points, both ends included.
            ResponsePoint point = response.Points[rows == 1 ? 0 : (int)Math.Round((double)i * (count - 1) / (rows - 1))];
            string frequency = Fixed(point.FrequencyHz / 1e6, 4);
            if (response.Ports == 2)
            {
                table.Add(frequency, Db(point.S.S21), Db(point.S.S11), Db(point.S.S22), point.GroupDelayS is { } delay ? Fixed(delay * 1e9, 2) : "");
            }
            else
            {
                table.Add(frequency, Db(point.S.S11));
            }
        }

        table.WriteTo(to, ink);
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
        JsonText.Number(json, "loss_db", pass.LossDb);
        JsonText.Number(json, "peak_hz", pass.PeakHz);
        JsonText.Number(json, "width_3db_hz", pass.Width3DbHz);
        JsonText.Number(json, "width_6db_hz", pass.Width6DbHz);
        JsonText.Number(json, "width_60db_hz", pass.Width60DbHz);
        JsonText.Number(json, "shape_factor_60_3", pass.ShapeFactor60To3);
        JsonText.Number(json, "ripple_db", pass.RippleDb);
        JsonText.Number(json, "return_loss_db", pass.ReturnLossDb);
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

    private static string Fixed(double value, int decimals) => value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Megahertz(double hertz) => (hertz / 1e6).ToString("0.0###", CultureInfo.InvariantCulture);

    private static double Decibels(Complex s) => Math.Max(-400, 20 * Math.Log10(s.Magnitude));

    private static string Db(Complex s) => Fixed(Decibels(s), 2);

    private static string Csv(Complex s) => Decibels(s).ToString("F6", CultureInfo.InvariantCulture);

    private static void Paragraph(TextWriter to, string text, TextInk ink, TextTone tone)
    {
        foreach (string line in TextFlow.Wrap(text, hanging: 2))
        {
            to.Write(ink.Apply(line, tone));
            to.Write('\n');
        }
    }
}
