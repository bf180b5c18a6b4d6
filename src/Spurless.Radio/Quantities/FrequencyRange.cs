namespace Spurless.Radio.Quantities;

/// <summary>A range of frequencies, both ends in it, the lower above 0 and below the upper.</summary>
public readonly record struct FrequencyRange
{
    private const string Example = "145.0 MHz-145.8 MHz";

    private FrequencyRange(Frequency from, Frequency to) => (From, To) = (from, to);

    /// <summary>The lower end.</summary>
    public Frequency From { get; }

    /// <summary>The upper end.</summary>
    public Frequency To { get; }

    /// <summary>Makes a range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is not above 0 or not below the upper.</exception>
    public static FrequencyRange Between(Frequency from, Frequency to) => from.Hertz > 0 && to > from
        ? new(from, to)
        : throw new ArgumentOutOfRangeException(nameof(to), to, "must lie above the lower end, which must be above 0");

    /// <summary>Reads <c>145.0 MHz-145.8 MHz</c>; the first unit may be left out where it is the second's.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The range, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out FrequencyRange value, out string problem)
    {
        value = default;
        string clean = (text ?? "").Trim();
        int dash = clean.Length < 2 ? -1 : clean.IndexOfAny(['-', '\u2013', '\u2212'], 1);
        if (dash < 0)
        {
            problem = clean.Length == 0
                ? $"nothing stands here; write a range of frequencies like {Example}"
                : $"{UnitTable.Quoted(text)} is not a range of frequencies; write it like {Example}";
            return false;
        }

        string first = clean[..dash].Trim();
        string second = clean[(dash + 1)..].Trim();
        if (NumberText.TryRead(first, out _, out int length) && length == first.Length
            && NumberText.TryRead(second, out _, out int upper))
        {
            first += second[upper..];
        }

        if (!Frequency.TryParsePositive(first, out Frequency from, out problem)
            || !Frequency.TryParsePositive(second, out Frequency to, out problem))
        {
            return false;
        }

        if (from >= to)
        {
            problem = $"{UnitTable.Quoted(text)} does not rise; write the lower frequency first, like {Example}";
            return false;
        }

        value = new FrequencyRange(from, to);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a range of frequencies.</exception>
    public static FrequencyRange Parse(string text) =>
        TryParse(text, out FrequencyRange value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>Whether a frequency lies in the range, ends included.</summary>
    public bool Contains(Frequency frequency) => frequency >= From && frequency <= To;

    /// <summary><c>145 MHz-145.8 MHz</c>; reads back to the same value.</summary>
    public override string ToString() => $"{From}-{To}";
}
