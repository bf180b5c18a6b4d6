namespace Spurless.Drawing.Words;

/// <summary>What a before and an after are called: 'without the filter' and 'with it', where nothing else is said.</summary>
/// <param name="Before">The before, as a phrase: <c>without the filter</c>.</param>
/// <param name="After">The after: <c>with it</c>.</param>
/// <param name="BeforeShort">The before at the head of a narrow column.</param>
/// <param name="AfterShort">The after at the head of a narrow column.</param>
/// <param name="With">How a sentence about the after begins: <c>With the filter in</c>.</param>
/// <param name="Either">Both: <c>with the filter or without it</c>.</param>
/// <param name="TakesNone">The sentence that none is cured.</param>
public sealed record ComparisonWords(
    string Before, string After, string BeforeShort, string AfterShort, string With, string Either, string TakesNone)
{
    /// <summary>A filter that is in, and the chain without it.</summary>
    public static ComparisonWords Filter { get; } = new(
        "without the filter",
        "with it",
        "without",
        "with",
        "With the filter in",
        "with the filter or without it",
        "The filter takes none of them away.");

    /// <summary>A filter that is in with other changes beside it, and the chain without any of that.</summary>
    public static ComparisonWords FilterAndMore { get; } = new(
        "before",
        "with all changes",
        "before",
        "now",
        "With the filter in and the other changes",
        "before or now",
        "Filter and changes take none of them away.");

    /// <summary>Changes without a filter, and the file as it stands.</summary>
    public static ComparisonWords Changes { get; } = new(
        "as in the file", "as changed", "before", "now", "With these changes", "changed or not", "These changes take none of them away.");

    /// <summary>A way out, and the file as it stands.</summary>
    public static ComparisonWords WayOut { get; } = new(
        "as it is", "with this way out", "now", "then", "With this way out", "with this way out or without it",
        "This way out takes none of them away.");

    /// <summary>What the user made the before, and what has changed since.</summary>
    public static ComparisonWords Held { get; } = new(
        "as held before", "as it is now", "before", "now", "As it is now", "before or now", "None of them is gone.");
}
