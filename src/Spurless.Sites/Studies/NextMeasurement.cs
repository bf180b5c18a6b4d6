using System.Globalization;
using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>The one measurement that would make the weakest number of a receiver's findings better.</summary>
public static class NextMeasurement
{
    /// <summary>What to measure next, in a sentence; null where nothing lands on the receiver.</summary>
    /// <param name="receiver">The findings.</param>
    /// <remarks>
    /// An unknown level comes first, that of the emitter in most products without a level. Otherwise it is the largest part of the variance
    /// <c>sum k_i^2 s_i^2 + (n-1)^2 s_IIP^2</c> of the worst finding.
    /// </remarks>
    public static string? Of(ReceiverFindings receiver)
    {
        string? unknown = receiver.Products
            .Where(static p => p.Verdict == Verdict.Unknown)
            .SelectMany(static p => p.Terms)
            .Where(t => receiver.Carriers[t.Emitter].LevelAtAntennaDbm is null)
            .GroupBy(static t => t.Name, StringComparer.Ordinal)
            .OrderByDescending(static g => g.Count())
            .ThenBy(static g => g.Key, StringComparer.Ordinal)
            .Select(static g => $"Measure next how strong {g.Key} arrives: {(g.Count() == 1 ? "a mixture" : string.Create(CultureInfo.InvariantCulture, $"{g.Count()} mixtures"))} with it can land here, at a level nobody knows.")
            .FirstOrDefault();
        if (unknown is not null)
        {
            return unknown;
        }

        ProductFinding? worst = receiver.Products.FirstOrDefault() ?? receiver.WithoutFilter?.Products.FirstOrDefault();
        if (worst?.SigmaDb is not { } sigma || worst.Mechanism != Mechanism.Receiver)
        {
            return null;
        }

        Intercepts intercepts = receiver.Chain.ActiveStages.First(s => s.Name == worst.MadeIn).Intercepts;
        double fromIntercept = (worst.Order - 1) * intercepts.SigmaDb(worst.Order);
        Term weakest = worst.Terms.MaxBy(t => Math.Abs(t.Coefficient) * (receiver.Carriers[t.Emitter].SigmaDb ?? 0))!;
        double fromLevel = Math.Abs(weakest.Coefficient) * (receiver.Carriers[weakest.Emitter].SigmaDb ?? 0);
        string good = string.Create(CultureInfo.InvariantCulture, $"the worst finding is good to +-{sigma:0.0} dB (one sigma)");
        return fromIntercept >= fromLevel
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"Measure next the intercept of order {worst.Order} of {worst.MadeIn}: {good}, and +-{fromIntercept:0.0} dB of that come from it.")
            : string.Create(
                CultureInfo.InvariantCulture,
                $"Measure next the level of {weakest.Name}: {good}, and +-{fromLevel:0.0} dB of that come from it.");
    }
}
