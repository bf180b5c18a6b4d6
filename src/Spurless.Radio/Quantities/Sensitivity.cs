namespace Spurless.Radio.Quantities;

/// <summary>The level at a receiver's input at which it reaches a stated quality (12 dB SINAD where nothing else is said).</summary>
public readonly record struct Sensitivity : IComparable<Sensitivity>
{
    private static readonly UnitTable _units = new(
        "a sensitivity",
        "uV pd",
        "0.25 uV pd",
        [.. LevelText.Voltages, new UnitSymbol("dBm", 0), new UnitSymbol("dBW", 0)])
    { Sense = Level.Range };

    private Sensitivity(Level level) => Level = level;

    /// <summary>The level at the input.</summary>
    public Level Level { get; }

    /// <summary>Makes a sensitivity from a level.</summary>
    public static Sensitivity FromLevel(Level level) => new(level);

    /// <summary>
    /// Reads <c>0.25 uV pd</c> (across 50 ohm), <c>0.5 uV emf</c> (open circuit) or <c>-119 dBm</c>; microvolts alone are an error that
    /// asks which.
    /// </summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The sensitivity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Sensitivity value, out string problem)
    {
        value = default;
        if (!LevelText.TryRead(_units, text, out double dbm, out problem))
        {
            return false;
        }

        value = new Sensitivity(Level.FromDbm(dbm));
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a sensitivity.</exception>
    public static Sensitivity Parse(string text) =>
        TryParse(text, out Sensitivity value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Sensitivity other) => Level.CompareTo(other.Level);

    /// <summary>In dBm, the fewest digits that read back to the same value.</summary>
    public override string ToString() => Level.ToString();
}
