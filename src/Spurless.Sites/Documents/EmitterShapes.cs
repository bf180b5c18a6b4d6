using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>The shape of an emitter, in the site file and in a table of emitters alike.</summary>
internal static class EmitterShapes
{
    private static readonly Shape<PositionEntry> _position = Shapes.Mapping(
        "{ latitude: 40.503, longitude: -35.19 }", static m => new PositionEntry(
        m.Required("latitude", QuantityShapes.Latitude, "north positive"),
        m.Required("longitude", QuantityShapes.Longitude, "east positive")));

    private static readonly Shape<(Level? All, IReadOnlyList<Named<Level>> Each)> _level = Shapes.ByKind(
        scalar: QuantityShapes.Level.Select(static l => ((Level?)l, (IReadOnlyList<Named<Level>>)[])),
        mapping: Shapes.MapOf("a receiver's name", QuantityShapes.Level).Select(static each => ((Level?)null, each)));

    private static readonly Shape<PathEntry> _path = Shapes.ByKind(
        scalar: Shapes.Words(
            ("free space", PathModel.FreeSpace),
            ("plane earth", PathModel.PlaneEarth),
            ("terrain", PathModel.Terrain),
            ("hata urban", PathModel.HataUrban),
            ("hata suburban", PathModel.HataSuburban),
            ("hata open", PathModel.HataOpen)).Select(static model => new PathEntry(model, null, null)),
        mapping: Shapes.Mapping(
            "{ same structure: { vertical: 6 m, horizontal: 0 m } } or { obstacle: { height: 20 m, distance: 5 km } }", ReadPath));

    private static readonly Shape<IsolatorEntry> _isolator = Shapes.ByKind(
        scalar: QuantityShapes.NotNegativeDecibels.Select(static d => new IsolatorEntry(d, [])),
        sequence: PointLists.ByFrequency(QuantityShapes.LossAt).Select(static points => new IsolatorEntry(null, points)));

    private static readonly Shape<TurnRoundLossEntry> _turnRound = Shapes.ByKind(
        scalar: QuantityShapes.NotNegativeDecibels.Select(static d => new TurnRoundLossEntry(d, [])),
        sequence: PointLists.LossByOrder.Select(static points => new TurnRoundLossEntry(null, points)));

    public static Shape<EmitterEntry> Emitter { get; } = Shapes.Mapping("keys such as name, frequency, emission, level", static m =>
    {
        string name = m.Required("name", QuantityShapes.NameOf("a name of your choice"), "a name of your choice, each once in a file");
        Frequency frequency = m.Required("frequency", QuantityShapes.Frequency, "the carrier");
        Radio.Emissions.Emission? emission = m.Maybe("emission", QuantityShapes.Emission, "emission designator");
        Frequency? bandwidth = m.Maybe("bandwidth", QuantityShapes.Bandwidth, "in place of an emission; 0 kHz is an unmodulated carrier");
        (Level? level, IReadOnlyList<Named<Level>> perReceiver) = m.Or(
            "level", _level, (null, []), "measured level, or one per receiver; wins over any prediction");
        EmitterEntry entry = new()
        {
            Name = name,
            Frequency = frequency,
            Emission = emission,
            Bandwidth = bandwidth,
            Level = level,
            LevelPerReceiver = ByName(perReceiver),
            Offset = m.Maybe("offset", QuantityShapes.Offset, "measured offset of its carrier from nominal, up positive"),
            Activity = m.Maybe("activity", QuantityShapes.Activity, "share of the time on the air"),
            Power = m.Maybe("power", QuantityShapes.Power, "transmitter output"),
            Erp = m.Maybe("erp", QuantityShapes.Power, "in place of power: radiated, over a dipole"),
            Eirp = m.Maybe("eirp", QuantityShapes.Power, "in place of power: radiated, over isotropic"),
            Feedline = m.Maybe("feedline", QuantityShapes.NotNegativeDecibels, "loss of its feedline"),
            Antenna = m.Optional("antenna", ReceiverShapes.Antenna, "its antenna"),
            At = m.Optional("at", _position, "where it stands"),
            Distance = m.Maybe("distance", QuantityShapes.Distance, "in place of at: distance from the site"),
            Bearing = m.Maybe("bearing", QuantityShapes.Bearing, "with distance: direction from the site"),
            Path = m.Optional("path", _path, "path model; else chosen by geometry"),
            Isolator = m.Optional(
                "isolator",
                _isolator,
                "isolator behind the transmitter; between points straight in dB over the logarithm of frequency, the end value beyond"),
            OutputFilter = m.Optional(
                "output_filter", QuantityShapes.File("the file of a measured two-port"), "filter behind the transmitter"),
            TurnRoundLoss = m.Optional("turn_round_loss", _turnRound, "conversion loss of mixing in this transmitter"),
            Coupling = ByName(
                m.Or(
                    "coupling",
                    Shapes.MapOf("an emitter's name", QuantityShapes.NotNegativeDecibels),
                    [],
                    "measured loss from that emitter's output to this one's")),
            CouplingTo = ByName(
                m.Or(
                    "coupling_to",
                    Shapes.MapOf("an emitter's name", QuantityShapes.NotNegativeDecibels),
                    [],
                    "measured loss from this emitter's output to that one's: the same from the other end")),
            Noise = m.Or("noise", PointLists.NoiseByOffset, [], "sideband noise"),
            Harmonics = m.Or("harmonics", PointLists.HarmonicsByOrder, [], "harmonics relative to the carrier"),
            Ground = m.Maybe("ground", QuantityShapes.AnyLength, "height of the ground there over sea level"),
            Uncertainty = m.Maybe("uncertainty", QuantityShapes.Sigma, "one sigma of its level"),
            NoiseLike = m.Or("noise_like", Shapes.Bool, false, "many carriers or scrambled wide data"),
            Follows = m.Optional(
                "follows", QuantityShapes.NameOf("a receiver's name"), "our own transmitter: on whenever that receiver hears something"),
            HalfDuplex = m.Optional("half_duplex", QuantityShapes.NameOf("a receiver's name"), "never on while that receiver listens"),
            Source = EntrySource.Of(m.Node),
        };
        m.ExactlyOne("add 'emission: 11K2F3E' or 'bandwidth: 16 kHz'", "emission", "bandwidth");
        m.AtMostOne("power", "erp", "eirp");
        m.AtMostOne("at", "distance");
        m.Needs("bearing", "distance", "add 'distance: 650 m', or write 'at: { latitude: 40.503, longitude: -35.19 }' instead");
        return entry;
    });

    private static PathEntry ReadPath(MappingReader m)
    {
        PathEntry? structure = m.Optional(
            "same structure",
            Shapes.Mapping("{ vertical: 6 m, horizontal: 0 m }", static s => new PathEntry(
                PathModel.SameStructure,
                s.Required("vertical", QuantityShapes.Spacing, "vertical distance of the antennas"),
                s.Required("horizontal", QuantityShapes.Spacing, "horizontal distance of the antennas"))),
            "both antennas on one mast or tower");
        PathEntry? obstacle = m.Optional(
            "obstacle",
            Shapes.Mapping("{ height: 20 m, distance: 5 km }", static s => new PathEntry(PathModel.Obstacle, null, null)
            {
                ObstacleHeight = s.Required(
                    "height", QuantityShapes.AnyLength, "its top over the straight line between the antennas, negative under it"),
                ObstacleDistance = s.Required("distance", QuantityShapes.Distance, "from the emitter"),
            }),
            "free space over one edge, a ridge or a building");
        m.ExactlyOne(
            "write 'same structure: { vertical: 6 m, horizontal: 0 m }' or 'obstacle: { height: 20 m, distance: 5 km }'",
            "same structure",
            "obstacle");
        return structure ?? obstacle ?? new PathEntry(PathModel.FreeSpace, null, null);
    }

    private static Dictionary<string, T> ByName<T>(IReadOnlyList<Named<T>> all) =>
        all.ToDictionary(static n => n.Name, static n => n.Value, StringComparer.Ordinal);
}
