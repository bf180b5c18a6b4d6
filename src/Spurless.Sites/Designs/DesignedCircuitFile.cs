using System.Globalization;
using System.Text;
using Spurless.Circuits.Parts;
using Spurless.Design.Designing;
using Spurless.Design.Questions;
using Spurless.Design.Winding;
using static Spurless.Sites.Documents.Circuits.PartText;

namespace Spurless.Sites.Designs;

/// <summary>The circuit file of a design: its parts with losses and tolerances, windings and trimmers as comments beside them.</summary>
public static class DesignedCircuitFile
{
    /// <summary>What the comment of a part begins with that is adjusted when the filter is tuned.</summary>
    public const string TrimmerMark = "adjust";

    /// <summary>What the line begins with that names the requirement.</summary>
    public const string RequirementMark = "# Requirement: ";

    /// <summary>The file's name, such as <c>1-two-tanks-top-capacitors.circuit.yaml</c>.</summary>
    public static string Name(int rank, string family)
    {
        ArgumentNullException.ThrowIfNull(family);
        string words = string.Join('-', family.Split([' ', ',', ':'], StringSplitOptions.RemoveEmptyEntries));
        return string.Create(CultureInfo.InvariantCulture, $"{rank}-{words}.circuit.yaml");
    }

    /// <summary>The file's text.</summary>
    public static string Text(DesignCandidate candidate, DesignBrief brief)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        ArgumentNullException.ThrowIfNull(brief);
        Circuit circuit = candidate.Circuit;
        StringBuilder text = new();
        text.Append("# Designed for: ").Append(OneLine(brief.Question.Name)).Append(" (").Append(OneLine(brief.Source)).Append(").\n");
        text.Append(RequirementMark).Append(OneLine(brief.RequirementPath)).Append('\n');
        text.Append("# Not built and not measured: build it, sweep it, tune it, and believe the sweep.\n");
        if (candidate.Build is { } build)
        {
            string words = ResonatorWords.Of(build);
            text.Append("# ").Append(char.ToUpperInvariant(words[0])).Append(words.AsSpan(1)).Append(".\n");
        }

        text.Append("spurless_circuit: 1\n");
        text.Append("name: ").Append(circuit.Name).Append('\n');
        text.Append(
            CultureInfo.InvariantCulture,
            $"ports: {{ in: {circuit.PortIn}, out: {circuit.PortOut}, impedance: {Number(circuit.ImpedanceOhm)} ohm }}\n");
        text.Append("parts:\n");
        foreach (Part part in circuit.Parts)
        {
            string comment = Comment(part, candidate, brief);
            text.Append("  ").Append(part.Name).Append(": { ").Append(Keys(part)).Append(Further(part)).Append(" }");
            text.Append(comment.Length > 0 ? "   # " + comment : "").Append('\n');
        }

        return text.ToString();
    }

    private static string Further(Part part)
    {
        string tolerance = part.Tolerance is { } t ? $", tolerance: {Number(t.Fraction * 100)} %" : "";
        string[] rated =
        [
            .. part.Rated?.PeakVoltageV is { } volts ? new[] { $"{Number(volts)} V" } : [],
            .. part.Rated?.PowerW is { } watts ? new[] { $"{Number(watts)} W" } : [],
        ];
        return tolerance + (rated.Length > 0 ? $", rated: [{string.Join(", ", rated)}]" : "");
    }

    private static string Comment(Part part, DesignCandidate candidate, DesignBrief brief)
    {
        List<string> words = [];
        if (candidate.Tuned?.Trimmers.FirstOrDefault(t => t.Part == part.Name) is { } trimmer)
        {
            words.Add(trimmer.IsCapacitor
                ? trimmer.Take(brief.Question.Parts.Series) is { } take
                    ? take.FixedF > 0
                        ? $"{TrimmerMark}: {Pico(take.FixedF)} and a trimmer of {Pico(take.TrimmerLowF)} to {Pico(take.TrimmerHighF)}"
                        : $"{TrimmerMark}: a trimmer of {Pico(take.TrimmerLowF)} to {Pico(take.TrimmerHighF)}"
                    : $"{TrimmerMark}: variable from {Pico(Rough(trimmer.Low))} to {Pico(Rough(trimmer.High))}"
                : $"{TrimmerMark} its length");
        }

        if (candidate.Coils.FirstOrDefault(c => c.Part == part.Name) is { } coil)
        {
            words.Add(Winding(coil));
        }
        else if (BelowTap(part.Name, candidate) is { } below)
        {
            words.Add(below);
        }

        return string.Join("; ", words);
    }

    /// <summary>The requirement file of a site's design.</summary>
    public static string Requirement(DesignBrief brief)
    {
        ArgumentNullException.ThrowIfNull(brief);
        DesignQuestion q = brief.Question;
        StringBuilder text = new();
        bool site = brief.Needs is { } all && all.Carriers.Count == q.Reject.Count
            && all.Carriers.Zip(q.Reject).All(static p => p.First.FrequencyHz.Equals((long)p.Second.FromHz));
        text.Append(
            brief.Needs is not null && site ? $"# What {OneLine(brief.Source)} needs of a filter, margin included.\n"
            : brief.Source == DesignBrief.DrawnHere ? "# What was asked of a filter on the bench.\n"
            : $"# What was asked of a filter on the bench, begun from {OneLine(brief.Source)}.\n");
        text.Append("spurless_requirement: 1\n");
        text.Append("name: '").Append(OneLine(q.Name).Replace("'", "''", StringComparison.Ordinal)).Append("'\n");
        text.Append(
            CultureInfo.InvariantCulture, $"pass: {{ from: {Mega(q.PassFromHz)}, to: {Mega(q.PassToHz)}, loss: {Number(q.MostLossDb)} dB");
        text.Append(q.LeastReturnLossDb is { } match ? $", return_loss: {Number(match)} dB }}\n" : " }\n");
        text.Append(q.Reject.Count > 0 ? "reject:\n" : "");
        for (int i = 0; i < q.Reject.Count; i++)
        {
            RejectDemand r = q.Reject[i];
            text
                .Append("  - { ")
                .Append(r.ToHz > r.FromHz ? $"from: {Mega(r.FromHz)}, to: {Mega(r.ToHz)}" : $"at: {Mega(r.FromHz)}")
                .Append(", by: ")
                .Append(Number(r.LeastLossDb));
            text.Append(" dB }").Append(site && brief.Needs is { } needs ? "   # " + OneLine(needs.Carriers[i].Emitter) : "").Append('\n');
        }

        text.Append(CultureInfo.InvariantCulture, $"impedance: {Number(q.ImpedanceOhm)} ohm\nparts: {{ ");
        PartLimits p = q.Parts;
        List<string> parts = [];
        void Add(bool there, Func<string> words) => parts.AddRange(there ? [words()] : []);
        Add(p.InductorQ is not null, () => $"inductor_q: {Number(p.InductorQ!.Q)} at {Mega(p.InductorQ.AtHz)}");
        Add(p.CapacitorQ is not null, () => $"capacitor_q: {Number(p.CapacitorQ!.Q)} at {Mega(p.CapacitorQ.AtHz)}");
        Add(p.InductorsH is not null, () => $"inductors: [{Nano(p.InductorsH!.Value.Least)}, {Nano(p.InductorsH.Value.Greatest)}]");
        Add(p.CapacitorsF is not null, () => $"capacitors: [{Pico(p.CapacitorsF!.Value.Least)}, {Pico(p.CapacitorsF.Value.Greatest)}]");
        Add(p.Series is not null, () => $"series: E{p.Series!.Value.ToString(CultureInfo.InvariantCulture)}");
        text.Append(string.Join(", ", parts)).Append(" }\n");
        text.Append(q.BypassOpenF is { } open ? $"bypass: {{ open: {Pico(open)} }}\n" : "");
        return text.Append(q.TransmitW is { } watts ? $"transmit: {Number(watts)} W\n" : "").ToString();
    }

    /// <summary>A coil in words: turns, wire, rod, length, leads.</summary>
    public static string Winding(WoundCoil coil)
    {
        ArgumentNullException.ThrowIfNull(coil);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{coil.Geometry.Turns:0} {(coil.Geometry.Turns == 1 ? "turn" : "turns")} of {coil.Geometry.WireM * 1e3:0.#} mm "
                + $"wire on a {coil.InsideM * 1e3:0} mm rod, {coil.Geometry.LengthM * 1e3:0.0} mm "
                    + $"long, leads {coil.Geometry.LeadM * 1e3:0} mm ({coil.LowFrequencyH * 1e9:0.0} nH at low frequency)")
            + (coil.Tap is { } tap ? ", " + Tap(tap) : "");
    }

    /// <summary>Where a coil is tapped, in words.</summary>
    public static string Tap(CoilTapPoint tap)
    {
        ArgumentNullException.ThrowIfNull(tap);
        return string.Create(CultureInfo.InvariantCulture, $"tapped {tap.Turns:0.##} turns from its cold end");
    }

    /// <summary>What a part is that is wound with another: the turns of a coil below its tap, or both parts' coupling; null for
    /// others.</summary>
    public static string? BelowTap(string part, DesignCandidate candidate)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        return candidate.Coils.FirstOrDefault(c => c.Tap?.LowerPart == part) is { } whole
                ? string.Create(CultureInfo.InvariantCulture, $"the {whole.Tap!.Turns:0.##} turns of {whole.Part} below its tap")
            : candidate.Coils.FirstOrDefault(c => c.Tap?.Coupling == part) is { } coil ? $"between the two parts of {coil.Part}, as wound"
            : null;
    }

    // Frequencies of a file are whole hertz; the middle of a band need not be.
    private static string Mega(double hertz) => $"{Number(Math.Round(hertz) / 1e6)} MHz";

    private static double Rough(double value) =>
        double.Parse(value.ToString("E2", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string OneLine(string text) => string.Join(' ', text.Split(['\r', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries));
}
