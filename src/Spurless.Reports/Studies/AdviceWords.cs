using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>What to measure next and whom to ask for what, in a sentence each.</summary>
internal static class AdviceWords
{
    /// <summary>
    /// What to ask the owner of the transmitter for that makes a product; null for a product of the receiver or under the noise.
    /// </summary>
    public static string? AskOwner(ProductFinding product)
    {
        if (IsolatorNeed.Of(product) is not { } need)
        {
            return null;
        }

        string what = need.Kind switch
        {
            IsolatorKind.Single => "an isolator",
            IsolatorKind.Double => "a double isolator",
            _ => "a double isolator and a filter at its output",
        };
        string now = need.HasDb > 0 ? FormattableString.Invariant($" more than the {need.HasDb:0.#} dB it has") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Ask whoever keeps {need.Transmitter} for {what} at its transmitter: "
                + $"{Figures.AtLeastDb(need.NeededDb)} dB of isolation{now} against what comes in there "
                + $"bring this mixture down to the noise.");
    }

    /// <summary>What a filter in front of the receiver has to do against what is made in it; null where nothing harmful is.</summary>
    /// <param name="receiver">The findings.</param>
    public static string? AtReceiver(ReceiverFindings receiver)
    {
        ProductFinding[] made =
        [
            .. receiver.Products
                .Where(static p => p is { Mechanism: Mechanism.Receiver, Verdict: Verdict.Harmful, OnCarrierOfItsOwn: false }),
        ];
        if (made.Length == 0)
        {
            return null;
        }

        double most = made.Max(static p => (p.OverNoiseDb ?? 0) / p.Order);
        return made.Length == 1
            ? $"Put a filter in front of your receiver: with its carriers weaker by {Figures.AtLeastDb(most)} dB each, "
                + "the mixture made there is down at the noise."
            : $"Put a filter in front of your receiver: with their carriers weaker by {Figures.AtLeastDb(most)} dB each, "
                + $"the {Figures.CountInWords(made.Length)} mixtures made there are down at the noise.";
    }

    /// <summary>What to measure next; null where nothing lands on the receiver.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="signs">The signs to use.</param>
    public static string? MeasureNext(ReceiverFindings receiver, Typography signs) => WeakestFigure.Of(receiver) switch
    {
        null => null,
        { Kind: FigureKind.UnknownLevel } unknown => FormattableString.Invariant($"Measure next how strong {unknown.Name} arrives: ")
            + (unknown.Products == 1 ? "a mixture" : FormattableString.Invariant($"{unknown.Products} mixtures"))
                + " with it can land here, at a level nobody knows.",
        { } figure => string.Create(
            CultureInfo.InvariantCulture,
            $"Measure next {What(figure)}: the worst finding is good to {signs.PlusMinus}{figure.SigmaDb:0.0} dB (one "
                + $"sigma), and {signs.PlusMinus}{figure.ShareDb:0.0} dB of that come from it."),
    };

    private static string What(WeakestFigure figure) => figure.Kind switch
    {
        FigureKind.Intercept => FormattableString.Invariant($"the intercept of order {figure.Order} of {figure.Name}"),
        FigureKind.Coupling => $"the coupling from {figure.Name} to {figure.Transmitter}, at its output line with the transmitter off",
        FigureKind.TurnRoundLoss => $"the turn-round loss of {figure.Name}, with a weak signal fed into its output",
        FigureKind.TransmitterLevel => $"the level of {figure.Name} at the antenna connector",
        _ => $"the level of {figure.Name}",
    };
}
