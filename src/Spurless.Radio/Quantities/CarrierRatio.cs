namespace Spurless.Radio.Quantities;

/// <summary>A level relative to a carrier, in dBc; negative below it.</summary>
public readonly record struct CarrierRatio : IComparable<CarrierRatio>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-300, 300, "from -300 dBc to 300 dBc", OfMagnitude: false);

    private static readonly UnitTable _units = new(
        "a level relative to the carrier", "dBc", "-70 dBc", new UnitSymbol("dBc", 0))
    { Sense = Range };

    private CarrierRatio(double dbc) => Dbc = dbc;

    /// <summary>Decibels relative to the carrier.</summary>
    public double Dbc { get; }

    /// <summary>Makes a level relative to the carrier from decibels relative to the carrier.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static CarrierRatio FromDbc(double dbc) => new(QuantityText.Finite(dbc, nameof(dbc)));

    /// <summary>Reads a level relative to the carrier such as <c>-70 dBc</c>; the unit must stand there.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out CarrierRatio value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double dbc, out problem))
        {
            return false;
        }

        value = new CarrierRatio(dbc);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a level relative to the carrier.</exception>
    public static CarrierRatio Parse(string text) =>
        TryParse(text, out CarrierRatio value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(CarrierRatio other) => Dbc.CompareTo(other.Dbc);

    /// <summary>The fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Dbc, "dBc");
}
