namespace Spurless.Files.Diagnostics;

/// <summary>
/// Why something that was asked for cannot be had. It has no place in a file: who reports it knows where it belongs.
/// </summary>
/// <param name="What">What was found, without a full stop.</param>
/// <param name="Remedy">What to write or ask for instead, without a full stop.</param>
public sealed record Refusal(string What, string Remedy)
{
    /// <summary>What of the question it is about, by the name of the question's property; null for the whole of it.</summary>
    public string? Subject { get; init; }

    /// <summary>
    /// What a <see cref="TextParser{T}"/> said of a text. The only place where such a sentence is taken apart:
    /// quantities know nothing of files.
    /// </summary>
    /// <param name="problem">
    /// <c>what was found; what to write instead</c>; what was found may quote the user and hold semicolons of its own.
    /// </param>
    /// <param name="otherwise">What to write instead where the parser does not say.</param>
    public static Refusal OfParser(string problem, string otherwise)
    {
        ArgumentNullException.ThrowIfNull(problem);
        int cut = problem.LastIndexOf("; ", StringComparison.Ordinal);
        return cut < 0 ? new Refusal(problem, otherwise) : new Refusal(problem[..cut], problem[(cut + 2)..]);
    }

    /// <summary>The refusal on one line: <c>what; what to do instead</c>.</summary>
    public override string ToString() => $"{What}; {Remedy}";
}
