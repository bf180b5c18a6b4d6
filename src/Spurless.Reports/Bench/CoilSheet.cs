using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.Reports.Drawing.Responses;

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

/// <summary>What the coil calculator answers, whatever it was asked about: an air coil, a ring core, a helical or a coaxial resonator.</summary>
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

    /// <summary>The sheet of an air coil.</summary>
    /// <param name="coil">The coil.</param>
    /// <param name="wantedH">The inductance that was asked for, in henries; null where turns were.</param>
    public static CoilSheet Of(CoilResult coil, double? wantedH = null)
    {
        ArgumentNullException.ThrowIfNull(coil);
        CoilGeometry g = coil.Geometry;
        string q = coil.Q is { } value ? string.Create(CultureInfo.InvariantCulture, $", Q at most {value:0} at {coil.FrequencyHz / 1e6:0.####} MHz") : "";
        string leads = coil.LeadInductanceH > 0 ? $", its leads add {Nano(coil.LeadInductanceH)}" : "";
        List<CoilFigure> all =
        [
            new("turns", "turns", g.Turns),
            new("inductance_h", "inductance without leads", coil.InductanceH, "H"),
            new("sheet_inductance_h", "the same as a bare current sheet", coil.SheetInductanceH, "H"),
            new("q", "Q, an upper bound", coil.Q),
            new("self_capacitance_f", "self-capacitance", coil.SelfCapacitanceF, "F"),
            new("self_resonance_hz", "self-resonance", coil.SelfResonanceHz, "Hz"),
            new("lead_inductance_h", "what the leads add", coil.LeadInductanceH, "H"),
            new("wheeler_inductance_h", "by Wheeler's formula, as a check", coil.WheelerInductanceH, "H"),
            new("resistance_ohm", "resistance", coil.ResistanceOhm, "ohm"),
            new("proximity_factor", "of that by neighbouring turns, a factor", coil.ProximityFactor),
            new("diameter_m", "diameter, wire centre to wire centre", g.DiameterM, "m"),
            new("former_m", "diameter of the former", g.DiameterM - g.WireM, "m"),
            new("length_m", "length, turns x pitch", g.LengthM, "m"),
            new("wire_m", "wire", g.WireM, "m"),
            new("wire_length_m", "length of wire, leads included", coil.WireLengthM, "m"),
        ];
        if (wantedH is { } wanted)
        {
            double whole = Math.Max(1, Math.Round(g.Turns));
            all.Add(new("whole_turns", "in whole turns", whole));
            all.Add(new("whole_turns_length_m", "pressed or pulled to the length", CoilCalculator.LengthFor(wanted, whole, g.DiameterM, g.WireM), "m"));
        }

        return new CoilSheet
        {
            Kind = "air coil",
            Sentence = string.Create(CultureInfo.InvariantCulture, $"{g.Turns:0.##} turns of {Milli(g.WireM)} wire on {Milli(g.DiameterM)}, {Milli(g.LengthM)} long, are {Nano(coil.InductanceH)}{leads}{q}."),
            Figures = all,
            Warnings = coil.Warnings,
        };
    }

    /// <summary>The sheet of a winding on a ring core.</summary>
    /// <param name="turns">Turns, above 0.</param>
    /// <param name="inductancePerTurnSquaredH">A_L in henries, above 0.</param>
    public static CoilSheet OfToroid(double turns, double inductancePerTurnSquaredH)
    {
        double inductance = Toroid.Henries(turns, inductancePerTurnSquaredH);
        double whole = Math.Max(1, Math.Round(turns));
        return new CoilSheet
        {
            Kind = "ring core",
            Sentence = string.Create(CultureInfo.InvariantCulture, $"{turns:0.##} turns through a core of {Nano(inductancePerTurnSquaredH)} a turn squared are {Nano(inductance)}."),
            Figures =
            [
                .. Fixed(turns, inductance),
                new("inductance_per_turn_squared_h", "A_L, inductance a turn squared", inductancePerTurnSquaredH, "H"),
                new("whole_turns", "in whole turns", whole),
                new("whole_turns_inductance_h", "these give", Toroid.Henries(whole, inductancePerTurnSquaredH), "H"),
            ],
            Warnings = ["A_L holds well below the frequency at which the core's permeability falls, and for small currents; the core's Q is not in it"],
        };
    }

    /// <summary>The sheet of a helical resonator.</summary>
    /// <param name="helix">The resonator.</param>
    /// <param name="frequencyHz">Its frequency in hertz.</param>
    /// <param name="sizeM">Inner side or diameter of its shield in metres.</param>
    /// <param name="shape">Square or round.</param>
    public static CoilSheet Of(HelicalResonator helix, double frequencyHz, double sizeM, ShieldShape shape)
    {
        ArgumentNullException.ThrowIfNull(helix);
        return new CoilSheet
        {
            Kind = "helical resonator",
            Sentence = string.Create(
                CultureInfo.InvariantCulture,
                $"For {frequencyHz / 1e6:0.####} MHz in a {(shape == ShieldShape.Square ? "square" : "round")} shield of {Milli(sizeM)}: {helix.Turns:0.##} turns on {Milli(helix.CoilDiameterM)}, {Milli(helix.CoilLengthM)} long, Q about {helix.Q:0}."),
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
            Warnings = ["design formulas good to about 10 %: leave a way to tune it", .. helix.Warnings],
        };
    }

    /// <summary>The sheet of a coaxial resonator.</summary>
    /// <param name="line">The resonator.</param>
    /// <param name="frequencyHz">Its frequency in hertz.</param>
    /// <param name="innerM">Outer diameter of the inner conductor in metres.</param>
    /// <param name="outerM">Inner diameter of the outer conductor in metres.</param>
    /// <param name="loadF">Capacitance at the open end in farads; 0 for a quarter wave.</param>
    public static CoilSheet Of(CoaxialResonator line, double frequencyHz, double innerM, double outerM, double loadF)
    {
        ArgumentNullException.ThrowIfNull(line);
        string loaded = loadF > 0 ? $" with {PartWords.Engineering(loadF, "F")} at its end" : ", a quarter wave";
        return new CoilSheet
        {
            Kind = "coaxial resonator",
            Sentence = string.Create(CultureInfo.InvariantCulture, $"For {frequencyHz / 1e6:0.####} MHz: {Milli(line.LengthM)} long{loaded}, Q at most {line.Q:0}."),
            Figures =
            [
                .. Fixed(null, null, line.Q, frequencyHz),
                new("length_m", "length from the short to the open end", line.LengthM, "m"),
                new("impedance_ohm", "characteristic impedance", line.ImpedanceOhm, "ohm"),
                new("inner_m", "outer diameter of the inner conductor", innerM, "m"),
                new("outer_m", "inner diameter of the outer conductor", outerM, "m"),
                new("end_capacitance_f", "capacitance at the open end", loadF, "F"),
            ],
            Warnings = ["joints, the capacitor's own loss and the open end's stray capacitance are not in it", .. line.Warnings],
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

    private static string Milli(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres * 1e3:0.###} mm");
}
