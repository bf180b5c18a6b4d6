namespace Spurless.Radio.Quantities;

/// <summary>An unloaded Q at a frequency.</summary>
/// <param name="Quality">The Q, a plain number above 0.</param>
/// <param name="Frequency">Where it holds, above 0.</param>
public readonly record struct QualityAt(double Quality, Frequency Frequency)
{
    /// <summary>Reads a Q at a frequency such as <c>160 at 145.05 MHz</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out QualityAt value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(text, "a Q at a frequency", "160 at 145.05 MHz", out string first, out string second, out problem)
            || !PointText.TryPlain(first, "a Q at a frequency", "160 at 145.05 MHz", out double quality, out problem)
            || !Frequency.TryParsePositive(second, out Frequency frequency, out problem))
        {
            return false;
        }

        value = new QualityAt(quality, frequency);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a Q at a frequency.</exception>
    public static QualityAt Parse(string text) =>
        TryParse(text, out QualityAt value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => $"{QuantityText.Shortest(Quality)} at {Frequency}";
}
