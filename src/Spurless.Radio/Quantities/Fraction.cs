namespace Spurless.Radio.Quantities;

/// <summary>
/// A share of a whole, written in per cent: <c>15 %</c> is 0.15. The quantity itself has no limits; the key that holds it has.
/// </summary>
public readonly record struct Fraction : IComparable<Fraction>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(0, 1e6, "from 0 % to 100000000 %");

    private static readonly UnitTable _units = new("a share in per cent", "%", "15 %", new UnitSymbol("%", -2)) { Sense = Range };

    private Fraction(double value) => Value = value;

    /// <summary>The share, 1 for the whole.</summary>
    public double Value { get; }

    /// <summary>Makes a share from its value, 1 for the whole.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Fraction FromValue(double value) => new(QuantityText.Finite(value, nameof(value)));

    /// <summary>Reads a share such as <c>15 %</c>; a bare number is an error.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The share, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Fraction value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double read, out problem))
        {
            return false;
        }

        value = new Fraction(read);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, and refuses what is not from 0 % to 100 %: for activity and other parts of a whole.</summary>
    public static bool TryParsePart(string text, out Fraction value, out string problem)
    {
        if (!TryParse(text, out value, out problem))
        {
            return false;
        }

        if (value.Value is >= 0 and <= 1)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is not a part of the whole; write 0 % to 100 %";
        value = default;
        return false;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a share in per cent.</exception>
    public static Fraction Parse(string text) =>
        TryParse(text, out Fraction value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Fraction other) => Value.CompareTo(other.Value);

    /// <summary>In per cent, the fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Percent(Value);
}
