using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Sites.Cures;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Cures;

/// <summary>Ways out in plain words: steps, who acts, and the conclusion.</summary>
public static class CureWords
{
    /// <summary>A way: its steps joined, without a capital.</summary>
    public static string Steps(Cure cure)
    {
        ArgumentNullException.ThrowIfNull(cure);
        return string.Join(", and ", cure.Steps.Select(Step));
    }

    /// <summary>A step, without a capital: <c>a double isolator at the transmitter of telemetry scanner</c>.</summary>
    public static string Step(CureStep step) => step switch
    {
        PadStep pad => string.Create(CultureInfo.InvariantCulture, $"a pad of {pad.Db} dB {Where(pad.Place)}"),
        UsualFilterStep { Filter: UsualBandPass band } usual => string.Create(
            CultureInfo.InvariantCulture,
            $"a band-pass of {Figures.CountInWords(band.Resonators)} {Kind(band.UnloadedQ, band.Resonators)} "
                + $"(unloaded Q {band.UnloadedQ:#,0}{Ripple(band)}) made for {band.LossDb:0.#} dB of loss, {Where(usual.Place)}"),
        UsualFilterStep { Filter: UsualTrap trap } usual =>
            (trap.NotchesHz.Count == 1 ? "a trap against " : "a double trap against ")
                + string.Join(" and ", trap.Against.Distinct()) + ", " + Where(usual.Place),
        FileFilterStep file => $"your filter {file.Path} {Where(file.Place)}",
        AmplifierStep { BehindFilter: true } => "the preamplifier moved behind the filter",
        AmplifierStep => "the preamplifier taken out",
        InterceptStep intercept => string.Create(
            CultureInfo.InvariantCulture, $"a receiver whose intercepts are {intercept.ByDb:0} dB higher"),
        IsolatorStep isolator => string.Create(
            CultureInfo.InvariantCulture,
            $"a {(isolator.Kind == Isolators.Double ? "double " : "")}isolator at {The(isolator)} ({isolator.Db:0} dB "
                + $"at {string.Join(", ", isolator.AgainstHz.Select(Figures.MegahertzExact))} MHz)"),
        OutputCavityStep cavity => $"a band-pass cavity behind {The(cavity)}",
        AntennaStep antenna => string.Create(
            CultureInfo.InvariantCulture,
            $"the antenna of {antenna.Transmitter} {antenna.Metres:0} m straight above or below that of "
                + $"{string.Join(" and ", antenna.Couplings.Select(static c => c.From))}"),
        PowerStep power => string.Create(CultureInfo.InvariantCulture, $"the power of {power.Transmitter} {power.ByDb:0} dB lower"),
        ChannelStep channel => $"another channel, {Figures.MegahertzExact(channel.FrequencyHz)} MHz",
        ToneSquelchStep => "a tone squelch",
        _ => throw new InvalidOperationException($"No words for {step?.GetType().Name}."),
    };

    /// <summary>Who must act for a way.</summary>
    public static string Who(Cure cure)
    {
        ArgumentNullException.ThrowIfNull(cure);
        return string.Join(" and ", cure.Steps.OrderBy(static s => s.Actor).Select(static s => s.Actor switch
        {
            CureActor.You => "you",
            CureActor.OwnerOfTransmitter => "the owner of " + ((TransmitterStep)s).Transmitter,
            CureActor.SiteOwner => "the site's owner",
            _ => "who coordinates channels",
        }).Distinct());
    }

    /// <summary>Who must act, how much work it is, and what becomes of the range.</summary>
    public static string WhoAndWhat(Cure cure)
    {
        string range = Math.Abs(cure.WantedLossDb) < 0.05 ? ""
            : string.Create(CultureInfo.InvariantCulture, $"; range {100 * cure.RangeShare:0} %");
        return $"{StudyWords.Capital(Who(cure))}; {Effort(cure.Effort)}{range}";
    }

    /// <summary>How much work a way is.</summary>
    public static string Effort(CureEffort effort) => effort switch
    {
        CureEffort.Minutes => "minutes",
        CureEffort.Evening => "an evening",
        CureEffort.Purchase => "a purchase",
        _ => "somebody else's work",
    };

    /// <summary>What a way leaves: <c>2 harmful, 1 marginal</c>.</summary>
    public static string Leaves(Cure cure)
    {
        ArgumentNullException.ThrowIfNull(cure);
        string unknown = cure.Unknown > 0 ? string.Create(CultureInfo.InvariantCulture, $", {cure.Unknown} not known") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{cure.Harmful} harmful, {cure.Marginal} marginal{unknown}");
    }

    /// <summary>Why a mixture stays harmful after a way.</summary>
    public static string WhyLeft(ProductFinding product, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(product);
        string over = product.OverNoiseDb is { } db ? $"still {Figures.SignedDb(db, signs)} dB over noise" : "its level is not known";
        return product.Mechanism == Mechanism.Transmitter
            ? $"{StudyWords.Mixture(product, signs)}, {over}: made in the transmitter of {product.MadeIn}, it arrives on the channel"
            : $"{StudyWords.Mixture(product, signs)}, {over}: made in {product.MadeIn}";
    }

    /// <summary>The conclusion: what ends it, whether the receiver's keeper can do it alone, what it costs.</summary>
    public static string Conclusion(CuredReceiver cured, Typography signs) => Conclusion(cured, signs, Steps);

    /// <summary>The same beside the list of ways out, in which the best stands first.</summary>
    public static string BesideList(CuredReceiver cured, Typography signs) => Conclusion(cured, signs, static _ => "the first of the list");

    private static string Conclusion(CuredReceiver cured, Typography signs, Func<Cure, string> named)
    {
        ArgumentNullException.ThrowIfNull(cured);
        ReceiverFindings before = cured.Before;
        if (before.Harmful == 0)
        {
            string margin = before.Products.Max(static p => p.OverNoiseDb) is { } worst
                ? $"the strongest mixture stands {Level(worst, signs)}"
                : "no mixture is listed";
            string unknown = before.Products.Any(static p => p.Verdict == Verdict.Unknown)
                ? " Mixtures with an emitter of unknown level are not judged: give its level." : "";
            string others = Others(before.OtherCauses.Count(static c => c.Verdict == Verdict.Harmful));
            return $"Nothing to cure: no mixture of known level is harmful, and {margin}{others}.{unknown}";
        }

        string elsewhere = Elsewhere(cured);
        return cured.Cures.Count > 0 && cured.Cures[0] is { EndsIt: true } best
            ? elsewhere + Best(best, signs, named(best))
            : elsewhere + (cured.Cures.Count > 0 && cured.Cures[0].Harmful < before.Harmful
                ? $"Nothing that was tried ends it. Nearest comes {named(cured.Cures[0])}: {Leaves(cured.Cures[0])} stay of "
                    + $"{before.Harmful.ToString(CultureInfo.InvariantCulture)} harmful ones."
                : "Nothing that was tried makes it any better.");
    }

    /// <summary>The conclusion above a list of the best: what ends it stands in the list, first.</summary>
    public static string AboveList(CuredReceiver cured, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(cured);
        if (cured.Cures.Count == 0 || !cured.Cures[0].EndsIt)
        {
            return Conclusion(cured, signs);
        }

        int ends = cured.Cures.Count(static c => c.EndsIt);
        string of = $"{Figures.Count(cured.Tried, signs)} {(cured.Tried == 1 ? "way that was" : "ways that were")} studied";
        return Elsewhere(cured) + $"{StudyWords.Capital(Figures.CountInWords(ends))} of {of} "
            + (ends == 1
                ? "leaves no harmful mixture and is not beaten by another:"
                : "leave no harmful mixture and are not beaten by another; the best of all:");
    }

    /// <summary>That a report holds no ways out, and how it gets them.</summary>
    public const string NotTried = "Ways out were not tried for this report: each is a study of its own. 'study SITE --ways' puts them in, "
        + "as does 'with the ways out' on the page of the report.";

    /// <summary>The way that was chosen, beside a list that has it: who acts, what it leaves and costs.</summary>
    public static string Chosen(Cure cure, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(cure);
        string worst = cure.WorstOverNoiseDb is { } over ? $", the strongest {Level(over, signs)}" : "";
        string costs = cure.WantedLossDb > 0.05 ? $" A wanted signal must be {Figures.Db(cure.WantedLossDb, signs)} dB stronger." : "";
        return $"To act: {Who(cure)}. It leaves {Leaves(cure)}{worst}.{costs}"
            + (cure.NotForTransmitting ? " Do not transmit through it." : "");
    }

    /// <summary>The best of a list that is not whole yet, and nothing of what it does not hold.</summary>
    public static string SoFar(CuredReceiver cured, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(cured);
        if (cured.Cures.Count == 0)
        {
            return "Nothing of what was tried until now makes it better.";
        }

        Cure best = cured.Cures[0];
        string worst = best.WorstOverNoiseDb is { } over ? $", the strongest {Level(over, signs)}" : "";
        return $"The best of what was tried until now: {Steps(best)}. It leaves {Leaves(best)}{worst}.";
    }

    /// <summary>A level over or under the noise.</summary>
    internal static string Level(double overNoiseDb, Typography signs) => overNoiseDb >= 0
        ? $"{Figures.Db(overNoiseDb, signs)} dB over the noise"
        : $"{Figures.Db(-overNoiseDb, signs)} dB under the noise";

    /// <summary>A probability in whole percent that claims neither never nor always.</summary>
    internal static string Percent(double chance) => chance < 0.01 ? "under 1 %" : chance > 0.99 ? "over 99 %"
        : (100 * chance).ToString("0", CultureInfo.InvariantCulture) + " %";

    private static string Elsewhere(CuredReceiver cured) => cured.MadeElsewhere.Count > 0 && !cured.ReceiverAlone
        ? $"No filter at the receiver alone ends it: {Counted(cured.MadeElsewhere.Count)} made in "
            + $"{Makers(cured.MadeElsewhere)} and arrives on the channel. "
        : "";

    private static string Best(Cure best, Typography signs, string named)
    {
        // What stays in spite of it is not ended.
        string it = best.OtherHarmful == 0 ? "it" : "the mixtures";
        string together = best.Steps.Count == 1 ? "This ends " + it : best.Steps.Count == 2 ? "Two things together end " + it
            : "Three things together end " + it;
        string worst = best.WorstOverNoiseDb is { } over ? $", the strongest stands {Level(over, signs)}" : "";
        string costs = best.WantedLossDb > 0.05
            ? $", and a wanted signal must be {Figures.Db(best.WantedLossDb, signs)} dB stronger"
            : best.WantedLossDb < -0.05 ? $", and a wanted signal may be {Figures.Db(-best.WantedLossDb, signs)} dB weaker" : "";
        string unknown = best.Unknown > 0 ? "; those of unknown level are not judged" : "";
        return $"{together}: {named}. No mixture of known level is then harmful{worst}{costs}{unknown}{Others(best.OtherHarmful)}.";
    }

    private static string Others(int harmful) => harmful switch
    {
        0 => "",
        1 => "; but one harmful cause that is no mixture stays, see the study",
        _ => $"; but {Figures.CountInWords(harmful)} harmful causes that are no mixtures stay, see the study",
    };

    private static string Counted(int count) => count == 1 ? "one harmful mixture is" : $"each of {Figures.CountInWords(count)} harmful "
        + "mixtures is";

    private static string Makers(IReadOnlyList<ProductFinding> products)
    {
        string[] names = [.. products.Select(static p => p.MadeIn).Distinct(StringComparer.Ordinal)];
        return names.Length == 1 ? $"the transmitter of {names[0]}" : $"a transmitter ({string.Join(", ", names)})";
    }

    private static string The(TransmitterStep step) => step.IsOwn ? $"your own transmitter {step.Transmitter}"
        : $"the transmitter of {step.Transmitter}";

    private static string Ripple(UsualBandPass band) => band.RippleDb > 0
        ? string.Create(CultureInfo.InvariantCulture, $", {band.RippleDb:0.##} dB of ripple")
        : "";

    private static string Where(ChainPlace place) => place == ChainPlace.AtReceiver ? "at the receiver's input" : "before the preamplifier";

    private static string Kind(double unloadedQ, int count) => (unloadedQ, count) switch
    {
        ( > 1000, 1) => "cavity",
        ( > 1000, _) => "cavities",
        ( > 500, 1) => "helical resonator",
        ( > 500, _) => "helical resonators",
        ( > 200, 1) => "tank with a wire coil",
        ( > 200, _) => "tanks with wire coils",
        (_, 1) => "tank of chip parts",
        _ => "tanks of chip parts",
    };
}
