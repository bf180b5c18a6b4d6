namespace Spurless.Radio.Quantities;

/// <summary>A length of time, in seconds, 0 or more.</summary>
public readonly record struct Duration : IComparable<Duration>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(1e-15, 1e9, "from 0.001 ps to 1000000000 s");

    private static readonly UnitTable _units = new(
        "a duration", "ms", "5 ms", [.. UnitTable.Prefixed("s", -12, 0), new UnitSymbol("min", 0, 60), new UnitSymbol("h", 0, 3600)])
    {
        Sense = Range,
    };

    private Duration(double seconds) => Seconds = seconds;

    /// <summary>Seconds, 0 or more.</summary>
    public double Seconds { get; }

    /// <summary>Makes a duration from seconds, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number, or below 0.</exception>
    public static Duration FromSeconds(double seconds) => new(QuantityText.NotNegative(seconds, nameof(seconds)));

    /// <summary>Reads a duration such as <c>5 ms</c>; ps to s, min and h are known.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The quantity, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Duration value, out string problem)
    {
        value = default;
        if (!_units.TryRead(text, out double seconds, out problem))
        {
            return false;
        }

        if (seconds < 0)
        {
            problem = $"{UnitTable.Quoted(text)} is negative; write a duration of 0 or more, like 5 ms";
            return false;
        }

        value = new Duration(seconds);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a duration.</exception>
    public static Duration Parse(string text) =>
        TryParse(text, out Duration value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Duration other) => Seconds.CompareTo(other.Seconds);

    /// <summary>Engineering notation; reads back to the same value.</summary>
    public override string ToString() => QuantityText.Engineering(Seconds, "s", -12, 0);
}
