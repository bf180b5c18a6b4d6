using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>How far a study looked, and what stands right behind its limits, in sentences.</summary>
public static class LimitWords
{
    /// <summary>A smaller share of a mixture in the channel is a rough figure: docs/method/product-levels.md has the spread.</summary>
    private const double FarOffDb = 35;

    /// <summary>So many mixtures from the top are looked at for such a share.</summary>
    private const int Looked = 20;

    /// <summary>The sentences; none where the limits are not at hand.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="typography">The signs to use.</param>
    public static IEnumerable<string> Of(ReceiverFindings receiver, Typography typography)
    {
        if (receiver.Limits is not { } limits)
        {
            yield break;
        }

        string orders = limits.Orders.Lowest == limits.Orders.Highest
            ? FormattableString.Invariant($"order {limits.Orders.Lowest}")
            : FormattableString.Invariant($"orders {limits.Orders.Lowest} to {limits.Orders.Highest}");
        string floor = limits.FloorDbm is { } dbm ? $"down to {Figures.Db(dbm, typography)}{typography.Space}dBm in the channel"
            : "however weak";
        yield return FormattableString.Invariant(
            $"Looked for: {orders}, up to {Figures.CountInWords(limits.Signals)} {(limits.Signals == 1 ? "emitter" : "emitters")} ")
            + $"in one mixture, {floor}.";
        if (!limits.SelectivityStated)
        {
            yield return "No selectivity of the receiver is stated: every carrier counts as it arrives at its input.";
        }

        if (receiver.Products.Take(Looked).Any(static p => p.LevelDbm - p.InChannelLevelDbm > FarOffDb))
        {
            string space = typography.Space;
            yield return $"Where over {Figures.BareDb(FarOffDb)}{space}dB of a mixture miss the channel, what falls in is a rough figure: "
                + $"with speech and data it may be some 15{space}dB more or 25{space}dB less, with a steady tone further off still.";
        }

        string more = StudyWords.Capital(Figures.CountInWords(limits.More?.Signals ?? (limits.Signals + 1)));
        switch (limits.More)
        {
            case { Harmful: > 0, WorstOverNoiseDb: { } worst }:
                yield return FormattableString.Invariant($"{more} emitters in one mixture, orders up to {limits.More.HighestOrder}, ")
                    + "would add "
                    + $"{Figures.Count(limits.More.Harmful, typography)} harmful {(limits.More.Harmful == 1 ? "one" : "ones")}, "
                    + $"the worst {Figures.BareDb(worst)}{typography.Space}dB {(worst >= 0 ? "over" : "under")} the noise: "
                    + FormattableString.Invariant($"--signals {limits.More.Signals} lists them.");
                break;
            case not null:
                yield return FormattableString.Invariant($"{more} emitters in one mixture, orders up to {limits.More.HighestOrder}, ")
                    + "would add no harmful one.";
                break;
            case null when limits.Signals < Math.Min(limits.Orders.Highest, receiver.Carriers.Count):
                yield return FormattableString.Invariant($"Whether {Figures.CountInWords(limits.Signals + 1)} emitters in one mixture ")
                    + "would add harmful ones was not looked at.";
                break;
        }
    }
}
