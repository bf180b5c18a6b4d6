using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>The keys of each kind of part. A reader with nothing in it asks for the same keys, which gives the schema.</summary>
internal static class PartKinds
{
    private const string Unnamed = "";

    private static readonly Shape<IReadOnlyList<double>> _turns = Shapes.ListOf(
        Shapes.Number("turns above 0, a plain number", 0, 1e9, false), 2, 2);

    private static readonly Shape<StubEnd> _end = Shapes.Words(("open", StubEnd.Open), ("short", StubEnd.Short));

    public static PartDraft Inductor(MappingReader reader)
    {
        PartValue value = Value(reader, "inductor", ValueKind.Inductance, "its inductance");
        var nodes = Between(reader);
        PartLoss? loss = Loss(reader);
        double capacitance =
            reader.Maybe("self_capacitance", ValueKind.Capacitance.Known, "capacitance across it, which makes it resonate by itself") ?? 0;
        return With(
            reader,
            nodes,
            (from, to) =>
                new Inductor { Name = Unnamed, From = from, To = to, Inductance = value, Loss = loss, SelfCapacitanceF = capacitance });
    }

    public static PartDraft Capacitor(MappingReader reader)
    {
        PartValue value = Value(reader, "capacitor", ValueKind.Capacitance, "its capacitance");
        var nodes = Between(reader);
        PartLoss? loss = Loss(reader);
        double inductance = reader.Maybe("esl", ValueKind.Inductance.Known, "inductance in series with it") ?? 0;
        return With(
            reader,
            nodes,
            (from, to) =>
                new Capacitor { Name = Unnamed, From = from, To = to, Capacitance = value, Loss = loss, SeriesInductanceH = inductance });
    }

    public static PartDraft Resistor(MappingReader reader)
    {
        PartValue value = Value(reader, "resistor", ValueKind.Resistance, "its resistance");
        var nodes = Between(reader);
        return With(reader, nodes, (from, to) => new Resistor { Name = Unnamed, From = from, To = to, Resistance = value });
    }

    public static PartDraft Coil(MappingReader reader)
    {
        Winding? winding = reader.Required(
            "coil",
            Shapes.Mapping("{ turns: 2, diameter: 6 mm, length: 4 mm, wire: 1 mm }", ReadWinding),
            "a single-layer air coil by its geometry");
        var nodes = Between(reader);
        PartLoss? loss = Loss(reader);
        double? capacitance = reader.Maybe("self_capacitance", ValueKind.Capacitance.Known, "capacitance across it, where it was measured");
        return With(reader, nodes, (from, to) => winding is not { Turns: > 0, Diameter: > 0, Length: > 0, Wire: > 0 } ? null : new Coil
        {
            Name = Unnamed,
            From = from,
            To = to,
            Turns = winding.Turns,
            DiameterM = winding.Diameter,
            LengthM = winding.Length,
            WireM = winding.Wire,
            LeadM = winding.Leads,
            Loss = loss,
            SelfCapacitanceF = capacitance,
        });
    }

    public static PartDraft Coupling(MappingReader reader)
    {
        PartValue value = Value(reader, "coupling", ValueKind.Coefficient, "the coupling coefficient; its sense is the order of 'between'");
        IReadOnlyList<string> of = reader.Required(
            "of", Shapes.ListOf(Shapes.TextOf("an inductor's name"), 2, 2), "the two inductors or coils");
        return Common(
            reader, of is { Count: 2 } ? new Coupling { Name = Unnamed, Coefficient = value, First = of[0], Second = of[1] } : null);
    }

    public static PartDraft Line(MappingReader reader)
    {
        LineDraft? line = reader.Required(
            "line", Shapes.Mapping("{ impedance: 50 ohm, length: 0.34 m, velocity: 0.66 }", ReadLine), "a length of transmission line");
        var range = reader.Optional("range", ValueKind.Length.Range, "least and greatest length to look for, where it is unknown");
        var nodes = Between(reader);
        StubEnd? end = reader.Maybe("end", _end, "makes a stub of it: what is at its far end");
        if (line is not { ImpedanceOhm: > 0, Velocity: > 0 })
        {
            return Common(reader, null);
        }

        PartValue length = ValueKind.Length.Combine(reader, line.LengthM, line.LengthRead, range);
        if (end is null && nodes is { Value: [_, Circuit.Ground] or [Circuit.Ground, _] })
        {
            nodes.Error(
                reader.Diagnostics,
                "a line from a node to ground does not say what is at its far end",
                "add 'end: open' or 'end: short' for a stub");
            return Common(reader, null);
        }

        return With(reader, nodes, (from, to) => end is { } what
            ? new Stub
            {
                Name = Unnamed,
                From = from,
                To = to,
                ImpedanceOhm = line.ImpedanceOhm,
                Length = length,
                Velocity = line.Velocity,
                Loss = line.Loss,
                End = what,
            }
            : new Line
            {
                Name = Unnamed,
                From = from,
                To = to,
                ImpedanceOhm = line.ImpedanceOhm,
                Length = length,
                Velocity = line.Velocity,
                Loss = line.Loss,
            });
    }

    public static PartDraft Transformer(MappingReader reader)
    {
        IReadOnlyList<double>? turns = reader.Required(
            "transformer",
            Shapes.Mapping(
                "{ turns: [1, 4] }", static r => r.Required("turns", _turns, "turns of the winding 'between' and of that of 'and'")),
            "an ideal transformer");
        var first = Between(reader);
        var second = reader.Required("and", PartShapes.TwoNodes, "the nodes of the second winding, same polarity first");
        return With(reader, first, (from, to) => turns is not { Count: 2 } || second is not { Value.Count: 2 } ? null : new Transformer
        {
            Name = Unnamed,
            FirstTurns = turns[0],
            SecondTurns = turns[1],
            FirstFrom = from,
            FirstTo = to,
            SecondFrom = second.Value[0],
            SecondTo = second.Value[1],
        });
    }

    public static PartDraft TwoPort(MappingReader reader, Func<Located<string>, ITwoPort?> open)
    {
        Located<string>? path = reader.Required(
            "two_port",
            Shapes.TextOf("the name of a sweep such as measured.s2p").WithPlace(),
            "a measured two-port, its ports against ground");
        var nodes = Between(reader);
        ITwoPort? source = path is null ? null : open(path);
        return With(
            reader,
            nodes,
            (from, to) => source is null ? null : new TwoPortBlock { Name = Unnamed, From = from, To = to, Source = source });
    }

    private static PartValue Value(MappingReader reader, string key, ValueKind kind, string about)
    {
        Located<double?>? value = reader.Required(key, kind.KnownOrUnknown.WithPlace(), about);
        return kind.Combine(
            reader,
            value?.Value,
            value is not null,
            reader.Optional("range", kind.Range, "least and greatest value to look for, where it is unknown"));
    }

    private static Located<IReadOnlyList<string>>? Between(MappingReader reader) =>
        reader.Required("between", PartShapes.TwoNodes, "the two nodes it is connected to; ground is gnd");

    private static PartLoss? Loss(MappingReader reader)
    {
        PartLoss? q = reader.Optional("q", PartShapes.Quality, "its unloaded Q");
        PartLoss? esr = reader.Optional("esr", PartShapes.SeriesResistance, "a constant resistance in series, instead of q");
        reader.AtMostOne("q", "esr");
        return q ?? esr;
    }

    private static PartDraft With(MappingReader reader, Located<IReadOnlyList<string>>? nodes, Func<string, string, Part?> make) =>
        Common(reader, nodes is { Value: [string from, string to] } ? make(from, to) : null);

    private static PartDraft Common(MappingReader reader, Part? part)
    {
        PartTolerance? tolerance = reader.Optional(
            "tolerance", PartShapes.Tolerance, "manufacturing tolerance: evenly within, or 'normal' (two sigma), or the bin of a series");
        double? about = reader.Maybe("about", PartShapes.About, "how well the value is known beforehand, one sigma, for 'fit'");
        PartRating? rated = reader.Optional("rated", PartShapes.Rated, "what it stands: volts (peak), watts, amperes (rms)");
        double ppm =
            reader.Maybe("ppm", Shapes.Number("parts per million per kelvin, a plain number", -1e6, 1e6), "temperature coefficient") ?? 0;
        return new PartDraft(part is null ? null : part with { Tolerance = tolerance, About = about, Rated = rated, PpmPerKelvin = ppm });
    }

    private static Winding ReadWinding(MappingReader reader) => new(
        reader.Required("turns", Shapes.Number("turns above 0, a plain number", 0, 1e6, false), "number of turns"),
        reader.Required("diameter", ValueKind.Length.Known, "diameter from wire centre to wire centre"),
        reader.Required("length", ValueKind.Length.Known, "turns times pitch"),
        reader.Required("wire", ValueKind.Wire.Known, "diameter of the bare wire, in mm or AWG"),
        reader.Maybe("leads", ValueKind.Length.Known, "length of the lead at each end") ?? 0);

    private static LineDraft ReadLine(MappingReader reader)
    {
        double impedance = reader.Required("impedance", ValueKind.Resistance.Known, "characteristic impedance");
        Located<double?>? length = reader.Required("length", ValueKind.Length.KnownOrUnknown.WithPlace(), "length");
        double velocity = reader.Maybe(
            "velocity",
            Shapes.Number("a fraction of the velocity of light, above 0 and at most 1, such as 0.66", 0, 1, false),
            "velocity as a fraction of that of light; 1 where it does not stand")
            ?? 1;
        LossPerLengthAt? loss = reader.Maybe<LossPerLengthAt>(
            "loss",
            LossPerLengthAt.TryParse,
            "a loss such as 0.1 dB/m at 146 MHz",
            "attenuation, which grows with the square root of the frequency");
        return new LineDraft(
            impedance,
            length?.Value,
            length is not null,
            velocity,
            loss is { } l ? LineLoss.At(l.Loss.DbPerMetre, l.Frequency.Hertz) : default);
    }

    private sealed record Winding(double Turns, double Diameter, double Length, double Wire, double Leads);

    private sealed record LineDraft(double ImpedanceOhm, double? LengthM, bool LengthRead, double Velocity, LineLoss Loss);
}
