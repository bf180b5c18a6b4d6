namespace Spurless.Radio.Quantities;

/// <summary>A capacitance, in farads, 0 or more.</summary>
public readonly record struct Capacitance : IComparable<Capacitance>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-18, 1, "from 0.001 fF to 1 F");

    private static readonly UnitTable _units = new("a capacitance", "pF", "4.7 pF", UnitTable.Prefixed("F", -15, 0)) { Sense = Range };

    private Capacitance(double farads) => Farads = farads;

    /// <summary>Farads, 0 or more.</summary>
    public double Farads { get; }

    /// <summary>Makes a capacitance from farads, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static Capacitance FromFarads(double farads) => new(QuantityText.NotNegative(farads, nameof(farads)));

    /// <summary>Reads a capacitance such as <c>4.7 pF</c>; prefixes from f up are known, u may be written as a micro sign.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Capacitance value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double farads, out problem))
        {
            return false;
        }

        if (farads < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write a capacitance of 0 or more, like 4.7 pF";
            return false;
        }

        value = new Capacitance(farads);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a capacitance.</exception>
    public static Capacitance Parse(string text) =>
        TryParse(text, out Capacitance value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Capacitance other) => Farads.CompareTo(other.Farads);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Farads, "F", -15, 0);
}
