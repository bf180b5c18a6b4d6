using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>Parts and their values as a circuit file has them.</summary>
public static class PartText
{
    /// <summary>A part as it is written, within its braces.</summary>
    internal static string Keys(Part part) => part switch
    {
        Capacitor c =>
            $"capacitor: {Pico(c.Capacitance.Require())}, "
                + $"{Between(c)}{Loss(c.Loss)}{(c.SeriesInductanceH > 0 ? $", esl: {Nano(c.SeriesInductanceH)}" : "")}",
        Inductor l =>
            $"inductor: {Nano(l.Inductance.Require())}, "
                + $"{Between(l)}{Loss(l.Loss)}{(l.SelfCapacitanceF > 0 ? $", self_capacitance: {Pico(l.SelfCapacitanceF)}" : "")}",
        Resistor r => $"resistor: {Number(r.Resistance.Require())} ohm, {Between(r)}",
        Coupling m => $"coupling: {Number(m.Coefficient.Require())}, of: [{m.First}, {m.Second}]",
        Line w => $"line: {{ {LineKeys(w.ImpedanceOhm, w.Length, w.Velocity, w.Loss)} }}, between: [{w.From}, {w.To}]",
        Stub w =>
            $"line: {{ {LineKeys(w.ImpedanceOhm, w.Length, w.Velocity, w.Loss)} }}, {Between(w)}, "
                + $"end: {(w.End == StubEnd.Open ? "open" : "short")}",
        _ => throw new InvalidOperationException($"No circuit that is written has a part like {part.Name}."),
    };

    /// <summary>A capacitance as it is written.</summary>
    public static string Pico(double farads) => $"{Number(farads * 1e12)} pF";

    /// <summary>An inductance as it is written.</summary>
    public static string Nano(double henries) => $"{Number(henries * 1e9)} nH";

    /// <summary>A number as it is written: nine digits, without an exponent.</summary>
    internal static string Number(double value) => Plain(value.ToString("G9", CultureInfo.InvariantCulture));

    private static string LineKeys(double ohms, PartValue length, double velocity, LineLoss loss)
    {
        const double at = 100e6;
        string db = loss.DbPerMetre(at).ToString("G9", CultureInfo.InvariantCulture);
        string lost = loss.RootTerm > 0 ? $", loss: {Plain(db)} dB/m at 100 MHz" : "";
        return $"impedance: {Number(ohms)} ohm, length: {Number(length.Require())} m, velocity: {Number(velocity)}{lost}";
    }

    private static string Loss(PartLoss? loss) =>
        loss?.Q?.Value is { } q ? $", q: {Number(q)} at {Number(loss.QFrequencyHz / 1e6)} MHz" : "";

    private static string Between(TwoTerminalPart part) => $"between: [{part.From}, {part.To}]";

    // Without an exponent, which a reader need not know.
    private static string Plain(string number) => number.Contains('E', StringComparison.Ordinal)
        ? double.Parse(number, CultureInfo.InvariantCulture).ToString("0.###############", CultureInfo.InvariantCulture)
        : number;
}
