using System.Globalization;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Measurements;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Receivers;

/// <summary>
/// What can be checked only when the whole document is read: where mixtures land, sizes, files. Works on a document that has errors.
/// </summary>
internal static class MeasurementChecks
{
    private const double MostSigmaDb = 20;
    private const double LeastLevelDbm = -180;
    private const double MostLevelDbm = 30;

    // A noise figure this far under 0 dB no error of a reading explains.
    private const double LeastNoiseFigureDb = -3;
    private const double MostOverNoiseDb = 80;

    public static void Run(ReceiverMeasurements document, ISiteFiles files, DiagnosticBag diagnostics)
    {
        foreach (MeasuredEntry entry in document.Measured)
        {
            if (entry.PlusMinus is { Value: > MostSigmaDb } sigma)
            {
                entry.Source.Error(
                    diagnostics, "plus_minus", $"'{sigma}' is over {MostSigmaDb:0} dB", "write one sigma of the reading, such as 1 dB");
            }

            OfEntry(entry, document, diagnostics);
        }

        foreach (FrontEndReading twice in document.Measured.OfType<FrontEndReading>().Skip(1))
        {
            twice.Source.ErrorAtKey(diagnostics, "front_end", "there is a front end already", "keep one of the two");
        }

        foreach (FileReference file in Files(document).Where(f => !files.Exists(f.Path)))
        {
            diagnostics.Error(
                file.NamedIn, file.At.Line, file.At.Column, $"there is no file '{Quote.Short(file.Path)}'",
                "write a path relative to this file, with '/' between folders");
        }
    }

    /// <summary>The files that the document names, in its order.</summary>
    public static IEnumerable<FileReference> Files(ReceiverMeasurements document) => document.Measured
        .Select(static e => e is FrontEndReading front ? front.Sweep : (e as SiteProductReading)?.Site).OfType<FileReference>();

    private static void OfEntry(MeasuredEntry entry, ReceiverMeasurements document, DiagnosticBag diagnostics)
    {
        switch (entry)
        {
            case SensitivityReading { Level: { } level } reading:
                Size(reading, "level", level, diagnostics);
                NoiseFigure(reading, level, document, diagnostics);
                break;
            case TwoToneReading tones:
                Size(tones, tones.SecondLevel is null ? "level" : "levels[0]", tones.FirstLevel, diagnostics);
                Size(tones, "levels[1]", tones.SecondLevel, diagnostics);
                Size(tones, "product", tones.Product, diagnostics);
                Lands(tones, document, diagnostics);
                break;
            case ResponseReading response:
                Size(response, "level", response.Level, diagnostics);
                OffChannel(response, response.At, "a response is heard off the channel", document, diagnostics);
                break;
            case BlockingReading blocking:
                Size(blocking, "level", blocking.Level, diagnostics);
                OffChannel(blocking, blocking.At, "what blocks stands off the channel", document, diagnostics);
                break;
            case SiteProductReading product:
                OfProduct(product, diagnostics);
                break;
        }
    }

    private static void Size(MeasuredEntry entry, string field, Level? level, DiagnosticBag diagnostics)
    {
        if (level is { } given && given.Dbm is < LeastLevelDbm or > MostLevelDbm)
        {
            entry.Source.Error(
                diagnostics, field, $"'{given}' is no level that is put into a receiver",
                "write the level at the receiver's input, -180 dBm to 30 dBm");
        }
    }

    private static void NoiseFigure(
        SensitivityReading reading, Level level, ReceiverMeasurements document, DiagnosticBag diagnostics)
    {
        if (document.Channel.Hertz <= 0 || level.Dbm < LeastLevelDbm)
        {
            return;
        }

        double figure = ReceiverNoise.FromSensitivity(level.Dbm, document.CarrierToNoiseDb, document.IfBandwidthHz).NoiseFigureDb;
        if (figure < LeastNoiseFigureDb)
        {
            reading.Source.Error(
                diagnostics, "level",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"a sensitivity of {level} would be a noise figure of {figure:0.0} dB, less than no noise at all"),
                "see whether it is pd or emf, and whether channel and if_bandwidth are right");
        }
    }

    private static void Lands(TwoToneReading tones, ReceiverMeasurements document, DiagnosticBag diagnostics)
    {
        (long first, long second, long channel) = (tones.First.Hertz, tones.Second.Hertz, document.Frequency.Hertz);
        if (first <= 0 || second <= 0 || channel <= 0 || document.Channel.Hertz <= 0 || tones.Order < 2)
        {
            return;
        }

        if (first == second)
        {
            tones.Source.Error(diagnostics, "tones", "both tones are the same", "write two frequencies whose mixture lands on the channel");
            return;
        }

        foreach ((Frequency tone, int index) in ((Frequency, int)[])[(tones.First, 0), (tones.Second, 1)])
        {
            if (2 * Math.Abs(tone.Hertz - channel) <= document.Channel.Hertz)
            {
                tones.Source.Error(
                    diagnostics, FormattableString.Invariant($"tones[{index}]"), $"the tone {tone} stands on the channel itself",
                    "write tones off the channel, whose mixture lands on it");
                return;
            }
        }

        TwoToneMixture nearest = TwoToneMixture.Nearest(tones.Order, first, second, channel);
        if (2 * Math.Abs(nearest.FrequencyHz - channel) > document.Channel.Hertz)
        {
            tones.Source.Error(
                diagnostics, "tones",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"no mixture of order {tones.Order} of {tones.First} and {tones.Second} lands on {document.Frequency}: the nearest "
                        + $"lands on {Frequency.FromHertz(nearest.FrequencyHz)}"),
                Instead(tones, document));
        }
    }

    // 2A - B = f: the second tone that goes with the first.
    private static string Instead(TwoToneReading tones, ReceiverMeasurements document)
    {
        long second = (2 * tones.First.Hertz) - document.Frequency.Hertz;
        return tones.Order == 3 && second > 0
            ? $"write tones of which twice the one less the other is the channel, as in [{tones.First}, {Frequency.FromHertz(second)}]"
            : "correct the order, the tones or the channel's frequency";
    }

    private static void OffChannel(
        MeasuredEntry entry, Frequency at, string what, ReceiverMeasurements document, DiagnosticBag diagnostics)
    {
        if (at.Hertz > 0 && document.Frequency.Hertz > 0 && 2 * Math.Abs(at.Hertz - document.Frequency.Hertz) <= document.Channel.Hertz)
        {
            entry.Source.Error(
                diagnostics, "at", $"{at} is the channel itself: {what}", "write the frequency at which the generator stood");
        }
    }

    private static void OfProduct(SiteProductReading product, DiagnosticBag diagnostics)
    {
        int order = product.Terms.Sum(static t => Math.Abs(t.Value));
        if (product.Terms.Count > 0 && product.Terms.All(static t => t.Value != 0) && order is < 2 or > 9)
        {
            product.Source.Error(
                diagnostics, "terms", FormattableString.Invariant($"this is a mixture of order {order}"),
                "write coefficients whose magnitudes add up to 2 to 9");
        }

        bool read = product.Source.Fields.TryGetValue("over_noise", out FieldPlace place)
            && !diagnostics.InOrder().Any(d => d.Line == place.Value.Line && d.Column == place.Value.Column);
        if (read && product.OverNoise.Value is <= 0 or > MostOverNoiseDb)
        {
            product.Source.Error(
                diagnostics, "over_noise", $"a reading {product.OverNoise} over noise tells of no level",
                "write what was read over the noise alone, above 0 dB and at most 80 dB");
        }
    }
}
