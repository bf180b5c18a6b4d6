namespace Spurless.Radio.Quantities;

/// <summary>A ratio of powers in decibels: a gain or a loss, as the key or parameter says. Not a level: see <see cref="Level"/>.</summary>
public readonly record struct Decibels : IComparable<Decibels>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-300, 300, "from -300 dB to 300 dB", OfMagnitude: false);

    private static readonly UnitTable _units = new("a ratio in decibels", "dB", "6 dB", new UnitSymbol("dB", 0)) { Sense = Range };

    private Decibels(double decibels) => Value = decibels;

    /// <summary>Decibels, of either sign.</summary>
    public double Value { get; }

    /// <summary>Makes a ratio in decibels from decibels, of either sign.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Decibels FromDecibels(double decibels) => new(QuantityText.Finite(decibels, nameof(decibels)));

    /// <summary>Reads a ratio in decibels such as <c>6 dB</c>; the unit must stand there.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Decibels value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double decibels, out problem))
        {
            return false;
        }

        value = new Decibels(decibels);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a ratio in decibels.</exception>
    public static Decibels Parse(string text) =>
        TryParse(text, out Decibels value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Decibels other) => Value.CompareTo(other.Value);

    /// <summary>The fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Value, "dB");
}
