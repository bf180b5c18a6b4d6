namespace Spurless.Radio.Quantities;

/// <summary>A power in watts, above 0. For received levels see <see cref="Level"/>.</summary>
public readonly record struct Power : IComparable<Power>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-21, 1e9, "from 1e-21 W to 1 GW");

    private static readonly UnitTable _units = new(
        "a power",
        "W",
        "25 W",
        [.. UnitTable.Prefixed("W", -15, 9), new UnitSymbol("dBm", 0), new UnitSymbol("dBW", 0)])
    { Sense = Range };

    private Power(double watts) => Watts = watts;

    /// <summary>Watts.</summary>
    public double Watts { get; }

    /// <summary>dB over 1 mW; minus infinity for <c>default</c>.</summary>
    public double Dbm => 10 * Math.Log10(Watts) + 30;

    /// <summary>Makes a power from watts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number above 0.</exception>
    public static Power FromWatts(double watts) => new(QuantityText.AboveZero(watts, nameof(watts)));

    /// <summary>Makes a power from dB over 1 mW.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or beyond what a double holds in watts.</exception>
    public static Power FromDbm(double dbm) =>
        FromWatts(Math.Pow(10, (QuantityText.Finite(dbm, nameof(dbm)) - 30) / 10));

    /// <summary>Reads a power such as <c>25 W</c>, <c>500 mW</c>, <c>44 dBm</c> or <c>14 dBW</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The power, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Power value, out string problem)
    {
        value = default;
        if (!_units.TryMatch(text, out NumberText number, out UnitSymbol unit, out problem))
        {
            return false;
        }

        bool read = number.TryToDouble(unit.PowerOfTen, out double watts);
        watts = unit.Symbol switch
        {
            "dBm" => Math.Pow(10, (watts - 30) / 10),
            "dBW" => Math.Pow(10, watts / 10),
            _ => watts,
        };
        if (read && double.IsFinite(watts) && watts > 0)
        {
            if (!_units.IsSense(watts, text, out problem))
            {
                return false;
            }

            value = new Power(watts);
            return true;
        }

        problem = read && watts <= 0
            ? $"{UnitTable.Quoted(text)} is not above 0; write a power like 25 W"
            : $"{UnitTable.Quoted(text)} is beyond what can be computed with; write a power like 25 W";
        return false;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a power.</exception>
    public static Power Parse(string text) =>
        TryParse(text, out Power value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Power other) => Watts.CompareTo(other.Watts);

    /// <summary>Engineering notation in watts; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Watts, "W", -15, 9);
}
