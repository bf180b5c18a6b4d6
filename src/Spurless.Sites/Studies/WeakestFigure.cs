using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>Which figure it is that a measurement would make better.</summary>
public enum FigureKind
{
    /// <summary>Level of an emitter of which nothing is known.</summary>
    UnknownLevel,

    /// <summary>Level of an emitter at the antenna connector.</summary>
    Level,

    /// <summary>Intercept of a stage of the receiver.</summary>
    Intercept,

    /// <summary>Coupling from an emitter to the transmitter that makes the product.</summary>
    Coupling,

    /// <summary>Turn-round loss of that transmitter.</summary>
    TurnRoundLoss,

    /// <summary>Level of that transmitter at the antenna connector.</summary>
    TransmitterLevel,
}

/// <summary>The one figure whose measurement would make a receiver's findings better most.</summary>
/// <param name="Kind">Which figure.</param>
/// <param name="Name">Whose it is: an emitter, a stage of the receiver, a transmitter.</param>
public sealed record WeakestFigure(FigureKind Kind, string Name)
{
    /// <summary>The transmitter at which a coupling is measured; null for other figures.</summary>
    public string? Transmitter { get; init; }

    /// <summary>Order of the intercept; 0 for other figures.</summary>
    public int Order { get; init; }

    /// <summary>Products that have no level for want of it; 0 where all have one.</summary>
    public int Products { get; init; }

    /// <summary>One sigma of the worst finding in dB; null where levels are missing.</summary>
    public double? SigmaDb { get; init; }

    /// <summary>What of it comes from this figure, one sigma in dB; null where levels are missing.</summary>
    public double? ShareDb { get; init; }

    /// <summary>What to measure next; null where nothing lands on the receiver.</summary>
    /// <param name="receiver">The findings.</param>
    /// <remarks>
    /// An unknown level comes first, that of the emitter in most products without a level. Otherwise it is the largest part of the variance
    /// <c>sum k_i^2 s_i^2 + (n-1)^2 s_IIP^2</c> of the worst finding.
    /// </remarks>
    public static WeakestFigure? Of(ReceiverFindings receiver)
    {
        WeakestFigure? unknown = receiver.Products
            .Where(static p => p.Verdict == Verdict.Unknown)
            .SelectMany(static p => p.Terms)
            .Where(t => receiver.Carriers[t.Emitter].LevelAtAntennaDbm is null)
            .GroupBy(static t => t.Name, StringComparer.Ordinal)
            .OrderByDescending(static g => g.Count())
            .ThenBy(static g => g.Key, StringComparer.Ordinal)
            .Select(static g => new WeakestFigure(FigureKind.UnknownLevel, g.Key) { Products = g.Count() })
            .FirstOrDefault();
        if (unknown is not null)
        {
            return unknown;
        }

        ProductFinding? worst = receiver.Products is [var now, ..]
            ? now
            : receiver.WithoutFilter?.Products is [var before, ..] ? before
            : null;
        if (worst?.SigmaDb is not { } sigma)
        {
            return null;
        }

        if (worst.Mechanism == Mechanism.Transmitter)
        {
            return worst.Sum is { } sum ? AtTransmitter(sum, sigma) : null;
        }

        if (worst.Made.Stage is not { } stage)
        {
            return null;
        }

        Intercepts intercepts = receiver.Chain.ActiveStages[stage].Intercepts;
        double fromIntercept = (worst.Order - 1) * intercepts.SigmaDb(worst.Order);
        Term weakest = worst.Terms.MaxBy(t => Math.Abs(t.Coefficient) * (receiver.Carriers[t.Emitter].SigmaDb ?? 0))!;
        double fromLevel = Math.Abs(weakest.Coefficient) * (receiver.Carriers[weakest.Emitter].SigmaDb ?? 0);
        return fromIntercept >= fromLevel
            ? new WeakestFigure(FigureKind.Intercept, worst.MadeIn) { Order = worst.Order, SigmaDb = sigma, ShareDb = fromIntercept }
            : new WeakestFigure(FigureKind.Level, weakest.Name) { SigmaDb = sigma, ShareDb = fromLevel };
    }

    /// <summary>The largest part of <c>sum k_i^2 s_i^2 + s_T^2 + s_path^2</c>.</summary>
    private static WeakestFigure AtTransmitter(TransmitterSum sum, double sigma)
    {
        WeakestFigure[] parts =
        [
            .. sum.Incoming.Select(
                i =>
                    new WeakestFigure(FigureKind.Coupling, i.Emitter)
                    {
                        Transmitter = sum.Transmitter,
                        SigmaDb = sigma,
                        ShareDb = i.Times * i.SigmaDb,
                    }),
            new WeakestFigure(FigureKind.TurnRoundLoss, sum.Transmitter) { SigmaDb = sigma, ShareDb = sum.TurnRoundSigmaDb },
            new WeakestFigure(FigureKind.TransmitterLevel, sum.Transmitter) { SigmaDb = sigma, ShareDb = sum.PathSigmaDb },
        ];
        return parts.MaxBy(static p => p.ShareDb)!;
    }
}
