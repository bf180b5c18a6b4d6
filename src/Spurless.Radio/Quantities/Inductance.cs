namespace Spurless.Radio.Quantities;

/// <summary>An inductance, in henries, 0 or more.</summary>
public readonly record struct Inductance : IComparable<Inductance>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-15, 1e3, "from 1 fH to 1000 H");

    private static readonly UnitTable _units = new("an inductance", "nH", "24 nH", UnitTable.Prefixed("H", -15, 0)) { Sense = Range };

    private Inductance(double henries) => Henries = henries;

    /// <summary>Henries, 0 or more.</summary>
    public double Henries { get; }

    /// <summary>Makes an inductance from henries, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static Inductance FromHenries(double henries) => new(QuantityText.NotNegative(henries, nameof(henries)));

    /// <summary>Reads an inductance such as <c>24 nH</c>; prefixes from f up are known, u may be written as a micro sign.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Inductance value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double henries, out problem))
        {
            return false;
        }

        if (henries < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write an inductance of 0 or more, like 24 nH";
            return false;
        }

        value = new Inductance(henries);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not an inductance.</exception>
    public static Inductance Parse(string text) =>
        TryParse(text, out Inductance value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Inductance other) => Henries.CompareTo(other.Henries);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Henries, "H", -15, 0);
}
