using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>The site file as a whole.</summary>
internal static class SiteShapes
{
    private static readonly Shape<PlaceEntry> _place = Shapes.Mapping(
        "{ latitude: 40.5, longitude: -35.2, ground: 410 m }", static m => new PlaceEntry(
        m.Required("latitude", QuantityShapes.Latitude, "north positive"),
        m.Required("longitude", QuantityShapes.Longitude, "east positive"),
        m.Maybe("ground", QuantityShapes.AnyLength, "height of the ground over sea level")));

    private static readonly Shape<(Level? Level, bool None)> _floor = Shapes.Value<(Level?, bool)>(
        "a level such as -150 dBm, or none",
        static (string text, out (Level?, bool) value, out string problem) =>
        {
            problem = "";
            bool none = text == "none";
            Level level = default;
            bool good = none || Level.TryParse(text, out level, out problem);
            value = (none || !good ? null : level, none);
            return good;
        });

    private static readonly Shape<SearchEntry> _search = Shapes.Mapping("{ orders: 2-7, signals: 3 }", static m =>
    {
        (int Lowest, int Highest)? orders = m.Maybe("orders", QuantityShapes.Orders, "lowest and highest order");
        int? signals = m.Maybe("signals", Shapes.Integer("a whole number from 1 to 9", 1, 9), "how many emitters in one mixture");
        (Level? floor, bool none) = m.Or("floor", _floor, (null, false), "leave out mixtures under this level");
        return new SearchEntry(orders?.Lowest, orders?.Highest, signals, floor, none);
    });

    private static readonly Shape<IReadOnlyList<string>> _group = Shapes.ListOf(QuantityShapes.NameOf("an emitter's name"), 2);

    /// <summary>The site file; its emitters are only those that stand in it.</summary>
    public static Shape<SiteDocument> Site { get; } =
        Shapes.Mapping("keys such as site, receivers, emitters", static m => Read(m, receiversDue: true));

    /// <summary>A newcomer's file: a site file that may have no receivers.</summary>
    public static Shape<SiteDocument> Newcomer { get; } =
        Shapes.Mapping("keys such as site, receivers, emitters", static m => Read(m, receiversDue: false));

    private static SiteDocument Read(MappingReader m, bool receiversDue)
    {
        m.Required("spurless", Shapes.Integer("1, the version of the format", 1, 1), "version of the format");
        Shape<IReadOnlyList<ReceiverEntry>> receivers = Shapes.ListOf(ReceiverShapes.Receiver, 1);
        return new SiteDocument
        {
            File = m.Node?.File ?? "",
            Site = m.Required("site", QuantityShapes.NameOf("the site's name"), "name of the site"),
            Place = m.Optional("place", _place, "where the site is; needed for distances and the register"),
            Receivers = receiversDue
                ? m.Required("receivers", receivers, "the receivers to be quiet") ?? []
                : m.Or("receivers", receivers, [], "the receivers to be quiet"),
            Emitters = m.Or("emitters", Shapes.ListOf(EmitterShapes.Emitter), [], "the transmitters around them"),
            Exclusive = m.Or("exclusive", Shapes.ListOf(_group), [], "groups of emitters of which no two are ever on the air together"),
            Search = m.Or("search", _search, new SearchEntry(null, null, null, null, false), "how far to search"),
            EmittersFrom = m.Optional(
                "emitters_from",
                QuantityShapes.File("the file of a table of emitters"),
                "a table with more emitters, its heads the keys of an emitter"),
            Terrain = m.Optional(
                "terrain",
                QuantityShapes.File("a folder of elevation files"),
                "a folder of elevation files: levels from the ground between"),
            Contact = m.Optional(
                "contact", Shapes.TextOf("whom to ask, such as the keeper of the repeater"), "whom to ask; stands in the report"),
            Notes = m.Optional("notes", Shapes.TextOf("free text"), "free notes that the report carries"),
            Heard = m.Or(
                "heard",
                Shapes.OneOrMany(Shapes.TextOf("what it sounded like")),
                [],
                "what was heard on the channel; stands in the report"),
            Evidence = [.. m.Or("evidence", Shapes.ListOf(EvidenceShapes.Evidence), [], "what was observed").OfType<EvidenceEntry>()],
            KeysPresent = [],
            Files = [],
            Source = EntrySource.Of(m.Node),
        };
    }
}
