using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Sentences that only the report and the page of a study need.</summary>
public static class StudyReportWords
{
    private static Typography Signs => Typography.Fine;

    /// <summary>Report floor of a receiver in dBm; null where there is none.</summary>
    public static double? Floor(ReceiverFindings receiver, StudyOptions options) => options.FloorDbm switch
    {
        null => receiver.NoiseFloorDbm - 20,
        double.NegativeInfinity => null,
        { } floor => floor,
    };

    /// <summary>What would follow from the findings, a sentence each. People are asked, nobody is blamed.</summary>
    public static IReadOnlyList<string> Follows(ReceiverFindings receiver, IReadOnlyList<NumberedFinding> findings)
    {
        List<string> says = [];
        int cured = findings.Count(static f => f.Outcome == FindingOutcome.Cured);
        if (cured > 0 && receiver.WantedLossDb is { } loss)
        {
            says.Add(
                $"Keep the filter in: it silences {Figures.CountInWords(cured)} harmful "
                    + $"{(cured == 1 ? "mixture" : "mixtures")} and costs the wanted signal {Figures.BareDb(loss)} dB.");
        }

        List<NumberedFinding> still = [.. findings.Where(static f => f.Now == Verdict.Harmful)];
        foreach (
            IGrouping<string, NumberedFinding> maker in still
                .Where(static f => f.After!.Mechanism == Mechanism.Transmitter)
                .GroupBy(static f => f.After!.MadeIn)
                .Take(3))
        {
            NumberedFinding worst = maker.MaxBy(static f => f.After!.OverNoiseDb)!;
            says.Add($"Finding {worst.Number} is made in the transmitter of {maker.Key}. " + (AdviceWords.AskOwner(worst.After!)
                ?? $"Ask whoever keeps it for an isolator: "
                    + $"{Figures.AtLeastDb(worst.After!.OverNoiseDb!.Value)} dB less bring it down to the noise."));
        }

        NumberedFinding? made = still.FirstOrDefault(static f => f.After!.Mechanism == Mechanism.Receiver);
        if (made is not null)
        {
            string worst = Figures.AtLeastDb(made.After!.OverNoiseDb!.Value / made.After.Order);
            says.Add(
                $"Finding {made.Number} is made {StudyWords.MadeWhere(made.After, receiver.Name)}: "
                    + $"weakening its {Figures.CountInWords(made.After.Terms.Count)} "
                        + $"{(made.After.Terms.Count == 1 ? "carrier" : "carriers")} by {worst} dB each in front "
                            + $"of it, with a filter, brings it down to the noise.");
        }

        if (still.Count > 0)
        {
            says.Add(Test(still));
        }

        if (AdviceWords.MeasureNext(receiver, Signs) is { } next)
        {
            says.Add(next);
        }
        else if (findings.Any(static f => f.Now == Verdict.Unknown))
        {
            says.Add("Measure the emitters whose level is not known; their mixtures cannot be weighed before.");
        }

        return says;
    }

    /// <summary>How a finding's likelihood reads.</summary>
    public static string Chance(ProductFinding p) => p is { Chance: { } chance, SigmaDb: { } sigma }
        ? $"That it is harmful is {HeardWords.Chance(chance)}: "
            + $"the level is good to {Signs.PlusMinus}{Figures.BareDb(sigma)} dB (one sigma)."
        : "";

    /// <summary>What a mixture does to the receiver, in words.</summary>
    public static string Does(ProductFinding p) => p.Effects is not { } e ? "" : string.Join(", ", ((string?[])
        [
            e.OpensSquelch ? "opens the squelch" : null,
            e.NoiseRiseDb >= 0.05 ? $"raises the noise by {Figures.BareDb(e.NoiseRiseDb)} dB" : null,
            e.SpoilsWanted == true ? "spoils the weakest wanted signal" : null,
            p.KeepsItselfUp ? "keeps the repeater up once it is up" : null,
        ]).OfType<string>());

    private static string Test(List<NumberedFinding> still)
    {
        NumberedFinding? receiver = still.FirstOrDefault(static f => f.After!.Mechanism == Mechanism.Receiver);
        NumberedFinding? arrives = still.FirstOrDefault(static f => f.After!.Mechanism == Mechanism.Transmitter);
        string own = receiver is null
            ? "a mixture made in this receiver falls by its order times that"
            : $"finding {receiver.Number}, made in this receiver, falls by {3 * receiver.After!.Order} dB";
        string other = arrives is null
            ? "a mixture that arrives already mixed falls by 3 dB only"
            : $"finding {arrives.Number}, which arrives already mixed, falls by 3 dB only";
        return $"Prove it first: with 3 dB of attenuation in front of the receiver {own}; {other}, "
            + $"as long as each stands well over the noise.";
    }
}
