using System.Globalization;
using Spurless.Circuits.Relays;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Sources;

namespace Spurless.Workbench.Relays;

/// <summary>A value of a bypass relay that can be moved.</summary>
/// <param name="Key">Its word in the address.</param>
/// <param name="Field">The field of the file.</param>
/// <param name="Name">What it is.</param>
/// <param name="Note">What it does.</param>
/// <param name="Reach">How far it moves: up to so many times the file's value, and down to so little.</param>
public sealed record RelaySlider(string Key, string Field, string Name, string Note, double Reach)
{
    /// <summary>The positions of a slider: from 0 to this, the file's value in the middle.</summary>
    public const int Positions = 200;

    /// <summary>All of them, in the order of the signal.</summary>
    public static IReadOnlyList<RelaySlider> All { get; } =
    [
        new("tap", "tap.capacitor", "Tap", "takes its share of the RF", 5),
        new("smoothing", "detector.smoothing", "Smoothing", "holds between syllables", 1000),
        new("bleed", "detector.bleed", "Bleed", "lets it go", 10),
        new("supply", "driver.supply", "Supply", "coil at 20 degrees", 1.2),
    ];

    /// <summary>The value in SI.</summary>
    /// <param name="bypass">The relay.</param>
    public double Of(LoadedBypass bypass)
    {
        ArgumentNullException.ThrowIfNull(bypass);
        RelayCircuit circuit = bypass.Document.Circuit;
        return Key switch
        {
            "tap" => circuit.Detector.TapF,
            "smoothing" => circuit.SmoothingF,
            "bleed" => circuit.BleedOhm,
            _ => circuit.SupplyV,
        };
    }

    /// <summary>The relay with another value.</summary>
    /// <param name="bypass">The relay.</param>
    /// <param name="value">The value in SI, above 0.</param>
    public LoadedBypass With(LoadedBypass bypass, double value)
    {
        ArgumentNullException.ThrowIfNull(bypass);
        BypassDocument document = bypass.Document;
        RelayCircuit circuit = document.Circuit;
        RelayCircuit moved = Key switch
        {
            "tap" => circuit with { Detector = circuit.Detector with { TapF = value } },
            "smoothing" => circuit with { SmoothingF = value },
            "bleed" => circuit with { BleedOhm = value },
            _ => circuit with { SupplyV = value },
        };
        return bypass with { Document = document with { Circuit = moved } };
    }

    /// <summary>The text that stands in a file for a value.</summary>
    /// <param name="value">In SI.</param>
    public string Text(double value) => Key switch
    {
        "bleed" => Resistance.FromOhms(value).ToString(),
        "supply" => Voltage.FromVolts(value).ToString(),
        _ => Capacitance.FromFarads(value).ToString(),
    };

    /// <summary>The value at a position, rounded to two digits (a supply to a tenth of a volt).</summary>
    /// <param name="file">The file's value.</param>
    /// <param name="position">0 to <see cref="Positions"/>.</param>
    public double At(double file, int position)
    {
        if (position == Positions / 2)
        {
            return file;
        }

        double raw = file * Math.Pow(Reach, (2.0 * position / Positions) - 1);
        string digits = raw.ToString(Key == "supply" ? "0.0" : "G2", CultureInfo.InvariantCulture);
        return double.Parse(digits, CultureInfo.InvariantCulture);
    }

    /// <summary>The nearest position of a value.</summary>
    /// <param name="file">The file's value.</param>
    /// <param name="value">The value in SI, above 0.</param>
    public int PositionOf(double file, double value) =>
        (int)Math.Round(Math.Clamp((Math.Log(value / file) / Math.Log(Reach)) + 1, 0, 2) * Positions / 2);

    /// <summary>Reads a value that was typed.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">In SI.</param>
    /// <param name="problem">What was found; what to write instead.</param>
    public bool TryRead(string text, out double value, out string problem)
    {
        bool read;
        switch (Key)
        {
            case "bleed":
                read = Resistance.TryParse(text, out Resistance ohms, out problem);
                value = ohms.Ohms;
                break;
            case "supply":
                read = Voltage.TryParse(text, out Voltage volts, out problem);
                value = volts.Volts;
                break;
            default:
                read = Capacitance.TryParse(text, out Capacitance farads, out problem);
                value = farads.Farads;
                break;
        }

        if (read && !(value > 0))
        {
            problem = $"'{text.Trim()}' is not above 0; write a value like {Text(Key == "supply" ? 12 : Key == "bleed" ? 1e5 : 1e-8)}";
        }

        return read && value > 0;
    }
}
