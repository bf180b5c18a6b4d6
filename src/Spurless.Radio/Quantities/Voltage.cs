namespace Spurless.Radio.Quantities;

/// <summary>A voltage, in volts rms unless the text beside it says peak; the sign is kept.</summary>
public readonly record struct Voltage : IComparable<Voltage>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-12, 1e9, "from 1 pV to 1000 MV");

    private static readonly UnitTable _units = new("a voltage", "V", "12 V", UnitTable.Prefixed("V", -12, 6)) { Sense = Range };

    private Voltage(double volts) => Volts = volts;

    /// <summary>Volts.</summary>
    public double Volts { get; }

    /// <summary>Makes a voltage from volts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Voltage FromVolts(double volts) => new(QuantityText.Finite(volts, nameof(volts)));

    /// <summary>Reads a voltage such as <c>12 V</c>; prefixes from p to M are known, u may be written as a micro sign.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Voltage value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double volts, out problem))
        {
            return false;
        }

        value = new Voltage(volts);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a voltage.</exception>
    public static Voltage Parse(string text) =>
        TryParse(text, out Voltage value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Voltage other) => Volts.CompareTo(other.Volts);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Volts, "V", -12, 6);
}
