using Spurless.Circuits.Stress;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;

namespace Spurless.Reports.Bench;

/// <summary>What the bench says of a circuit, in sentences.</summary>
public static class BenchWords
{
    /// <summary>
    /// The answer: what it costs the wanted signal, whether it does what the site needs, whether one may transmit through it.
    /// </summary>
    /// <param name="picture">The circuit with values in force.</param>
    /// <param name="stress">What transmitting does to it; null where that is not known.</param>
    public static string Answer(BenchPicture picture, StressResult? stress)
    {
        ArgumentNullException.ThrowIfNull(picture);
        string passes = picture is { Frame.ChannelHz: { } channel, ChannelLossDb: { } loss } && double.IsFinite(loss)
            ? $"Passes {Figures.MegahertzExact(channel)}\u00A0MHz with {Figures.Db(loss, Typography.Fine)}\u00A0dB loss"
            : $"Passes best at "
                + $"{MegahertzText.InWords(picture.Best.Hertz)}\u00A0MHz, "
                    + $"with {Figures.Db(picture.Best.LossDb, Typography.Fine)}\u00A0dB loss";
        string transmit = stress is { MayTransmit: false } ? " Do not transmit through it." : "";
        if (picture.Needs.Count == 0)
        {
            return $"{passes}.{(picture.Frame.Needs is null ? "" : " Nothing lands on the receiver that a filter could cure.")}{transmit}";
        }

        NeedKept[] missed = [.. picture.Needs.Where(static n => !n.Kept).OrderByDescending(static n => n.ShortDb)];
        int all = picture.Needs.Count;
        int kept = all - missed.Length;
        string meets = missed.Length == 0
            ? all == 1 ? "meets the site’s one need" : $"meets all {Figures.CountInWords(all)} of the site’s needs"
            : kept == 0 ? all == 1 ? "does not meet the site’s one need" : $"meets none of the site’s {Figures.CountInWords(all)} needs"
            : $"meets {Figures.CountInWords(kept)} of the site’s {Figures.CountInWords(all)} needs";
        string worst = missed.Length == 0 ? ""
            : $" At {Figures.MegahertzExact(missed[0].Need.FrequencyHz)}\u00A0MHz, {missed[0].Need.Name}, "
                + $"it is {Figures.BareDb(missed[0].ShortDb)}\u00A0dB short.";
        return $"{passes} and {meets}.{worst}{transmit}";
    }

    /// <summary>The sweep that is laid over against what is computed, in a sentence; null without one that reaches.</summary>
    public static string? Against(BenchPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (picture.Against() is not { } against)
        {
            return null;
        }

        string at = MegahertzText.InWords(against.AtHz);
        string loss = Math.Abs(against.LossDb) < 0.05 ? "the loss computed"
            : $"{Figures.Db(Math.Abs(against.LossDb), Typography.Fine)}\u00A0dB "
                + $"{(against.LossDb > 0 ? "more" : "less")} loss than computed";
        string centre = against.CentreHz == 0 ? "centre where computed"
            : $"centre {MegahertzText.InWords(Math.Abs(against.CentreHz))}\u00A0MHz {(against.CentreHz > 0 ? "high" : "low")}";
        return $"Measured, {picture.Frame.SweepName}: {loss} at {at}\u00A0MHz, {centre}.";
    }

    /// <summary>What is laid beside, against the circuit or the other sweep, in a sentence; null without one that reaches.</summary>
    public static string? Beside(BenchPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (picture.Frame.Beside is not { } beside)
        {
            return null;
        }

        if (picture.Differs() is not { } d)
        {
            return $"{beside.Name} does not reach over the pass-band: nothing to tell of the two.";
        }

        string than = d.Sweep is { } other ? $"than {other}" : "than the circuit here";
        string loss = Math.Abs(d.LossDb) < 0.05 ? "the same loss"
            : $"{Figures.Db(Math.Abs(d.LossDb), Typography.Fine)}\u00A0dB {(d.LossDb > 0 ? "more" : "less")} loss";
        string centre = d.CentreHz == 0 ? "centre the same"
            : $"centre {Megahertz(d.CentreHz)} {(d.CentreHz > 0 ? "higher" : "lower")}";
        string width = d.WidthHz switch
        {
            null => "",
            0 => ", as wide",
            { } w => $", {Megahertz(w)} {(w > 0 ? "wider" : "narrower")}",
        };
        return $"{d.Name}: {loss} at {MegahertzText.InWords(d.AtHz)}\u00A0MHz, {centre}{width} {than}.";
    }

    private static string Megahertz(double hertz) => $"{MegahertzText.InWords(Math.Abs(hertz))}\u00A0MHz";

    /// <summary>What the hanging bars are.</summary>
    /// <param name="frame">The frame.</param>
    public static string NeedsSay(BenchFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        if (frame.Needs is not { } needs)
        {
            return "";
        }

        string elsewhere = needs.MadeElsewhere switch
        {
            0 => "",
            1 => " One more is made in a transmitter: no filter here takes it away.",
            { } n => $" {StudyWords.Capital(Figures.CountInWords(n))} more are made in transmitters: no filter here takes them away.",
        };
        return needs.Needs.Count == 0
            ? "The site needs nothing of a filter here." + elsewhere
            : $"Hanging bars: what the study of the site needs at each culprit, letters as there, "
                + $"its equal share of what its worst mixture must lose to lie "
                    + $"{Figures.BareDb(needs.UnderNoiseDb)}\u00A0dB under the noise; the curve passes below."
                + elsewhere;
    }
}
