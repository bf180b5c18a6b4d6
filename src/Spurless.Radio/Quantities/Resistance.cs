namespace Spurless.Radio.Quantities;

/// <summary>A resistance, in ohms, 0 or more.</summary>
public readonly record struct Resistance : IComparable<Resistance>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-9, 1e15, "from 1 nohm to 1000 Tohm");

    private static readonly UnitTable _units = new("a resistance", "ohm", "50 ohm", UnitTable.Prefixed("ohm", -9, 12)) { Sense = Range };

    private Resistance(double ohms) => Ohms = ohms;

    /// <summary>Ohms, 0 or more.</summary>
    public double Ohms { get; }

    /// <summary>Makes a resistance from ohms, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static Resistance FromOhms(double ohms) => new(QuantityText.NotNegative(ohms, nameof(ohms)));

    /// <summary>Reads a resistance such as <c>50 ohm</c>; prefixes from n to T are known, the Greek letter may stand for ohm.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Resistance value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double ohms, out problem))
        {
            return false;
        }

        if (ohms < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write a resistance of 0 or more, like 50 ohm";
            return false;
        }

        value = new Resistance(ohms);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a resistance.</exception>
    public static Resistance Parse(string text) =>
        TryParse(text, out Resistance value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Resistance other) => Ohms.CompareTo(other.Ohms);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Ohms, "ohm", -9, 12);
}
