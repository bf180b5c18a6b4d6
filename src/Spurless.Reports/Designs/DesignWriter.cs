using System.Text.Json;
using Spurless.Circuits.Parts;
using Spurless.Design.Designing;
using Spurless.Design.Optimising;
using Spurless.Design.Tuning;
using Spurless.Radio.Quantities;
using Spurless.Reports.Bench;
using Spurless.Reports.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Designs;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Reports.Designs;

/// <summary>Writes a design: an answer and tables, JSON of the format <c>spurless-design/1</c>, or CSV of the candidates.</summary>
public static class DesignWriter
{
    /// <summary>Writes the answer, the candidates, and of the best its demands, parts and alignment.</summary>
    /// <param name="reading">What was found.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(DesignReading reading, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(reading);
        TextParagraphs.Paragraph(to, DesignWords.Answer(reading), ink, TextTone.Strong);
        if (reading.Brief.Needs is { } needs)
        {
            to.Write('\n');
            TextParagraphs.Paragraph(to, Needs(needs), ink);
        }

        to.Write('\n');
        TextTable table = new(
            new TextColumn("", TextSide.Right),
            new TextColumn("family", TextSide.Left, Wraps: true),
            new TextColumn("loss dB", TextSide.Right),
            new TextColumn("to spare", TextSide.Right),
            new TextColumn("parts", TextSide.Right),
            new TextColumn("built", TextSide.Right),
            new TextColumn("tuned", TextSide.Right),
            new TextColumn("bears W", TextSide.Right));
        foreach (DesignedFile f in reading.Files)
        {
            DesignCandidate c = f.Candidate;
            table.Add(
                Text(f.Rank, "0"), c.Family, Text(c.WorstPassLossDb, "0.00"), DesignWords.Down(c.WorstMarginDb), Text(c.PartCount, "0"),
                c.Tolerance?.Yield is { } y ? DesignWords.Percent(y) : "",
                c.Tuned is { } t ? DesignWords.Percent(t.Yield) : "",
                c.BearsW is { } w ? Text(w, w < 10 ? "0.0" : "0") : "");
            if (!c.Meets)
            {
                table.Note(DesignWords.Short(c), TextTone.Faint);
            }
        }

        table.WriteTo(to, ink);
        TextParagraphs.Paragraph(
            to,
            "Built, tuned: share of builds that meet it as built, and with the parts named below adjusted. "
                + "Bears: power at which the first part reaches its limit.",
            ink,
            TextTone.Faint);
        if (reading.Files.Count > 0)
        {
            Best(reading, to, ink);
        }

        to.Write("\nAssumed\n");
        TextParagraphs.List(to, DesignWords.Assumed(reading), ink);
        to.Write("\nCautions\n");
        TextParagraphs.List(to, DesignWords.Cautions(reading), ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="reading">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(DesignReading reading, Stream to)
    {
        ArgumentNullException.ThrowIfNull(reading);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-design/1");
            json.WriteString("name", reading.Brief.Question.Name);
            json.WriteString("says", DesignWords.Answer(reading));
            json.WriteBoolean("complete", reading.Answer.IsComplete);
            JsonText.Objects(json, "candidates", reading.Files, file =>
            {
                Candidate(json, file);
            });
            JsonText.Objects(json, "needs", reading.Brief.Needs?.Carriers ?? [], need =>
            {
                json.WriteString("emitter", need.Emitter);
                json.WriteNumber("frequency_hz", need.FrequencyHz);
                JsonText.Decibels(json, "attenuation_db", need.AttenuationDb);
            });
            json.WriteStartArray("families_tried");
            foreach ((string family, double margin) in reading.Answer.FamiliesTried)
            {
                json.WriteStartObject();
                json.WriteString("family", family);
                JsonText.Number(json, "weighted_margin", margin);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            if (reading.Answer.Bound is { } bound)
            {
                json.WriteStartObject("cohn_estimate");
                json.WriteNumber("resonators", bound.Order);
                JsonText.Decibels(json, "ripple_db", bound.RippleDb);
                JsonText.Number(json, "width_hz", bound.WidthHz);
                JsonText.Number(json, "needed_q", bound.NeededQ);
                JsonText.Number(json, "have_q", bound.HaveQ);
                json.WriteEndObject();
            }
            else
            {
                json.WriteNull("cohn_estimate");
            }

            JsonText.Strings(json, "assumed", DesignWords.Assumed(reading));
        });
    }

    /// <summary>Writes the candidates as CSV.</summary>
    /// <param name="reading">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(DesignReading reading, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(reading);
        to.Write("rank,family,meets,file,worst_pass_loss_db,worst_margin_db,parts,yield,yield_tuned,bears_w\n");
        foreach (DesignedFile f in reading.Files)
        {
            DesignCandidate c = f.Candidate;
            string[] cells =
            [
                Text(f.Rank, "0"),
                $"\"{c.Family}\"",
                c.Meets ? "true" : "false",
                f.FileName,
                Text(c.WorstPassLossDb, "F6"),
                Text(c.WorstMarginDb, "F6"),
                Text(c.PartCount, "0"),
                c.Tolerance?.Yield is { } y ? Text(y, "G6") : "",
                c.Tuned is { } t ? Text(t.Yield, "G6") : "",
                c.BearsW is { } w ? Text(w, "G6") : "",
            ];
            to.Write(string.Join(',', cells) + "\n");
        }
    }

    /// <summary>What a site needs, in a sentence.</summary>
    public static string Needs(ReceiverNeeds needs)
    {
        ArgumentNullException.ThrowIfNull(needs);
        string list = string.Join(
            ", ", needs.Carriers.Select(static c => FormattableString.Invariant($"{c.Emitter} {c.AttenuationDb:0.0}")));
        string rest = needs.MadeElsewhere > 0
            ? needs.MadeElsewhere == 1
            ? " One harmful mixture is made elsewhere: no filter here takes it away."
            : FormattableString.Invariant($" {needs.MadeElsewhere} harmful mixtures are made elsewhere: no filter here takes them away.")
            : "";
        string own = needs.OwnOnly > 0
            ? FormattableString.Invariant($" {needs.OwnOnly} of the receiver's own transmitter alone left out.")
            : "";
        return $"Needed before {needs.Receiver}, dB, margin included: {list}.{rest}{own}";
    }

    private static void Candidate(Utf8JsonWriter json, DesignedFile file)
    {
        DesignCandidate c = file.Candidate;
        json.WriteNumber("rank", file.Rank);
        json.WriteString("family", c.Family);
        json.WriteBoolean("meets", c.Meets);
        json.WriteString("file", file.FileName);
        JsonText.Decibels(json, "worst_pass_loss_db", c.WorstPassLossDb);
        JsonText.Decibels(json, "worst_return_loss_db", c.Findings.FirstOrDefault(static f => f.Kind == DemandKind.ReturnLoss)?.AchievedDb);
        JsonText.Decibels(json, "worst_margin_db", c.WorstMarginDb);
        JsonText.Objects(json, "rejections", c.Findings.Where(static f => f.Kind == DemandKind.Rejection), f =>
        {
            JsonText.Number(json, "frequency_hz", f.WorstHz);
            JsonText.Decibels(json, "needed_db", f.NeededDb);
            JsonText.Decibels(json, "achieved_db", f.AchievedDb);
        });
        json.WriteNumber("parts", c.PartCount);
        JsonText.Number(json, "yield", c.Tolerance?.Yield);
        JsonText.Number(json, "yield_tuned", c.Tuned?.Yield);
        JsonText.Number(json, "yield_tuned_low", c.Tuned?.Interval.Low);
        JsonText.Number(json, "yield_tuned_high", c.Tuned?.Interval.High);
        JsonText.Number(json, "bears_w", c.BearsW);
        json.WriteString("gives_first", StressWords.GivesFirst(c.GivesFirst));
        JsonText.Number(json, "coil_q_would_meet", c.QualityWouldMeet);
        JsonText.Objects(json, "trimmers", c.Tuned?.Trimmers ?? [], t =>
        {
            json.WriteString("part", t.Part);
            JsonText.Number(json, "nominal", t.Nominal);
            JsonText.Number(json, "low", t.Low);
            JsonText.Number(json, "high", t.High);
        });
        JsonText.Objects(json, "coils", c.Coils, w =>
        {
            json.WriteString("part", w.Part);
            JsonText.Number(json, "inductance_h", w.InductanceH);
            JsonText.Number(json, "low_frequency_inductance_h", w.LowFrequencyH);
            JsonText.Number(json, "turns", w.Geometry.Turns);
            JsonText.Number(json, "tap_turns", w.Tap?.Turns);
            JsonText.Number(json, "wire_m", w.Geometry.WireM);
            JsonText.Number(json, "rod_m", w.InsideM);
            JsonText.Number(json, "mean_diameter_m", w.Geometry.DiameterM);
            JsonText.Number(json, "length_m", w.Geometry.LengthM);
            JsonText.Number(json, "lead_m", w.Geometry.LeadM);
            JsonText.Number(json, "q_by_geometry", w.Q);
        });
        JsonText.Strings(json, "tuning", c.Steps.Select(DesignWords.Step));
    }

    private static void Best(DesignReading reading, TextWriter to, TextInk ink)
    {
        DesignedFile best = reading.Files[0];
        DesignCandidate c = best.Candidate;
        to.Write('\n');
        TextParagraphs.Paragraph(to, $"{DesignWords.Capital(c.Family)}: {best.FileName}", ink);
        to.Write('\n');
        TextTable demands = new(
            new TextColumn("at MHz", TextSide.Right),
            new TextColumn("demand", TextSide.Left),
            new TextColumn("asked dB", TextSide.Right),
            new TextColumn("has", TextSide.Right));
        foreach (DemandFinding f in c.Findings)
        {
            demands.Add(MegahertzText.Of(f.WorstHz, 4), Demand(f.Kind), Text(f.NeededDb, "0.0"), Text(f.AchievedDb, "0.0#"));
        }

        demands.WriteTo(to, ink);
        to.Write('\n');
        TextTable parts = new(
            new TextColumn("part", TextSide.Left),
            new TextColumn("value", TextSide.Right),
            new TextColumn("take", TextSide.Left, Wraps: true));
        foreach (Part part in c.Circuit.Parts)
        {
            parts.Add(part.Name, Value(part), Take(part, c, reading.Brief));
        }

        parts.WriteTo(to, ink);
        if (c.Steps.Count > 0)
        {
            to.Write("\nTuning\n");
            foreach (TuningStep step in c.Steps)
            {
                TextParagraphs.Paragraph(to, FormattableString.Invariant($"{step.Number}. {DesignWords.Step(step)}"), ink);
            }
        }

        to.Write("\nLayout\n");
        TextParagraphs.List(to, DesignWords.Layout(c).Select(DesignWords.Capital), ink);
    }

    /// <summary>A demand in words.</summary>
    public static string Demand(DemandKind kind) =>
        kind switch { DemandKind.PassLoss => "loss at most", DemandKind.ReturnLoss => "return loss at least", _ => "loss at least" };

    /// <summary>A part's value with its unit; empty for one without.</summary>
    public static string Value(Part part) => part switch
    {
        Capacitor c => PartText.Pico(c.Capacitance.Require()),
        Inductor l => FormattableString.Invariant($"{l.Inductance.Require() * 1e9:0.0} nH"),
        Resistor r => FormattableString.Invariant($"{r.Resistance.Require():0.##} ohm"),
        Coupling m => FormattableString.Invariant($"{m.Coefficient.Require():0.0000}"),
        Line w => FormattableString.Invariant($"{w.Length.Require() * 1e3:0.0} mm"),
        Stub w => FormattableString.Invariant($"{w.Length.Require() * 1e3:0.0} mm"),
        _ => "",
    };

    /// <summary>What is said of a wound coil beside its dimensions: that its length is adjusted, and what it must bear.</summary>
    internal static string Besides(Part part, DesignCandidate c) => string.Join("; ", new[]
    {
        c.Coils.FirstOrDefault(w => w.Part == part.Name)?.Tap is { } tap ? DesignedCircuitFile.Tap(tap) : "",
        c.Tuned?.Trimmers.Any(t => t.Part == part.Name) == true ? "length adjusted" : "",
        part.Rated?.PowerW is { } w ? $"bears {Text(w, "0.##")} W" : "",
    }.Where(static s => s.Length > 0));

    /// <summary>Wire for a coil with its leads in metres, and 10 mm to solder and trim: turns of the mean diameter along a helix.</summary>
    internal static double WireToCutM(Spurless.Design.Winding.WoundCoil coil) =>
        Math.Sqrt(Math.Pow(Math.PI * coil.Geometry.DiameterM * coil.Geometry.Turns, 2) + Math.Pow(coil.Geometry.LengthM, 2))
            + (2 * coil.Geometry.LeadM) + 0.01;

    /// <summary>What to take for a part: fixed or with a trimmer, how it is wound, what it must bear.</summary>
    public static string Take(Part part, DesignCandidate c, DesignBrief brief)
    {
        List<string> words = [];
        if (c.Tuned?.Trimmers.FirstOrDefault(t => t.Part == part.Name) is { IsCapacitor: true } trimmer)
        {
            words.Add(trimmer.Take(brief.Question.Parts.Series) is { } take
                ? (take.FixedF > 0 ? $"{PartText.Pico(take.FixedF)} and " : "")
                    + $"a trimmer of {PartText.Pico(take.TrimmerLowF)} to {PartText.Pico(take.TrimmerHighF)}"
                : FormattableString.Invariant($"variable, {trimmer.Low * 1e12:0.0} to {trimmer.High * 1e12:0.0} pF"));
        }
        else if (part is Capacitor { Tolerance: { } tolerance })
        {
            words.Add(FormattableString.Invariant($"fixed, {100 * tolerance.Fraction:0.#} %"));
        }

        if (c.Coils.FirstOrDefault(w => w.Part == part.Name) is { } coil)
        {
            words.Add(
                DesignedCircuitFile.Winding(coil) + (c.Tuned?.Trimmers.Any(t => t.Part == part.Name) == true
                    ? ", its length adjusted"
                    : ""));
        }
        else if (DesignedCircuitFile.BelowTap(part.Name, c) is { } below)
        {
            words.Add(below);
        }
        else if (part is Inductor { Loss: not null })
        {
            words.Add("no rod and wire of the list gives it: a strip or a longer lead, set by the sweep");
        }

        if (part is Line or Stub)
        {
            words.Add(
                c.Build is { } build ? ResonatorWords.Of(build)
                    : part is Stub { End: var end } ? (end == StubEnd.Open ? "cable, open at its end" : "cable, shorted at its end")
                    : "cable");
        }

        if (part.Rated is { } rated)
        {
            words.Add(
                string.Join(
                    ", ",
                    new[]
                    {
                        rated.PeakVoltageV is { } v ? Text(v, "0") + " V" : "",
                        rated.PowerW is { } w ? Text(w, "0.##") + " W" : "",
                    }.Where(static s => s.Length > 0)));
        }

        return string.Join("; ", words);
    }

    private static string Text(double value, string format) => FixedText.Of(value, format);
}
