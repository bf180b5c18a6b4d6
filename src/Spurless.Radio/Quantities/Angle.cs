namespace Spurless.Radio.Quantities;

/// <summary>An angle in degrees; the sign is kept and nothing is wrapped.</summary>
public readonly record struct Angle : IComparable<Angle>
{
    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(0, 1e6, "up to 1000000 deg");

    private static readonly UnitTable _units = new(
        "an angle",
        "deg",
        "40 deg",
        new UnitSymbol("deg", 0),
        new UnitSymbol("\u00B0", 0),
        new UnitSymbol("rad", 0, 180 / Math.PI))
    { Sense = Range };

    private Angle(double degrees) => Degrees = degrees;

    /// <summary>Degrees.</summary>
    public double Degrees { get; }

    /// <summary>Radians.</summary>
    public double Radians => Degrees * (Math.PI / 180);

    /// <summary>Makes an angle from degrees.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Angle FromDegrees(double degrees) => new(QuantityText.Finite(degrees, nameof(degrees)));

    /// <summary>Reads an angle: plain degrees (<c>40</c>), <c>40 deg</c>, <c>40°</c> or <c>0.7 rad</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The angle, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Angle value, out string problem)
    {
        value = default;
        string clean = (text ?? "").Trim();
        bool bare = NumberText.TryRead(clean, out _, out int length) && length == clean.Length;
        if (!_units.TryRead(bare ? clean + " deg" : clean, out double degrees, out problem))
        {
            return false;
        }

        value = new Angle(degrees);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not an angle.</exception>
    public static Angle Parse(string text) =>
        TryParse(text, out Angle value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Degrees.CompareTo(other.Degrees);

    /// <summary>In degrees, the fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Degrees, "deg");
}
