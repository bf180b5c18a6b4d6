using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Radio.Quantities;

namespace Spurless.Drawing.Schematics;

/// <summary>Parts of a circuit in words and figures.</summary>
public static class PartWords
{
    /// <summary>The part's value with unit: <c>6.8 pF</c>; what is not known says so.</summary>
    public static string Value(Part part) => part switch
    {
        Resistor r => Of(r.Resistance, "\u03A9"),
        Inductor l => Of(l.Inductance, "H"),
        Capacitor c => Of(c.Capacitance, "F"),
        Coil c =>
            string.Create(CultureInfo.InvariantCulture, $"{c.Turns:0.##} {(c.Turns == 1 ? "turn" : "turns")}, {c.DiameterM * 1e3:0.##} mm"),
        Line line => string.Create(CultureInfo.InvariantCulture, $"{line.ImpedanceOhm:0.##} \u03A9, {Of(line.Length, "m")}"),
        Stub stub => string.Create(CultureInfo.InvariantCulture, $"{stub.ImpedanceOhm:0.##} \u03A9, {Of(stub.Length, "m")}"),
        Transformer t => string.Create(CultureInfo.InvariantCulture, $"{t.FirstTurns:0.##} : {t.SecondTurns:0.##}"),
        Coupling k => k.Coefficient.Value is { } value ? value.ToString("0.####", CultureInfo.InvariantCulture) : "unknown",
        TwoPortBlock => "measured",
        _ => "",
    };

    /// <summary>What the part is.</summary>
    public static string Kind(Part part) => part switch
    {
        Resistor => "resistor",
        Inductor => "inductor",
        Capacitor => "capacitor",
        Coil => "coil",
        Line => "line",
        Stub stub => stub.End == StubEnd.Open ? "stub, open" : "stub, shorted",
        Transformer => "transformer",
        Coupling => "coupling",
        TwoPortBlock => "measured two-port",
        _ => "part",
    };

    /// <summary>Where the part is connected.</summary>
    public static string Where(Part part) => part switch
    {
        Coupling k => $"between {k.First} and {k.Second}",
        Transformer t => $"{t.FirstFrom} to {t.FirstTo}, and {t.SecondFrom} to {t.SecondTo}",
        TwoTerminalPart two => $"{two.From} to {two.To}",
        Line line => $"{line.From} to {line.To}",
        TwoPortBlock block => $"{block.From} to {block.To}",
        _ => string.Join(", ", part.Nodes),
    };

    /// <summary>Tolerance of a part in words.</summary>
    public static string Tolerance(Part part) => part.Tolerance switch
    {
        null => "",
        { Kind: ToleranceKind.Series, SeriesSize: int size } => string.Create(CultureInfo.InvariantCulture, $"E{size}"),
        { Kind: ToleranceKind.Normal, Fraction: double f } => string.Create(CultureInfo.InvariantCulture, $"{f * 100:0.##} % normal"),
        { Fraction: double f } => string.Create(CultureInfo.InvariantCulture, $"{f * 100:0.##} %"),
    };

    /// <summary>Loss of a part in words.</summary>
    public static string Loss(Part part)
    {
        PartLoss? loss = part switch { Inductor l => l.Loss, Capacitor c => c.Loss, Coil c => c.Loss, _ => null };
        return loss switch
        {
            { Q.Value: { } q } => string.Create(
                CultureInfo.InvariantCulture, $"Q {q:0.#} at {MegahertzText.Of(loss.QFrequencyHz, 0, 6)} MHz"),
            { SeriesResistanceOhm: { } ohm } => Engineering(ohm, "\u03A9"),
            _ => part is Coil ? "by its wire" : part is Inductor or Capacitor ? "none stated" : "",
        };
    }

    /// <summary>
    /// A value in engineering notation, four figures at most; capacitances not under the picofarad, as the trade writes them.
    /// </summary>
    /// <param name="value">In the base unit.</param>
    /// <param name="unit">The base unit.</param>
    public static string Engineering(double value, string unit)
    {
        string[] prefixes = ["f", "p", "n", "\u00B5", "m", "", "k", "M", "G"];
        if (value == 0 || !double.IsFinite(value))
        {
            return $"0 {unit}";
        }

        int step = Math.Clamp((int)Math.Floor((Math.Log10(Math.Abs(value)) + 1e-9) / 3), unit == "F" ? -4 : -5, 3);
        double scaled = value / Math.Pow(1000, step);
        string format = Math.Abs(scaled) >= 99.95 ? "0.#" : Math.Abs(scaled) >= 9.995 ? "0.##" : "0.###";
        if (step < 3 && Math.Abs(scaled) >= 999.95)
        {
            // What rounds to a thousand is one of the next prefix.
            (step, scaled, format) = (step + 1, scaled / 1000, "0.###");
        }

        return scaled.ToString(format, CultureInfo.InvariantCulture) + " " + prefixes[step + 5] + unit;
    }

    private static string Of(PartValue value, string unit) => value.Value is { } known ? Engineering(known, unit) : "unknown";
}
