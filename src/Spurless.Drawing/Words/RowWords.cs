using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What has to stand in a mixture's own row, because its figures mislead without it.</summary>
public static class RowWords
{
    /// <summary>That its level cannot be relied on, and why; begins with a semicolon, empty where it can.</summary>
    /// <param name="product">The mixture.</param>
    public static string Trust(ProductFinding product) => product switch
    {
        { Trustworthy: true } => "",
        { Saturated: true } => "; level not trustworthy: capped at what that stage can deliver",
        { NextDegreeErrorDb: { } error } when product.Assumed.Any(static a => a.Kind == AssumptionKind.NextDegree) =>
            $"; level not trustworthy: by up to {Figures.BareDb(error)} dB",
        _ => "; level not trustworthy: a signal arrives nearly as strong as the transmitter's own",
    };
}
