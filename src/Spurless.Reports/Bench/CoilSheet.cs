using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.Drawing.Schematics;
using Spurless.Radio.Quantities;
using Spurless.Sites.Coils;

namespace Spurless.Reports.Bench;

/// <summary>One figure of a coil or resonator.</summary>
/// <param name="Key">Its name in JSON and CSV, with its unit.</param>
/// <param name="Words">What it is.</param>
/// <param name="Value">In the SI unit; null where there is none.</param>
/// <param name="Unit">The SI unit; empty for a plain number.</param>
public sealed record CoilFigure(string Key, string Words, double? Value, string Unit = "")
{
    /// <summary>The value with its unit in engineering notation, in plain letters; empty where there is none.</summary>
    public string Text => Value is not { } v ? "" : Unit.Length == 0
        ? v.ToString(Math.Abs(v) >= 100 ? "0" : "0.##", CultureInfo.InvariantCulture)
        : PartWords.Engineering(v, Unit).Replace("\u00B5", "u", StringComparison.Ordinal);
}

/// <summary>
/// What the coil calculator answers, whatever it was asked about: an air coil, a ring core, a helical or a coaxial resonator.
/// </summary>
public sealed record CoilSheet
{
    private CoilSheet()
    {
    }

    /// <summary>What it is: <c>air coil</c>, <c>ring core</c>, <c>helical resonator</c> or <c>coaxial resonator</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>The answer in one sentence.</summary>
    public required string Sentence { get; init; }

    /// <summary>The figures in the order of the page; the fixed ones of the format come first, with null where there are none.</summary>
    public required IReadOnlyList<CoilFigure> Figures { get; init; }

    /// <summary>Where a formula leaves its range, each a sentence without a full stop.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>An answer as it is told.</summary>
    public static CoilSheet Of(CoilAnswer answer) => answer switch
    {
        AirCoilAnswer air => Of(air),
        RingCoreAnswer ring => Of(ring),
        HelicalAnswer helical => Of(helical),
        CoaxialAnswer line => Of(line),
        _ => throw new ArgumentException("There is no such kind of coil.", nameof(answer)),
    };

    private static CoilSheet Of(AirCoilAnswer answer)
    {
        CoilResult coil = answer.Coil;
        CoilGeometry g = coil.Geometry;
        string q = coil.Q is { } value
            ? string.Create(CultureInfo.InvariantCulture, $", Q at most {value:0} there")
            : "";
        string at = coil is { InductanceAtFrequencyH: { } there, FormulaSigma: { } sigma }
            ? string.Create(
                CultureInfo.InvariantCulture,
                    $"; at {MegahertzText.Of(coil.FrequencyHz!.Value, 0, 4)} MHz {Nano(there)} in all, give or take {100 * sigma:0} %")
                + (coil.ApparentInductanceH is { } seen ? $", seen as {Nano(seen)}" : ", above its self-resonance")
            : "";
        string wound = answer.AtFrequency is { } other ? Wound(answer.Question, other) : "";
        string leads = coil.LeadInductanceH > 0 ? $", its leads add {Nano(coil.LeadInductanceH)}" : "";
        List<CoilFigure> all =
        [
            new("turns", "turns", g.Turns),
            new("inductance_h", "inductance at low frequency, no leads", coil.InductanceH, "H"),
            new("sheet_inductance_h", "the same as a bare current sheet", coil.SheetInductanceH, "H"),
            new("q", "Q, an upper bound", coil.Q),
            new("self_capacitance_f", "self-capacitance", coil.SelfCapacitanceF, "F"),
            new("self_resonance_hz", "self-resonance", coil.SelfResonanceHz, "Hz"),
            new("lead_inductance_h", "what the leads add", coil.LeadInductanceH, "H"),
            new("inductance_at_frequency_h", "inductance there, with leads", coil.InductanceAtFrequencyH, "H"),
            new("apparent_inductance_h", "the same as seen at its ends", coil.ApparentInductanceH, "H"),
            new("apparent_q", "Q as seen at its ends", coil.ApparentQ),
            new("formula_sigma", "sigma of the formulas, a ratio", coil.FormulaSigma),
            new("wheeler_inductance_h", "by Wheeler's formula, as a check", coil.WheelerInductanceH, "H"),
            new("resistance_ohm", "resistance", coil.ResistanceOhm, "ohm"),
            new("proximity_factor", "of that by neighbouring turns, a factor", coil.ProximityFactor),
            new("diameter_m", "diameter, wire centre to wire centre", g.DiameterM, "m"),
            new("former_m", "diameter of the former", g.DiameterM - g.WireM, "m"),
            new("length_m", "length, turns x pitch", g.LengthM, "m"),
            new("wire_m", "wire", g.WireM, "m"),
            new("wire_length_m", "length of wire, leads included", coil.WireLengthM, "m"),
        ];
        if (answer.Whole is { } whole)
        {
            all.Add(new("whole_turns", "in whole turns", whole.Turns));
            all.Add(new("whole_turns_length_m", "pressed or pulled to the length", whole.LengthM, "m"));
            all.Add(new("turns_at_frequency", "turns that have it at the frequency", answer.AtFrequency?.Turns));
            all.Add(new("whole_turns_at_frequency", "in whole turns", answer.AtFrequency?.Whole.Turns));
            all.Add(new("whole_turns_at_frequency_length_m", "pressed or pulled to the length", answer.AtFrequency?.Whole.LengthM, "m"));
        }

        return new CoilSheet
        {
            Kind = "air coil",
            Sentence = string.Create(
                CultureInfo.InvariantCulture,
                $"{Turns(g.Turns)} of {Milli(g.WireM)} wire on {Milli(g.DiameterM)}, "
                    + $"{Milli(g.LengthM)} long, are {Nano(coil.InductanceH)}{leads}{at}{q}.{wound}"),
            Figures = all,
            Warnings = [.. coil.Warnings.Select(CoilWarningWords.Of)],
        };
    }

    private static string Wound(AirCoilQuestion question, WoundAt wound)
    {
        string whole = wound.Whole.LengthM is { } length
            ? FormattableString.Invariant($", or {wound.Whole.Turns:0} on {Milli(length)}")
            : "";
        string at = MegahertzText.Of(question.FrequencyHz!.Value, 0, 4);
        return FormattableString.Invariant(
            $" To be {Nano(question.InductanceH!.Value)} at {at} MHz it takes {Turns(wound.Turns)}{whole}.");
    }

    private static CoilSheet Of(RingCoreAnswer answer)
    {
        (double turns, double inductance, double inductancePerTurnSquaredH) =
            (answer.Turns, answer.InductanceH, answer.Question.InductancePerTurnSquaredH);
        return new CoilSheet
        {
            Kind = "ring core",
            Sentence = string.Create(
                CultureInfo.InvariantCulture,
                $"{Turns(turns)} through a core of {Nano(inductancePerTurnSquaredH)} a turn squared are {Nano(inductance)}."),
            Figures =
            [
                .. Fixed(turns, inductance),
                new("inductance_per_turn_squared_h", "A_L, inductance a turn squared", inductancePerTurnSquaredH, "H"),
                new("whole_turns", "in whole turns", answer.WholeTurns),
                new("whole_turns_inductance_h", "these give", answer.WholeInductanceH, "H"),
            ],
            Warnings =
            [
                "A_L holds well below the frequency at which the core's permeability falls, and for small currents; "
                    + "the core's Q is not in it",
            ],
        };
    }

    private static CoilSheet Of(HelicalAnswer answer)
    {
        HelicalResonator helix = answer.Helix;
        (double frequencyHz, double sizeM, ShieldShape shape) = (
            answer.Question.FrequencyHz, answer.Question.ShieldM, answer.Question.Shape);
        return new CoilSheet
        {
            Kind = "helical resonator",
            Sentence = string.Create(
                CultureInfo.InvariantCulture,
                $"For {MegahertzText.Of(frequencyHz, 0, 4)} MHz in a {(shape == ShieldShape.Square ? "square" : "round")} shield of "
                    + $"{Milli(sizeM)}: {Turns(helix.Turns)} on {Milli(helix.CoilDiameterM)}, "
                        + $"{Milli(helix.CoilLengthM)} long, Q about {helix.Q:0}."),
            Figures =
            [
                .. Fixed(helix.Turns, null, helix.Q, frequencyHz),
                new("impedance_ohm", "characteristic impedance", helix.ImpedanceOhm, "ohm"),
                new("diameter_m", "diameter, wire centre to wire centre", helix.CoilDiameterM, "m"),
                new("length_m", "length, turns x pitch", helix.CoilLengthM, "m"),
                new("wire_m", "wire", helix.WireM, "m"),
                new("shield_m", "inner side or diameter of the shield", sizeM, "m"),
                new("shield_height_m", "inner height of the shield", helix.ShieldHeightM, "m"),
            ],
            Warnings = ["design formulas good to about 10 %: leave a way to tune it", .. helix.Warnings.Select(CoilWarningWords.Of)],
        };
    }

    private static CoilSheet Of(CoaxialAnswer answer)
    {
        CoaxialResonator line = answer.Line;
        (double frequencyHz, double innerM, double outerM) = (answer.Question.FrequencyHz, answer.Question.InnerM, answer.Question.OuterM);
        double loadF = answer.Question.EndF;
        string loaded = loadF > 0 ? $" with {PartWords.Engineering(loadF, "F")} at its end" : ", a quarter wave";
        return new CoilSheet
        {
            Kind = "coaxial resonator",
            Sentence = string.Create(
                CultureInfo.InvariantCulture,
                $"For {MegahertzText.Of(frequencyHz, 0, 4)} MHz: {Milli(line.LengthM)} long{loaded}, Q at most {line.Q:0}."),
            Figures =
            [
                .. Fixed(null, null, line.Q, frequencyHz),
                new("length_m", "length from the short to the open end", line.LengthM, "m"),
                new("impedance_ohm", "characteristic impedance", line.ImpedanceOhm, "ohm"),
                new("inner_m", "outer diameter of the inner conductor", innerM, "m"),
                new("outer_m", "inner diameter of the outer conductor", outerM, "m"),
                new("end_capacitance_f", "capacitance at the open end", loadF, "F"),
            ],
            Warnings =
            [
                "joints, the capacitor's own loss and the open end's stray capacitance are not in it",
                .. line.Warnings.Select(CoilWarningWords.Of),
            ],
        };
    }

    private static CoilFigure[] Fixed(double? turns, double? inductanceH, double? q = null, double? resonanceHz = null) =>
    [
        new("turns", "turns", turns),
        new("inductance_h", "inductance", inductanceH, "H"),
        new("sheet_inductance_h", "the same as a bare current sheet", null, "H"),
        new("q", "unloaded Q", q),
        new("self_capacitance_f", "self-capacitance", null, "F"),
        new("self_resonance_hz", "resonance", resonanceHz, "Hz"),
    ];

    private static string Nano(double henries) => PartWords.Engineering(henries, "H").Replace("\u00B5", "u", StringComparison.Ordinal);

    private static string Turns(double turns) =>
        turns.ToString("0.##", CultureInfo.InvariantCulture) is var said && said == "1" ? "1 turn" : said + " turns";

    private static string Milli(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres * 1e3:0.###} mm");
}
