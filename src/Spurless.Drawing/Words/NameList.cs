namespace Spurless.Drawing.Words;

/// <summary>Names in a row, as a sentence has them: a, b and c.</summary>
public static class NameList
{
    /// <summary>The names with commas and an 'and' before the last; beyond <paramref name="most"/> of them the rest is counted.</summary>
    /// <param name="names">The names; none gives nothing.</param>
    /// <param name="most">How many are told at most, 1 or more.</param>
    public static string Of(IReadOnlyList<string> names, int most = int.MaxValue) => names.Count switch
    {
        0 => "",
        1 => names[0],
        _ when names.Count > most =>
            string.Join(", ", names.Take(most)) + FormattableString.Invariant($" and {names.Count - most} more"),
        _ => string.Join(", ", names.Take(names.Count - 1)) + " and " + names[^1],
    };
}
