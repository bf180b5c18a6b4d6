using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Receivers;

/// <summary>The file of a receiver's measurements: the words in which it is both read and described.</summary>
internal static class MeasurementShapes
{
    /// <summary>Most readings in a file: each is held against each.</summary>
    public const int MostReadings = 200;

    private const string Kinds = "sensitivity, two_tone, response, blocking, front_end, product";

    private static readonly Shape<IReadOnlyList<Frequency>> _tones = Shapes.ListOf(QuantityShapes.Frequency, 2, 2);

    private static readonly Shape<IReadOnlyList<Level>> _levels = Shapes.ListOf(QuantityShapes.Level, 2, 2);

    private static readonly Shape<int> _order = Shapes.Integer("an order from 2 to 9", 2, 9);

    private static readonly Shape<int> _coefficient = Shapes.Integer("how many times it is taken, with sign, as in -2", -9, 9)
        .Check(static k => k != 0 ? null : new Files.Diagnostics.Refusal("0 times is not at all", "leave it out, or write 1 or -1"));

    private static readonly Shape<MeasuredEntry> _sensitivity = Shapes.Mapping<MeasuredEntry>("{ level: -119 dBm }", static m =>
    {
        SensitivityReading reading = new(
            m.Maybe("level", QuantityShapes.Level, "level at the input for 12 dB SINAD"),
            m.Maybe("noise_figure", QuantityShapes.NoiseFigure, "in place of a level"))
        {
            PlusMinus = PlusMinus(m),
            Source = EntrySource.Of(m.Node),
        };
        m.ExactlyOne("add 'level: -119 dBm' or 'noise_figure: 6 dB'", "level", "noise_figure");
        return reading;
    });

    private static readonly Shape<MeasuredEntry> _twoTone = Shapes.Mapping<MeasuredEntry>(
        "{ order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm }", static m =>
    {
        int order = m.Required("order", _order, "order of the mixture, 2 to 9");
        IReadOnlyList<Frequency> tones = m.Required("tones", _tones, "the two tones") ?? [];
        Level? level = m.Maybe("level", QuantityShapes.Level, "each tone's level at the input");
        IReadOnlyList<Level> levels = m.Or("levels", _levels, [], "the tones' levels where they are not equal");
        TwoToneReading reading = new(
            order,
            tones.Count == 2 ? tones[0] : default,
            tones.Count == 2 ? tones[1] : default,
            levels.Count == 2 ? levels[0] : level ?? default,
            levels.Count == 2 ? levels[1] : null,
            m.Maybe("product", QuantityShapes.Level, "level on the channel that reads the same; without it the mixture equals the noise"))
        {
            PlusMinus = PlusMinus(m),
            Source = EntrySource.Of(m.Node),
        };
        m.ExactlyOne("add 'level: -44 dBm', that of each tone, or 'levels: [-44 dBm, -40 dBm]'", "level", "levels");
        return reading;
    });

    private static readonly Shape<MeasuredEntry> _response = Shapes.Mapping<MeasuredEntry>(
        "{ at: 102.25 MHz, level: -41 dBm }",
        static m => new ResponseReading(
            m.Required("at", QuantityShapes.Frequency, "where it is heard"),
            m.Required("level", QuantityShapes.Level, "level there that gives 12 dB SINAD"))
        {
            PlusMinus = PlusMinus(m),
            Source = EntrySource.Of(m.Node),
        });

    private static readonly Shape<MeasuredEntry> _blocking = Shapes.Mapping<MeasuredEntry>(
        "{ at: 146.05 MHz, level: -29 dBm }",
        static m => new BlockingReading(
            m.Required("at", QuantityShapes.Frequency, "frequency of the strong signal"),
            m.Required("level", QuantityShapes.Level, "its level that takes 3 dB of sensitivity"))
        {
            PlusMinus = PlusMinus(m),
            Source = EntrySource.Of(m.Node),
        });

    private static readonly Shape<MeasuredEntry> _product = Shapes.Mapping<MeasuredEntry>(
        "{ site: my.site.yaml, receiver: NAME, terms: { NAME: 1, OTHER: -2 }, over_noise: 22 dB }",
        static m => new SiteProductReading(
            m.Required("site", QuantityShapes.File("the site file's name"), "the site file"),
            m.Required("receiver", QuantityShapes.NameOf("a receiver's name"), "which receiver of the site heard it"),
            m.Required("terms", Shapes.MapOf("an emitter's name", _coefficient), "the mixture's emitters with their coefficients") ?? [],
            m.Required("over_noise", QuantityShapes.Decibels, "what was read over noise"))
        {
            PlusMinus = PlusMinus(m),
            Source = EntrySource.Of(m.Node),
        });

    private static readonly Shape<MeasuredEntry?> _measured = Shapes.Mapping(
        "{ sensitivity: … }, { two_tone: … }, { response: … }, { blocking: … }, { front_end: … } or { product: … }", static m =>
    {
        MeasuredEntry? sensitivity = m.Optional("sensitivity", _sensitivity, "level for 12 dB SINAD, or noise figure");
        MeasuredEntry? twoTone = m.Optional("two_tone", _twoTone, "two tones whose mixture was read on the channel");
        MeasuredEntry? response = m.Optional("response", _response, "a frequency off the channel that is heard");
        MeasuredEntry? blocking = m.Optional("blocking", _blocking, "a strong signal that takes 3 dB of sensitivity");
        FileReference? frontEnd = m.Optional(
            "front_end", QuantityShapes.File("the file of a measured two-port"), "what stands before the first active stage, as a sweep");
        MeasuredEntry? product = m.Optional("product", _product, "an identified mixture at a site");
        Decibels? beside = m.Maybe("plus_minus", QuantityShapes.PositiveDecibels, "one sigma of the reading; 1 dB where not written");
        m.ExactlyOneKind(
            "write one of " + Kinds, "sensitivity", "two_tone", "response", "blocking", "front_end", "product");
        MeasuredEntry? entry = sensitivity ?? twoTone ?? response ?? blocking ?? product
            ?? (frontEnd is null ? null : new FrontEndReading(frontEnd) { Source = EntrySource.Of(m.Node) });
        if (entry?.PlusMinus is not null && m.Node?.Find("plus_minus") is { } twice)
        {
            twice.Place.Error(m.Diagnostics, "'plus_minus' stands in the reading and beside it", "keep one of the two");
        }

        return entry is null ? null : entry with { PlusMinus = entry.PlusMinus ?? beside };
    });

    public static Shape<ReceiverMeasurements> Measurements { get; } = Shapes.Mapping(
        "keys such as name, frequency, channel, measured", static m =>
    {
        m.Required("spurless_receiver", Shapes.Integer("1, the version of the format", 1, 1), "version of the format");
        return new ReceiverMeasurements
        {
            File = m.Node?.File ?? "",
            Name = m.Required("name", QuantityShapes.NameOf("a name of your choice"), "what was measured"),
            Frequency = m.Required("frequency", QuantityShapes.Frequency, "the channel's centre"),
            Channel = m.Required("channel", QuantityShapes.Width, "the raster"),
            IfBandwidth = m.Maybe("if_bandwidth", QuantityShapes.Width, "noise bandwidth; left out, it follows from the raster"),
            Measured = [.. m.Or("measured", Shapes.ListOf(_measured, 0, MostReadings), [], "what was measured").OfType<MeasuredEntry>()],
            Source = EntrySource.Of(m.Node),
        };
    });

    private static Decibels? PlusMinus(MappingReader m) =>
        m.Maybe("plus_minus", QuantityShapes.PositiveDecibels, "one sigma of the reading; 1 dB where not written");
}
