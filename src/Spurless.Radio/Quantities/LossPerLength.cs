namespace Spurless.Radio.Quantities;

/// <summary>The attenuation of a line, in dB per metre, 0 or more.</summary>
public readonly record struct LossPerLength : IComparable<LossPerLength>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(0, 1e3, "from 0 dB/m to 1000 dB/m");

    private static readonly UnitTable _units = new(
        "a loss per length",
        "dB/m",
        "0.1 dB/m",
        new UnitSymbol("dB/m", 0), new UnitSymbol("dB/100m", -2), new UnitSymbol("dB/100 m", -2), new UnitSymbol("dB/km", -3),
        new UnitSymbol("dB/ft", 0, 1 / 0.3048), new UnitSymbol("dB/100ft", -2, 1 / 0.3048), new UnitSymbol("dB/100 ft", -2, 1 / 0.3048))
    {
        Sense = Range,
    };

    private LossPerLength(double dbPerMetre) => DbPerMetre = dbPerMetre;

    /// <summary>Decibels per metre, 0 or more.</summary>
    public double DbPerMetre { get; }

    /// <summary>Makes a loss per length from decibels per metre, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static LossPerLength FromDbPerMetre(double dbPerMetre) => new(QuantityText.NotNegative(dbPerMetre, nameof(dbPerMetre)));

    /// <summary>Reads a loss per length such as <c>0.1 dB/m</c>; dB/m, dB/100 m, dB/km, dB/ft and dB/100 ft are known.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out LossPerLength value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double dbPerMetre, out problem))
        {
            return false;
        }

        if (dbPerMetre < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write a loss per length of 0 or more, like 0.1 dB/m";
            return false;
        }

        value = new LossPerLength(dbPerMetre);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a loss per length.</exception>
    public static LossPerLength Parse(string text) =>
        TryParse(text, out LossPerLength value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(LossPerLength other) => DbPerMetre.CompareTo(other.DbPerMetre);

    /// <summary>The fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(DbPerMetre, "dB/m");
}
