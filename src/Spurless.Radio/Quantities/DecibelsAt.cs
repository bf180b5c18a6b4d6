namespace Spurless.Radio.Quantities;

/// <summary>A ratio at a frequency: a loss, gain, rejection or isolation.</summary>
/// <param name="Value">The ratio.</param>
/// <param name="Frequency">Where it holds, above 0.</param>
public readonly record struct DecibelsAt(Decibels Value, Frequency Frequency)
{
    /// <summary>Reads a ratio at a frequency such as <c>1.2 dB at 145 MHz</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out DecibelsAt value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(text, "a ratio at a frequency", "1.2 dB at 145 MHz", out string first, out string second, out problem)
            || !Decibels.TryParse(first, out Decibels read, out problem)
            || !Frequency.TryParsePositive(second, out Frequency frequency, out problem))
        {
            return false;
        }

        value = new DecibelsAt(read, frequency);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a ratio at a frequency.</exception>
    public static DecibelsAt Parse(string text) =>
        TryParse(text, out DecibelsAt value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => $"{Value} at {Frequency}";
}
