namespace Spurless.Radio.Quantities;

/// <summary>An electric current, in amperes; the sign is kept.</summary>
public readonly record struct Current : IComparable<Current>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-15, 1e6, "from 0.001 pA to 1000 kA");

    private static readonly UnitTable _units = Proposing("mA", "30 mA");
    private static readonly UnitTable _reverse = Proposing("nA", "20 nA");

    private Current(double amperes) => Amperes = amperes;

    /// <summary>Amperes.</summary>
    public double Amperes { get; }

    /// <summary>Makes a current from amperes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Current FromAmperes(double amperes) => new(QuantityText.Finite(amperes, nameof(amperes)));

    /// <summary>Reads a current such as <c>30 mA</c>; prefixes from p to M are known, u may be written as a micro sign.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Current value, out string problem) => TryParse(_units, text, out value, out problem);

    /// <summary>As <see cref="TryParse(string, out Current, out string)"/>, for what a diode lets through in reverse: where something is
    /// wrong nanoamperes are proposed.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParseReverse(string text, out Current value, out string problem) =>
        TryParse(_reverse, text, out value, out problem);

    private static bool TryParse(UnitTable units, string text, out Current value, out string problem)
    {
        value = default;
        if (!units.TryRead(text, out double amperes, out problem))
        {
            return false;
        }

        value = new Current(amperes);
        return true;
    }

    /// <summary>As <see cref="TryParse(string, out Current, out string)"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a current.</exception>
    public static Current Parse(string text) =>
        TryParse(text, out Current value, out string problem) ? value : throw QuantityText.Refused(problem);

    private static UnitTable Proposing(string usual, string example) =>
        new("a current", usual, example, UnitTable.Prefixed("A", -12, 6)) { Sense = Range };

    /// <inheritdoc/>
    public int CompareTo(Current other) => Amperes.CompareTo(other.Amperes);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Amperes, "A", -12, 6);
}
