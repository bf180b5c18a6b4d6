using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>
/// What a mixture does to who listens, in words: <c>opens squelch</c>, <c>spoils wanted</c>, <c>costs 3.0 dB</c>, <c>not heard</c>.
/// </summary>
public static class ImpactWords
{
    /// <summary>In two words or three.</summary>
    /// <param name="product">The mixture; null where it has sunk under the report's floor.</param>
    public static string Of(ProductFinding? product) => product?.Impact switch
    {
        Impact.OpensSquelch => "opens squelch",
        Impact.SpoilsWanted => "spoils wanted",
        Impact.CostsSensitivity => $"costs {Figures.BareDb(product.Effects?.NoiseRiseDb ?? 0)} dB",
        Impact.NotKnown => "level unknown",
        _ => "not heard",
    };

    /// <summary>The same of a cause that is not a mixture.</summary>
    /// <param name="cause">The cause.</param>
    public static string Of(OtherCause cause) => cause.Verdict switch
    {
        Verdict.Clear => "not heard",
        Verdict.Unknown => "not known",
        _ when cause.DesenseDb is { } lost => $"costs {Figures.BareDb(lost)} dB",
        _ => "heard",
    };

    /// <summary>
    /// How likely it is over the threshold of harm, and how often all its emitters are on: <c>likely, 15 % of the time</c>.
    /// </summary>
    /// <param name="product">The mixture.</param>
    public static string Often(ProductFinding product) => string.Join(", ", ((string?[])
    [
        HeardWords.Chance(product.Chance),
        product.OnTogether < 1 ? $"{Figures.Percent(product.OnTogether)} of the time" : null,
    ]).OfType<string>());

    /// <summary>
    /// The fixed word of the JSON format: <c>opens squelch</c>, <c>costs sensitivity</c>, <c>spoils wanted</c>, <c>not heard</c>; null
    /// where unknown.
    /// </summary>
    /// <param name="impact">What it does.</param>
    public static string? Fixed(Impact impact) => impact switch
    {
        Impact.OpensSquelch => "opens squelch",
        Impact.SpoilsWanted => "spoils wanted",
        Impact.CostsSensitivity => "costs sensitivity",
        Impact.NotHeard => "not heard",
        _ => null,
    };

    /// <summary>What the mixtures over the noise do, in a sentence with a space before it; empty for none.</summary>
    /// <param name="harmful">Those that are there.</param>
    internal static string Sentence(IReadOnlyList<NumberedFinding> harmful)
    {
        int open = harmful.Count(static f => f.After!.Impact == Impact.OpensSquelch);
        int spoil = harmful.Count(static f => f.After!.Impact == Impact.SpoilsWanted);
        int n = harmful.Count;
        return n == 0 ? ""
            : open == n ? n == 1 ? " It opens the squelch." : n == 2 ? " Both open the squelch." : " All open the squelch."
            : open > 0 ? $" {StudyWords.Capital(Figures.CountInWords(open))} of them {(open == 1 ? "opens" : "open")} the squelch."
            : spoil > 0 ? n == 1 ? " It spoils the weakest wanted signal."
                : $" {StudyWords.Capital(Figures.CountInWords(spoil))} of them {(spoil == 1 ? "spoils" : "spoil")} "
                    + "the weakest wanted signal."
            : $" {(n == 1 ? "It costs" : "They cost up to")} {Cost(harmful)} dB of sensitivity.";
    }

    /// <summary>What the marginal mixtures do, in a sentence with a space before it; empty for none.</summary>
    /// <param name="marginal">Those that are there.</param>
    /// <param name="more">Whether others were told of before.</param>
    internal static string Rest(IReadOnlyList<NumberedFinding> marginal, bool more)
    {
        if (marginal.Count == 0)
        {
            return "";
        }

        string count = marginal.Count == 1 ? "One" : StudyWords.Capital(Figures.CountInWords(marginal.Count));
        string who = count + (more ? " more" : "");
        NumberedFinding[] spoil = [.. marginal.Where(static f => f.After!.Impact is Impact.SpoilsWanted or Impact.OpensSquelch)];
        return spoil.Length > 0
            ? $" {who} {(marginal.Count == 1 ? "is" : "are")} under the noise and would still spoil the weakest wanted signal."
            : $" {who} {(marginal.Count == 1 ? "costs" : "cost up to")} {Cost(marginal)} dB of sensitivity.";
    }

    private static string Cost(IReadOnlyList<NumberedFinding> findings) => Figures.BareDb(findings.Max(static f =>
        f.After!.Effects?.NoiseRiseDb ?? 0));
}
