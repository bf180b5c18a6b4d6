namespace Spurless.Radio.Quantities;

/// <summary>A level relative to the carrier at a multiple of its frequency: a harmonic.</summary>
/// <param name="Ratio">The level relative to the carrier.</param>
/// <param name="Order">The multiple, 2 to 99.</param>
public readonly record struct CarrierRatioAtOrder(CarrierRatio Ratio, int Order)
{
    /// <summary>Reads a level relative to the carrier at an order such as <c>-70 dBc at 2</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out CarrierRatioAtOrder value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(
                text, "a level relative to the carrier at an order", "-70 dBc at 2", out string first, out string second, out problem)
            || !CarrierRatio.TryParse(first, out CarrierRatio ratio, out problem)
            || !PointText.TryOrder(second, "-70 dBc at 2", out int order, out problem))
        {
            return false;
        }

        value = new CarrierRatioAtOrder(ratio, order);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a level relative to the carrier at an order.</exception>
    public static CarrierRatioAtOrder Parse(string text) =>
        TryParse(text, out CarrierRatioAtOrder value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Ratio} at {Order}");
}
