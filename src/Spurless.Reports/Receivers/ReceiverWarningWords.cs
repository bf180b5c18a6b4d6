using Spurless.Drawing.Words;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>What does not fit in a receiver's measurements, in sentences without a full stop.</summary>
public static class ReceiverWarningWords
{
    /// <summary>A warning.</summary>
    public static string Of(ReceiverWarning warning, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(warning);
        string entry = warning.Entry is { } read ? ReceiverWords.Entry(read, signs) : "";
        string value = Figures.Db(warning.Value, signs), against = Figures.Db(warning.Against, signs);
        return warning.Kind switch
        {
            ReceiverWarningKind.NoiseDisagrees => Disagree("readings of the noise", warning, signs),
            ReceiverWarningKind.InterceptDisagrees =>
                Disagree(FormattableString.Invariant($"readings of the intercept of order {warning.Order}"), warning, signs),
            ReceiverWarningKind.NoiseFigureBelowZero =>
                $"the noise figure comes out as {value} dB, less than no noise at all: is it pd or emf, and the bandwidth right?",
            ReceiverWarningKind.TonesCompress =>
                $"{entry}: tones of {value} dBm against an intercept of {against} dBm drive the receiver into compression, where the law "
                    + "of small signals does not hold; take weaker tones and read the mixture against the noise",
            ReceiverWarningKind.ProductUnderNoise =>
                $"{entry}: a mixture of {value} dBm lies far under the noise of {against} dBm; nobody can have read it",
            ReceiverWarningKind.BesideThePassband =>
                $"{entry}: the mixture lands {Figures.OffsetKilohertz(warning.FrequencyHz, signs)} kHz from the channel's centre, outside "
                    + "of the noise bandwidth, so that not all of it is read; move a tone",
            ReceiverWarningKind.UnderSensitivity =>
                $"{entry}: that is no more than the sensitivity on the channel itself; see whether the level is that at the input",
            ReceiverWarningKind.FrontEndEnds =>
                $"{entry}: the front end's sweep does not reach {ReceiverWords.Mhz(warning.FrequencyHz)} MHz, so its loss there is not "
                    + "known",
            ReceiverWarningKind.FrontEndAmplifies =>
                $"{entry}: against the intercept for close tones the front end would have to amplify these by {value} dB together; one of "
                    + "the readings is wrong, or the combiner or the generators made a mixture of their own",
            ReceiverWarningKind.NoNoise =>
                $"{entry}: left out, because it was read against the noise, and no sensitivity was read",
            ReceiverWarningKind.LevelUnknown => $"{entry}: left out, because the site does not know the level of {warning.Name}",
            ReceiverWarningKind.NotPredicted =>
                $"{entry}: left out, because the study of the site does not come to it"
                    + (warning.Name.Length > 0 ? $" ({warning.Name})" : ""),
            ReceiverWarningKind.AmplifierInFront =>
                $"{entry}: {warning.Name} stands in front of the receiver and may make the same mixture; the receiver's own intercept is "
                    + "then higher",
            ReceiverWarningKind.SmallShare =>
                $"{entry}: only {Figures.BareDb(warning.Value)} dB under its whole the mixture falls into the channel, where its share is "
                    + "known to some dB at best",
            _ => throw new ArgumentOutOfRangeException(nameof(warning), warning.Kind, "no such warning"),
        };
    }

    /// <summary>What is unknown, and which reading would give it.</summary>
    public static string Of(ReceiverGap gap, ReceiverMeasurements document)
    {
        ArgumentNullException.ThrowIfNull(document);
        long channel = document.Frequency.Hertz;
        const long Step = 50_000;
        string Pair(long first, long second) => $"tones: [{ReceiverWords.Mhz(first)} MHz, {ReceiverWords.Mhz(second)} MHz]";
        string close = Pair(channel + Step, channel + (2 * Step));
        return gap switch
        {
            ReceiverGap.Noise => "the noise: read the sensitivity for 12 dB SINAD",
            ReceiverGap.ThirdOrder => $"the third-order intercept: two_tone, order 3, {close}",
            ReceiverGap.CloseTones =>
                $"the third-order intercept for tones close to the channel: two_tone, order 3, {close}, or the front end's sweep",
            ReceiverGap.SecondOrder =>
                $"the second-order intercept: two_tone, order 2, {Pair(channel + 60_000_000, 60_000_000)}, or any two whose difference or "
                    + "sum is the channel",
            ReceiverGap.FifthOrder =>
                $"the fifth-order intercept: two_tone, order 5, {Pair(channel + (2 * Step), channel + (3 * Step))}",
            ReceiverGap.FrontEnd =>
                "what the front end takes from signals off the channel: front_end, its sweep, or two_tone with tones far off beside a "
                    + "close pair",
            ReceiverGap.Responses =>
                "where else it hears: response at the image (the channel less or plus twice the first intermediate frequency) and at half "
                    + "of that frequency off",
            ReceiverGap.Blocking => $"blocking: a strong signal at {ReceiverWords.Mhz(channel + 1_000_000)} MHz, 1 MHz off",
            _ => throw new ArgumentOutOfRangeException(nameof(gap), gap, "no such gap"),
        };
    }

    private static string Disagree(string what, ReceiverWarning warning, Typography signs) =>
        $"two {what} lie {Figures.BareDb(warning.Value)} dB apart, more than three times the {Figures.BareDb(warning.Against)} dB that "
            + $"their errors explain: {ReceiverWords.Entry(warning.Entry!, signs)} against {ReceiverWords.Entry(warning.Other!, signs)}; "
            + "the mean is given with as wide a spread";
}
