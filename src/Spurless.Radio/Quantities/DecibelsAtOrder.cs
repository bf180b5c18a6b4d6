namespace Spurless.Radio.Quantities;

/// <summary>A ratio at an order of mixing: a turn-round loss.</summary>
/// <param name="Value">The ratio.</param>
/// <param name="Order">The order, 2 to 99.</param>
public readonly record struct DecibelsAtOrder(Decibels Value, int Order)
{
    /// <summary>Reads a ratio at an order such as <c>12 dB at 3</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The point, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out DecibelsAtOrder value, out string problem)
    {
        value = default;
        if (!PointText.TrySplit(text, "a ratio at an order", "12 dB at 3", out string first, out string second, out problem)
            || !Decibels.TryParse(first, out Decibels read, out problem)
            || !PointText.TryOrder(second, "12 dB at 3", out int order, out problem))
        {
            return false;
        }

        value = new DecibelsAtOrder(read, order);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a ratio at an order.</exception>
    public static DecibelsAtOrder Parse(string text) =>
        TryParse(text, out DecibelsAtOrder value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Value} at {Order}");
}
