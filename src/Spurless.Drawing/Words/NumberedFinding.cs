using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What becomes of a mixture by the chain as it stands.</summary>
public enum FindingOutcome
{
    /// <summary>Harmful or marginal in the chain as it stands.</summary>
    StillThere,

    /// <summary>Harmful without the filter, clear with it.</summary>
    Cured,

    /// <summary>Marginal without the filter, clear with it.</summary>
    OnlyMarginalBefore,

    /// <summary>Clear either way.</summary>
    ClearEitherWay,

    /// <summary>Its level is not known.</summary>
    Unknown,
}

/// <summary>
/// A mixture with its number, as it is without the filter and in the chain as it stands.
/// Numbers are given worst first without the filter, so they stay when the filter changes.
/// </summary>
public sealed record NumberedFinding
{
    /// <summary>From 1.</summary>
    public required int Number { get; init; }

    /// <summary>
    /// As it is without the filter; null where there is no filter or the mixture was under the report's floor without it.
    /// </summary>
    public required ProductFinding? Before { get; init; }

    /// <summary>As it is in the chain as it stands; null where it has sunk under the report's floor.</summary>
    public required ProductFinding? After { get; init; }

    /// <summary>Whether the receiver has a filter at all, so that before and after differ.</summary>
    public required bool HasFilter { get; init; }

    /// <summary>
    /// Level in the channel in the chain as it stands, in dBm. For a mixture under the report's floor it is computed where that is exact:
    /// made in the receiver, the only active stage, it falls by as many dB as its carriers do, each as often as it takes part. Null where
    /// not known.
    /// </summary>
    public double? InChannelNowDbm { get; init; }

    /// <summary><see cref="InChannelNowDbm"/> over the noise floor, in dB.</summary>
    public double? OverNoiseNowDb { get; init; }

    /// <summary>Either of the two: for what does not change with the filter (terms, order, offset, width).</summary>
    public ProductFinding Either => Before ?? After!;

    /// <summary>Verdict in the chain as it stands; a mixture under the report's floor is clear.</summary>
    public Verdict Now => After?.Verdict ?? Verdict.Clear;

    /// <summary>What becomes of it.</summary>
    public FindingOutcome Outcome => (Before?.Verdict, Now) switch
    {
        (_, Verdict.Unknown) => FindingOutcome.Unknown,
        (_, Verdict.Harmful or Verdict.Marginal) => FindingOutcome.StillThere,
        (Verdict.Harmful, _) => FindingOutcome.Cured,
        (Verdict.Marginal, _) => FindingOutcome.OnlyMarginalBefore,
        _ => FindingOutcome.ClearEitherWay,
    };

    /// <summary>Pairs the products of a receiver with and without its filter and numbers them.</summary>
    /// <param name="receiver">The findings.</param>
    /// <returns>
    /// Worst first without the filter: by what it does, then by chance and share of time, then by level; unknown levels last; then
    /// mechanism and terms.
    /// </returns>
    public static IReadOnlyList<NumberedFinding> Of(ReceiverFindings receiver) => Of(receiver, null, int.MaxValue);

    /// <summary>The same with numbers that stay: those given once are kept, and what is new takes the next ones.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="numbers">The numbers given so far, by mixture; new ones are put in. Null to number anew.</param>
    /// <param name="mostClear">Of those that are clear, so many at most are taken of a long list, the worst first; one that is not taken
    /// has sunk out of sight.</param>
    /// <returns>In the order of their numbers.</returns>
    public static IReadOnlyList<NumberedFinding> Of(ReceiverFindings receiver, Dictionary<ProductRow, int>? numbers, int mostClear)
    {
        ReceiverFindings? without = receiver.WithoutFilter;
        Dictionary<ProductRow, ProductFinding> after = [];
        IReadOnlyList<ProductFinding> now = Worst(receiver, mostClear);
        foreach (ProductFinding p in now)
        {
            after.TryAdd(p.Row, p);
        }

        List<(ProductFinding? Before, ProductFinding? After, ProductRow Row)> pairs = [];
        if (without is not null)
        {
            HashSet<ProductRow> seen = [];
            foreach (ProductFinding p in Worst(without, mostClear))
            {
                ProductRow key = p.Row;
                if (seen.Add(key))
                {
                    pairs.Add((p, after.GetValueOrDefault(key), key));
                }
            }

            pairs.AddRange(now.Where(p => !seen.Contains(p.Row)).Select(static p => ((ProductFinding?)null, (ProductFinding?)p, p.Row)));
        }
        else
        {
            pairs.AddRange(now.Select(static p => ((ProductFinding?)null, (ProductFinding?)p, p.Row)));
        }

        NumberedFinding[] all =
        [
            .. pairs
                .OrderBy(static p => (p.Before ?? p.After)!.Impact)
                .ThenByDescending(static p => (p.Before ?? p.After)!.WeightPercent)
                .ThenByDescending(static p => (p.Before ?? p.After)!.OverNoiseDb ?? double.NegativeInfinity)
                .ThenBy(static p => (p.Before ?? p.After)!.Mechanism)
                .Select((p, i) => new NumberedFinding
                {
                    Number = NumberOf(p.Row, i),
                    Before = p.Before,
                    After = p.After,
                    HasFilter = without is not null,
                    InChannelNowDbm = p.After is null ? Sunk(receiver, p.Before!) : p.After.InChannelLevelDbm,
                    OverNoiseNowDb = p.After is null ? Sunk(receiver, p.Before!) - receiver.NoiseFloorDbm : p.After.OverNoiseDb,
                }),
        ];
        return numbers is null ? all : [.. all.OrderBy(static f => f.Number)];

        int NumberOf(ProductRow key, int place)
        {
            if (numbers is null)
            {
                return place + 1;
            }

            if (!numbers.TryGetValue(key, out int number))
            {
                numbers[key] = number = numbers.Count + 1;
            }

            return number;
        }
    }

    private static IReadOnlyList<ProductFinding> Worst(ReceiverFindings of, int mostClear)
    {
        const int Short = 1000; // a list that is read whole, with all whose level is not known
        int most = of.Products.Count <= Short
            ? of.Products.Count
            : (int)Math.Min(of.Products.Count, (long)of.Harmful + of.Marginal + mostClear);
        return most == of.Products.Count ? of.Products : [.. Enumerable.Range(0, most).Select(i => of.Products[i])];
    }

    private static double? Sunk(ReceiverFindings receiver, ProductFinding before) =>
        before is { Mechanism: Mechanism.Receiver, Saturated: false } && receiver.WithoutFilter is { } without
            && receiver.Chain.ActiveStages is [var now] && without.Chain.ActiveStages is [var then]
            ? before.InChannelLevelDbm
                + before.Terms.Sum(
                    t =>
                        Math.Abs(t.Coefficient) * (
                            receiver.Carriers[t.Emitter].LevelAtReceiverDbm - without.Carriers[t.Emitter].LevelAtReceiverDbm))
                - ((before.Order - 1) * (now.Intercepts.Dbm(before.Order) - then.Intercepts.Dbm(before.Order)))
            : null;
}
