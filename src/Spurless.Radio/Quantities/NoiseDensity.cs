namespace Spurless.Radio.Quantities;

/// <summary>Noise beside a carrier, in dB relative to the carrier in 1 Hz.</summary>
public readonly record struct NoiseDensity : IComparable<NoiseDensity>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-300, 300, "from -300 dBc/Hz to 300 dBc/Hz", OfMagnitude: false);

    private static readonly UnitTable _units = new(
        "a noise density", "dBc/Hz", "-140 dBc/Hz", new UnitSymbol("dBc/Hz", 0))
    { Sense = Range };

    private NoiseDensity(double dbcPerHertz) => DbcPerHertz = dbcPerHertz;

    /// <summary>Decibels relative to the carrier in 1 Hz of bandwidth.</summary>
    public double DbcPerHertz { get; }

    /// <summary>Makes a noise density from decibels relative to the carrier in 1 Hz of bandwidth.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static NoiseDensity FromDbcPerHertz(double dbcPerHertz) => new(QuantityText.Finite(dbcPerHertz, nameof(dbcPerHertz)));

    /// <summary>Reads a noise density such as <c>-140 dBc/Hz</c>; the unit must stand there.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out NoiseDensity value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double dbcPerHertz, out problem))
        {
            return false;
        }

        value = new NoiseDensity(dbcPerHertz);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a noise density.</exception>
    public static NoiseDensity Parse(string text) =>
        TryParse(text, out NoiseDensity value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(NoiseDensity other) => DbcPerHertz.CompareTo(other.DbcPerHertz);

    /// <summary>The fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(DbcPerHertz, "dBc/Hz");
}
