namespace Spurless.Radio.Quantities;

/// <summary>Sideband noise at an offset from the carrier.</summary>
/// <param name="Density">The noise relative to the carrier.</param>
/// <param name="Offset">Distance from the carrier, above 0.</param>
public readonly record struct NoiseDensityAt(NoiseDensity Density, Frequency Offset)
{
    /// <summary>Reads a noise density at an offset such as <c>-140 dBc/Hz at 1 MHz</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out NoiseDensityAt value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(
                text, "a noise density at an offset", "-140 dBc/Hz at 1 MHz", out string first, out string second, out problem)
            || !NoiseDensity.TryParse(first, out NoiseDensity density, out problem)
            || !Frequency.TryParsePositive(second, out Frequency offset, out problem))
        {
            return false;
        }

        value = new NoiseDensityAt(density, offset);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a noise density at an offset.</exception>
    public static NoiseDensityAt Parse(string text) =>
        TryParse(text, out NoiseDensityAt value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => $"{Density} at {Offset}";
}
