namespace Spurless.Mixing.Causes;

/// <summary>A turn-round loss stated for an order.</summary>
/// <param name="Order">Order of the product, 2 to 9.</param>
/// <param name="LossDb">What the product leaves under the incoming signal, in dB, where every other emitter takes part once.</param>
public readonly record struct TurnRoundPoint(int Order, double LossDb);

/// <summary>Turn-round (conversion) loss T of a transmitter's output stage by order of the product.</summary>
/// <remarks>At |k_i| = 1 of one other signal the product leaves with the incoming level less T. For an order not stated the nearest lower
/// one holds; for one under the lowest stated, the lowest (marked).</remarks>
public sealed class TurnRoundLoss
{
    /// <summary>The least that a usual base transmitter has, in dB; the most is 20 dB (common practice).</summary>
    public const double LeastUsualDb = 6;

    private const int MaxOrder = 9;

    private readonly double[] _lossDb = new double[MaxOrder + 1];
    private readonly Assumption?[] _assumed = new Assumption?[MaxOrder + 1];

    private TurnRoundLoss()
    {
    }

    /// <summary>
    /// One sigma in dB: stated 3 dB, carried over from another order or typical 5 dB (as for intercepts; common practice).
    /// </summary>
    /// <param name="order">Order, 2 to 9.</param>
    /// <returns>dB.</returns>
    public double SigmaDb(int order) => _assumed[order] is null ? 3 : 5;

    /// <summary>One figure that holds for every order.</summary>
    /// <param name="lossDb">Loss in dB, finite.</param>
    /// <returns>The loss by order, nothing of it assumed.</returns>
    public static TurnRoundLoss EveryOrder(double lossDb)
    {
        RefuseNotFinite(lossDb);
        TurnRoundLoss loss = new();
        Array.Fill(loss._lossDb, lossDb);
        return loss;
    }

    /// <summary>Figures by order; the nearest lower order holds.</summary>
    /// <param name="points">One or more, orders 2 to 9 and different, losses finite.</param>
    /// <returns>The loss by order.</returns>
    /// <exception cref="ArgumentException">No point, an order twice or out of range, a loss that is not finite.</exception>
    public static TurnRoundLoss ByOrder(params ReadOnlySpan<TurnRoundPoint> points)
    {
        TurnRoundPoint[] sorted = points.ToArray();
        Array.Sort(sorted, static (a, b) => a.Order.CompareTo(b.Order));
        if (sorted.Length == 0)
        {
            throw new ArgumentException("at least one point", nameof(points));
        }

        for (int i = 0; i < sorted.Length; i++)
        {
            RefuseNotFinite(sorted[i].LossDb);
            if (sorted[i].Order is < 2 or > MaxOrder || (i > 0 && sorted[i].Order == sorted[i - 1].Order))
            {
                throw new ArgumentException("orders 2 to 9, each once", nameof(points));
            }
        }

        TurnRoundLoss loss = new();
        for (int order = 2; order <= MaxOrder; order++)
        {
            int at = Array.FindLastIndex(sorted, p => p.Order <= order);
            TurnRoundPoint point = sorted[Math.Max(at, 0)];
            loss._lossDb[order] = point.LossDb;
            loss._assumed[order] = point.Order == order
                ? null
                : new Assumption(AssumptionKind.TurnRoundOfOtherOrder) { FromOrder = point.Order, Order = order };
        }

        return loss;
    }

    /// <summary>T at an order.</summary>
    /// <param name="order">Order, 2 to 9.</param>
    /// <returns>dB.</returns>
    public double At(int order) => _lossDb[order];

    /// <summary>What was assumed for T at an order, or null.</summary>
    /// <param name="order">Order, 2 to 9.</param>
    /// <returns>Null where the order itself was stated.</returns>
    public Assumption? AssumedAt(int order) => _assumed[order];

    private static void RefuseNotFinite(double lossDb)
    {
        if (!double.IsFinite(lossDb))
        {
            throw new ArgumentException("a turn-round loss must be finite", nameof(lossDb));
        }
    }
}
