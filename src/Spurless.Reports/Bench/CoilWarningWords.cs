using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.Radio.Quantities;

namespace Spurless.Reports.Bench;

/// <summary>Where the formulas of a coil leave their range, in sentences without a capital and a full stop.</summary>
public static class CoilWarningWords
{
    /// <summary>A warning.</summary>
    public static string Of(CoilWarning warning) => warning switch
    {
        CoilWarning.TurnsDoNotFit w => string.Create(
            CultureInfo.InvariantCulture,
            $"the turns do not fit: {w.Turns:0.##} turns of {Millimetres(w.WireM)} wire need {Millimetres(w.Turns * w.WireM)}, the coil is "
                + $"{Millimetres(w.LengthM)} long"),
        CoilWarning.UnderOneTurn => "under one turn the current sheet is no model of the coil",
        CoilWarning.UnderThreeTurns { LeadsStated: true } =>
            "under three turns the leads are a good part of the inductance, and where they run matters",
        CoilWarning.UnderThreeTurns => "under three turns the leads are a good part of the inductance; state their length",
        CoilWarning.ThickWire =>
            "the wire is over half as thick as the coil is wide; the round-wire corrections are made for thinner wire",
        CoilWarning.SelfCapacitanceOutOfRange { Shape: var shape } => string.Create(
            CultureInfo.InvariantCulture,
            $"the self-capacitance is known for lengths of 0.1 to 50 diameters, here it is {shape:0.###}; the nearest figure is taken"),
        CoilWarning.AboveResonance w =>
            $"at {Megahertz(w.FrequencyHz)} the coil is above its self-resonance ({Megahertz(w.ResonanceHz)}) and no inductor",
        CoilWarning.NearResonance w => $"at {Megahertz(w.FrequencyHz)} the self-resonance ({Megahertz(w.ResonanceHz)}) is near: "
            + "the coil acts as more than its inductance, and its Q falls",
        CoilWarning.ThinWire =>
            "the wire is under eight skin depths thick; the proximity factor is made for thicker wire and is too high",
        CoilWarning.FewTurns => "the proximity factor was measured on coils of 30 to 50 turns and is scaled down for fewer; "
            + "Q is an estimate, the real one is lower by dielectric, shield and joints",
        CoilWarning.NoHelix { Turns: var turns } => string.Create(
            CultureInfo.InvariantCulture,
            $"{turns:0.##} turns are too few for a helix; take a smaller shield, or a straight quarter-wave line"),
        CoilWarning.ThinHelix => "the wire is under five skin depths thick, the Q is less than the formula's; take a larger shield",
        CoilWarning.UnusualForHelix => "such resonators are built for about 20 to 1500 MHz (common practice)",
        CoilWarning.OtherModes => "the outer conductor is so wide that other modes may resonate near",
        CoilWarning.ShorterThanWide { LengthM: var length } => string.Create(
            CultureInfo.InvariantCulture,
            $"the line is shorter ({length * 1e3:0.#} mm) than it is wide; its ends' fields, which are not in the formulas, matter"),
        _ => throw new ArgumentOutOfRangeException(nameof(warning)),
    };

    private static string Millimetres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres * 1e3:0.###} mm");

    private static string Megahertz(double hertz) => MegahertzText.Of(hertz, 0, 3) + " MHz";
}
