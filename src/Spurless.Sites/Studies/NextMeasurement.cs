using System.Globalization;
using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>The one measurement that would make the weakest number of a receiver's findings better, and whom to ask for what.</summary>
public static class NextMeasurement
{
    // What one isolator and two in a row give, tuned to the transmitter's band (common practice).
    private const double OneIsolatorDb = 25;
    private const double TwoIsolatorsDb = 55;

    /// <summary>What to ask the owner of a transmitter for that makes a product, so that it sinks into the noise.</summary>
    /// <param name="product">A product made in a transmitter, over noise.</param>
    /// <returns>A sentence; null for any other product. An isolator acts on each incoming carrier as often as it takes part.</returns>
    public static string? AskOwner(ProductFinding product)
    {
        if (product is not { Mechanism: Mechanism.Transmitter, Sum: { } sum, OverNoiseDb: { } over and >= 0 })
        {
            return null;
        }

        double needed = over / sum.Incoming.Sum(static i => i.Times);
        double has = sum.Incoming.Min(static i => i.IsolatorDb);
        string what = has + needed <= OneIsolatorDb ? "an isolator"
            : has + needed <= TwoIsolatorsDb ? "a double isolator"
            : "a double isolator and a filter at its output";
        string now = has > 0 ? string.Create(CultureInfo.InvariantCulture, $" more than the {has:0.#} dB it has") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Ask whoever keeps {product.MadeIn} for {what} at its transmitter: {needed:0.0} dB of isolation{now} against what comes in there bring this mixture down to the noise.");
    }

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
        if (worst?.SigmaDb is not { } sigma)
        {
            return null;
        }

        if (worst.Mechanism == Mechanism.Transmitter)
        {
            return worst.Sum is { } sum ? AtTransmitter(worst, sum, sigma) : null;
        }

        if (receiver.Chain.ActiveStages.FirstOrDefault(s => s.Name == worst.MadeIn)?.Intercepts is not { } intercepts)
        {
            return null;
        }

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

    /// <summary>The largest part of <c>sum k_i^2 s_i^2 + s_T^2 + s_path^2</c>.</summary>
    private static string AtTransmitter(ProductFinding worst, TransmitterSum sum, double sigma)
    {
        (double Db, string What)[] parts =
        [
            .. sum.Incoming.Select(i => (i.Times * i.SigmaDb, $"the coupling from {i.Emitter} to {sum.Transmitter}, at its output line with the transmitter off")),
            (sum.TurnRoundSigmaDb, $"the turn-round loss of {sum.Transmitter}, with a weak signal fed into its output"),
            (sum.PathSigmaDb, $"the level of {sum.Transmitter} at the antenna connector"),
        ];
        (double db, string what) = parts.MaxBy(static p => p.Db);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Measure next {what}: the worst finding is good to +-{sigma:0.0} dB (one sigma), and +-{db:0.0} dB of that come from it.");
    }
}
