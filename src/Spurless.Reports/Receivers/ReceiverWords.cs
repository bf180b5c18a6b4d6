using Spurless.Drawing.Words;
using Spurless.Mixing.Measurements;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>What a receiver's own measurements say, in sentences.</summary>
public static class ReceiverWords
{
    /// <summary>The answer in up to three sentences.</summary>
    public static string Conclusion(ReceiverAnswer answer, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (answer.Document.Measured.Count == 0)
        {
            return "Nothing was measured yet: what to read first stands below.";
        }

        List<string> says = [Noise(answer, signs), Third(answer, signs)];
        if (answer.Warnings.Count > 0)
        {
            says.Add(answer.Warnings.Count == 1
                ? "One thing does not fit: see below."
                : $"{StudyWords.Capital(Figures.CountInWords(answer.Warnings.Count))} things do not fit: see below.");
        }

        return string.Join(' ', says);
    }

    /// <summary>A reading as it stands in the file, with its line.</summary>
    public static string Entry(MeasuredEntry entry, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(entry);
        string what = entry switch
        {
            SensitivityReading { Level: { } level } => $"sensitivity {Dbm(level.Dbm, signs)}",
            SensitivityReading { NoiseFigure: { } figure } => $"noise figure {Figures.Db(figure.Decibels, signs)} dB",
            TwoToneReading tones => Tones(tones, signs),
            ResponseReading response => $"{Mhz(response.At.Hertz)} MHz at {Dbm(response.Level.Dbm, signs)} for 12 dB SINAD",
            BlockingReading blocking =>
                $"{Mhz(blocking.At.Hertz)} MHz at {Dbm(blocking.Level.Dbm, signs)} takes 3 dB of sensitivity",
            FrontEndReading front => $"front end {front.Sweep.Path}",
            SiteProductReading product => $"{Terms(product, signs)} read {Figures.Db(product.OverNoise.Value, signs)} dB over noise at "
                + $"{product.Receiver} of {product.Site.Path}",
            _ => "a reading",
        };
        return FormattableString.Invariant($"{what} (line {entry.Source.Start.Line})");
    }

    /// <summary>Where an intercept comes from: a text a reading.</summary>
    public static IEnumerable<string> From(InterceptFinding finding, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(finding);
        foreach (InterceptReading reading in finding.From)
        {
            string loss = finding.CloseTones && reading.Losses.Any(static l => l is { } known && Math.Abs(known.Value) >= 0.05)
                ? $", less {string.Join(" and ", reading.Losses.Select(l => Figures.Db(l!.Value, signs)))} dB in the front end"
                : "";
            string share = reading.ShareDb < -0.05
                ? $", {Figures.BareDb(reading.ShareDb)} dB of it outside of the channel"
                : "";
            string gives = finding.From.Count > 1 ? $": {Figure(reading.Intercept, "dBm", signs)}" : "";
            yield return Entry(reading.Entry, signs) + loss + share + gives;
        }
    }

    /// <summary>For which tones an intercept holds.</summary>
    public static string Reach(InterceptFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        string air = finding.OnTheAir ? ", calibrated on the air" : "";
        return (finding.CloseTones
            ? "for tones close to the channel"
            : $"for tones at {Listed(finding.From[0])} MHz, front end included") + air;
    }

    /// <summary>The tones' frequencies in a sentence: <c>160.525 and 176</c>.</summary>
    private static string Listed(InterceptReading reading)
    {
        string[] all = [.. reading.TonesHz.Select(Mhz)];
        return all.Length == 1 ? all[0] : $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }

    /// <summary>Tones with their coefficients: <c>2 x 160.525 - 176 MHz</c>.</summary>
    public static string Mixture(InterceptReading reading, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return Sum([.. reading.Coefficients.Zip(reading.TonesHz.Select(Mhz))], signs) + " MHz";
    }

    /// <summary>What was assumed, a sentence each without a full stop.</summary>
    public static IEnumerable<string> Assumed(ReceiverAnswer answer, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ReceiverMeasurements document = answer.Document;
        if (document.IfBandwidth is null)
        {
            yield return $"a noise bandwidth of {Figures.Kilohertz(document.IfBandwidthHz, signs)} kHz, by the channel's raster";
        }

        if (answer.Noise is not null)
        {
            yield return $"12 dB SINAD at {Figures.Db(document.CarrierToNoiseDb, signs)} dB of carrier to noise (5 to 10 dB is common "
                + "practice): each dB that it is off moves noise from a sensitivity by 1 dB, and an intercept of order n read against "
                + $"that noise by 1/(n {signs.Minus} 1) dB; that is not in what stands after {signs.PlusMinus}";
        }

        if (answer.Intercepts.Any(static i => i.CloseTones && i.From.Any(static r => r.Losses.All(static l => l!.Errors.Count == 0))))
        {
            yield return $"tones within {Figures.Percent(answer.Question.CloseShare)} of the channel's frequency pass the front end as the "
                + "channel does";
        }

        if (answer.Intercepts.Any(static i => i.OnTheAir))
        {
            yield return "the mixtures read at a site are those that were named, and are made in this receiver: 'locate' weighs both";
        }
    }

    /// <summary>A figure with its sigma: <c>-2.8 dBm +-1.1 dB</c>.</summary>
    public static string Figure(MeasuredFigure figure, string unit, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return $"{Figures.Db(figure.Value, signs)} {unit} {signs.PlusMinus}{Figures.BareDb(figure.SigmaDb)} dB";
    }

    internal static string Mhz(long hertz) => MegahertzText.Of(hertz, 0, 6);

    internal static string Dbm(double dbm, Typography signs) => Figures.Db(dbm, signs) + " dBm";

    private static string Noise(ReceiverAnswer answer, Typography signs) => answer is { Noise: { } noise, NoiseFigure: { } figure }
        ? $"The noise floor is {Dbm(noise.Value, signs)}, a noise figure of {Figure(figure, "dB", signs)}."
        : "The noise is not known for want of a sensitivity.";

    private static string Third(ReceiverAnswer answer, Typography signs)
    {
        InterceptFinding[] third = [.. answer.Intercepts.Where(static i => i.Order == 3).OrderBy(static i => i.Figure.Value)];
        return third switch
        {
            [] => "The third-order intercept is not known.",
            [{ CloseTones: true } close, ..] => $"The third-order intercept is {Figure(close.Figure, "dBm", signs)}"
                + (close.OnTheAir ? ", calibrated on the air." : "."),
            [var lowest, ..] => $"The third-order intercept is {Figure(lowest.Figure, "dBm", signs)} {Reach(lowest)}: "
                + "closer tones may find a lower one.",
        };
    }

    private static string Tones(TwoToneReading tones, Typography signs)
    {
        string levels = tones.SecondLevel is { } second
            ? $"{Figures.Db(tones.FirstLevel.Dbm, signs)} and {Dbm(second.Dbm, signs)}"
            : Dbm(tones.FirstLevel.Dbm, signs);
        string read = tones.Product is { } product ? $"mixture as {Dbm(product.Dbm, signs)} on the channel" : "mixture as the noise";
        return $"{Mhz(tones.First.Hertz)} and {Mhz(tones.Second.Hertz)} MHz at {levels}, {read}";
    }

    private static string Terms(SiteProductReading product, Typography signs) =>
        Sum([.. product.Terms.Select(static t => (t.Value, t.Name))], signs);

    // The terms with a plus come first.
    private static string Sum(IReadOnlyList<(int Coefficient, string What)> terms, Typography signs)
    {
        System.Text.StringBuilder text = new();
        int flip = terms.Any(static t => t.Coefficient > 0) ? 1 : -1;
        foreach ((int coefficient, string what) in terms.OrderByDescending(t => t.Coefficient * flip > 0))
        {
            string times = Math.Abs(coefficient) == 1
                ? ""
                : Math.Abs(coefficient).ToString(System.Globalization.CultureInfo.InvariantCulture) + $" {signs.Times} ";
            text.Append(text.Length == 0 ? "" : coefficient * flip > 0 ? " + " : $" {signs.Minus} ").Append(times).Append(what);
        }

        return text.ToString();
    }
}
