namespace Spurless.Circuits.Coils;

/// <summary>What a coil is worth.</summary>
public sealed record CoilResult
{
    /// <summary>The coil.</summary>
    public required CoilGeometry Geometry { get; init; }

    /// <summary>Inductance of the winding in henries, without leads: current sheet with round-wire corrections.</summary>
    public required double InductanceH { get; init; }

    /// <summary>Inductance of the equivalent current sheet in henries.</summary>
    public required double SheetInductanceH { get; init; }

    /// <summary>
    /// Wheeler's formula of 1928 in henries, as a cross-check; null outside the range in which it states 1 % (length over 0.4 diameters).
    /// </summary>
    public required double? WheelerInductanceH { get; init; }

    /// <summary>What both leads add, in henries; 0 without leads.</summary>
    public required double LeadInductanceH { get; init; }

    /// <summary>Frequency in hertz for which <see cref="Q"/> and <see cref="ResistanceOhm"/> hold; null where none was asked for.</summary>
    public required double? FrequencyHz { get; init; }

    /// <summary>
    /// Inductance in henries at <see cref="FrequencyHz"/>, leads included: less what the field has left of the wire's inside. This is what
    /// a circuit with
    /// the self-capacitance as a part of its own uses. Null without a frequency.
    /// </summary>
    public required double? InductanceAtFrequencyH { get; init; }

    /// <summary>
    /// What a meter at the coil's ends shows at <see cref="FrequencyHz"/>, in henries: the same raised by the self-capacitance, <c>L / (1 -
    /// w^2 L C)</c>.
    /// Null without a frequency and from the self-resonance on.
    /// </summary>
    public required double? ApparentInductanceH { get; init; }

    /// <summary>
    /// One sigma of <see cref="InductanceAtFrequencyH"/> by what the formulas leave open, as a ratio: the current keeps to the coil's inner
    /// side, somewhere between
    /// the wire's centre and its inner edge (even chances), and 1 % of the current sheet's own. Null without a frequency.
    /// </summary>
    public required double? FormulaSigma { get; init; }

    /// <summary>
    /// Unloaded Q of winding and leads, the reactance of <see cref="InductanceAtFrequencyH"/> over <see cref="ResistanceOhm"/>; null
    /// without a frequency. An upper bound: dielectric, shield and joints are not in it.
    /// </summary>
    public required double? Q { get; init; }

    /// <summary>
    /// The same as a meter at the coil's ends shows it, less by its self-capacitance: <c>Q (1 - w^2 L C)</c>. Null without a frequency and
    /// from the self-resonance on.
    /// </summary>
    public required double? ApparentQ { get; init; }

    /// <summary>Series resistance of winding and leads in ohms; null without a frequency.</summary>
    public required double? ResistanceOhm { get; init; }

    /// <summary>Factor by which the neighbouring turns raise the wire's resistance.</summary>
    public required double ProximityFactor { get; init; }

    /// <summary>Self-capacitance in farads, one end earthed.</summary>
    public required double SelfCapacitanceF { get; init; }

    /// <summary>Frequency in hertz at which it resonates by itself, leads included.</summary>
    public required double SelfResonanceHz { get; init; }

    /// <summary>Length of wire in metres, leads included.</summary>
    public required double WireLengthM { get; init; }

    /// <summary>Where a formula leaves its range, and what matters besides, each one sentence without a full stop.</summary>
    public required IReadOnlyList<CoilWarning> Warnings { get; init; }
}
