namespace Spurless.Radio.Quantities;

/// <summary>A length, distance, height or wire diameter in metres; the sign is kept (ground may lie below the sea).</summary>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>The values that make sense, of either sign; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-9, 1e8, "from 1 nm to 100000 km");

    private static readonly UnitTable _units = Units("a length", "m", "6 m");

    private Length(double metres) => Metres = metres;

    /// <summary>Metres.</summary>
    public double Metres { get; }

    /// <summary>Makes a length from metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Length FromMetres(double metres) => new(QuantityText.Finite(metres, nameof(metres)));

    /// <summary>
    /// Reads a length such as <c>650 m</c>, <c>4 mm</c>, <c>25 ft</c>, <c>0.5 in</c> (the international foot and inch of 1959: exactly
    /// 0.3048 m and 0.0254 m), or the diameter of a wire size, <c>18 AWG</c> (<see cref="WireDiameter"/>).
    /// </summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The length, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Length value, out string problem) => TryParse(text, _units, out value, out problem);

    /// <summary>The units of a length, with the unit and the example that a message proposes.</summary>
    internal static UnitTable Units(string kind, string usual, string example) => new(
        kind,
        usual,
        example,
        new UnitSymbol("m", 0),
        new UnitSymbol("mm", -3),
        new UnitSymbol("cm", -2),
        new UnitSymbol("um", -6),
        new UnitSymbol("nm", -9),
        new UnitSymbol("km", 3),
        new UnitSymbol("ft", 0, 0.3048),
        new UnitSymbol("in", 0, 0.0254),
        new UnitSymbol("mi", 0, 1609.344))
    { Sense = Range };

    /// <summary>As the public one, with the messages of a table.</summary>
    internal static bool TryParse(string text, UnitTable units, out Length value, out string problem)
    {
        if (WireDiameter.IsGauge(text))
        {
            return WireDiameter.TryParseGauge(text, out value, out problem);
        }

        value = default;
        if (!units.TryRead(text, out double metres, out problem))
        {
            return false;
        }

        value = new Length(metres);
        return true;
    }

    /// <summary>As <see cref="TryParse(string, out Length, out string)"/>, and refuses zero and what is below it.</summary>
    public static bool TryParsePositive(string text, out Length value, out string problem)
    {
        if (!TryParse(text, out value, out problem))
        {
            return false;
        }

        if (value.Metres > 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is not above 0; write a length like 6 m";
        value = default;
        return false;
    }

    /// <summary>As <see cref="TryParse(string, out Length, out string)"/>, and refuses what is below zero.</summary>
    public static bool TryParseNotNegative(string text, out Length value, out string problem)
    {
        if (!TryParse(text, out value, out problem))
        {
            return false;
        }

        if (value.Metres >= 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is negative; write a length of 0 or more, like 6 m";
        value = default;
        return false;
    }

    /// <summary>As <see cref="TryParse(string, out Length, out string)"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a length.</exception>
    public static Length Parse(string text) =>
        TryParse(text, out Length value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Length other) => Metres.CompareTo(other.Metres);

    /// <summary>Engineering notation in metres (<c>4 mm</c>, <c>6 m</c>, <c>1.2 km</c>); reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Metres, "m", -9, 3);
}
