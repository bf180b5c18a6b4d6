namespace Spurless.Radio.Quantities;

/// <summary>A line's attenuation at a frequency.</summary>
/// <param name="Loss">The attenuation.</param>
/// <param name="Frequency">Where it holds, above 0.</param>
public readonly record struct LossPerLengthAt(LossPerLength Loss, Frequency Frequency)
{
    /// <summary>Reads a loss per length at a frequency such as <c>0.1 dB/m at 146 MHz</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out LossPerLengthAt value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(
                text, "a loss per length at a frequency", "0.1 dB/m at 146 MHz", out string first, out string second, out problem)
            || !LossPerLength.TryParse(first, out LossPerLength loss, out problem)
            || !Frequency.TryParsePositive(second, out Frequency frequency, out problem))
        {
            return false;
        }

        value = new LossPerLengthAt(loss, frequency);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a loss per length at a frequency.</exception>
    public static LossPerLengthAt Parse(string text) =>
        TryParse(text, out LossPerLengthAt value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => $"{Loss} at {Frequency}";
}
