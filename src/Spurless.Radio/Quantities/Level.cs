namespace Spurless.Radio.Quantities;

/// <summary>
/// A level: a power in dB over 1 mW. Voltages are turned into levels at 50 ohm. Not a ratio: see <see cref="Decibels"/>.
/// <c>default</c> is 0 dBm.
/// </summary>
public readonly record struct Level : IComparable<Level>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-300, 300, "from -300 dBm to 300 dBm", OfMagnitude: false);

    private static readonly UnitTable _units = new(
        "a level",
        "dBm",
        "-21 dBm",
        [new UnitSymbol("dBm", 0), new UnitSymbol("dBW", 0), .. LevelText.Voltages])
    { Sense = Range };

    private Level(double dbm) => Dbm = dbm;

    /// <summary>dB over 1 mW.</summary>
    public double Dbm { get; }

    /// <summary>The power in watts.</summary>
    public double Watts => Math.Pow(10, (Dbm - 30) / 10);

    /// <summary>Makes a level from dB over 1 mW.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Level FromDbm(double dbm) => new(QuantityText.Finite(dbm, nameof(dbm)));

    /// <summary>
    /// Reads a level: <c>-21 dBm</c>, <c>-51 dBW</c>, or a voltage that says across what: <c>30 uV pd</c> (across 50 ohm),
    /// <c>60 uV emf</c> (open circuit of a 50 ohm source), <c>6 dBuV emf</c>.
    /// </summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The level, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Level value, out string problem)
    {
        value = default;
        if (!LevelText.TryRead(_units, text, out double dbm, out problem))
        {
            return false;
        }

        value = new Level(dbm);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a level.</exception>
    public static Level Parse(string text) =>
        TryParse(text, out Level value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Level other) => Dbm.CompareTo(other.Dbm);

    /// <summary>In dBm, the fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Dbm, "dBm");
}
