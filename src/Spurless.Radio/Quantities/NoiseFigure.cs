namespace Spurless.Radio.Quantities;

/// <summary>A noise figure in decibels, 0 or more, referred to 290 K.</summary>
public readonly record struct NoiseFigure : IComparable<NoiseFigure>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-300, 100, "from 0 dB to 100 dB", OfMagnitude: false);

    private static readonly UnitTable _units = new("a noise figure", "dB", "6 dB", new UnitSymbol("dB", 0)) { Sense = Range };

    private NoiseFigure(double decibels) => Decibels = decibels;

    /// <summary>Decibels, 0 or more.</summary>
    public double Decibels { get; }

    /// <summary>Makes a noise figure from decibels, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static NoiseFigure FromDecibels(double decibels) => new(QuantityText.NotNegative(decibels, nameof(decibels)));

    /// <summary>Reads a noise figure such as <c>6 dB</c>; the unit must stand there.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out NoiseFigure value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double decibels, out problem))
        {
            return false;
        }

        if (decibels < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write a noise figure of 0 or more, like 6 dB";
            return false;
        }

        value = new NoiseFigure(decibels);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a noise figure.</exception>
    public static NoiseFigure Parse(string text) =>
        TryParse(text, out NoiseFigure value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(NoiseFigure other) => Decibels.CompareTo(other.Decibels);

    /// <summary>The fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Decibels, "dB");
}
