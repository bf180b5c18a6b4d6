using Spurless.Circuits.Requirements;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Requirements;

/// <summary>The requirement file: the words in which it is both read and described.</summary>
internal static class RequirementShapes
{
    private static readonly Shape<Frequency> _frequency = Shapes.Value<Frequency>(
        "a frequency such as 145.05 MHz", Frequency.TryParsePositive);

    private static readonly Shape<Decibels> _decibels = Shapes.Value<Decibels>("a ratio such as 25 dB", Decibels.TryParse)
        .Check(static d => d.Value > 0 ? null : new Refusal($"'{d}' is not above 0", "write a ratio such as 25 dB"));

    private static readonly Shape<QualityAt> _quality = Shapes.Value<QualityAt>(
        "a quality at a frequency such as 180 at 146 MHz", QualityAt.TryParse);

    private static readonly Shape<PassBand> _pass = Shapes.Mapping("{ from: 144.9 MHz, to: 145.2 MHz, loss: 2.5 dB }", static m =>
    {
        PassBand band = new(
            m.Required("from", _frequency, "lower edge"),
            m.Required("to", _frequency, "upper edge"),
            m.Required("loss", _decibels, "most insertion loss allowed"),
            m.Maybe("return_loss", _decibels, "least return loss"));
        Ordered(m, band.From, band.To);
        return band;
    });

    private static readonly Shape<RejectBand> _reject = Shapes.Mapping("{ at: 160.5125 MHz, by: 25 dB }", static m =>
    {
        Frequency? at = m.Maybe("at", _frequency, "a single frequency");
        Frequency? from = m.Maybe("from", _frequency, "lower edge");
        Frequency? to = m.Maybe("to", _frequency, "upper edge");
        Decibels by = m.Required("by", _decibels, "least insertion loss there");
        m.ExactlyOne("add 'at: 160.5125 MHz', or 'from: 450 MHz' with 'to: 470 MHz'", "at", "from");
        m.AtMostOne("at", "to");
        m.Needs("from", "to", "add 'to: 470 MHz'");
        m.Needs("to", "from", "add 'from: 450 MHz'");
        Ordered(m, from ?? default, to ?? default);
        return new RejectBand(at ?? from ?? default, at ?? to ?? default, by, m.Node?.Start ?? default);
    });

    private static readonly Shape<PreferredSeries> _series = Shapes.Words(
        [.. Enum.GetValues<PreferredSeries>().Select(static s => (s.ToString(), s))]);

    private static readonly Shape<AvailableParts> _parts = Shapes.Mapping(
        "{ inductor_q: 180 at 146 MHz, capacitor_q: 500 at 146 MHz }", static m => new AvailableParts(
        m.Maybe("inductor_q", _quality, "quality of the inductors"),
        m.Maybe("capacitor_q", _quality, "quality of the capacitors"),
        m.Maybe(
            "inductors",
            Range("an inductance such as 8 nH", Above<Inductance>(Inductance.TryParse, static l => l.Henries)),
            "smallest and greatest inductance"),
        m.Maybe(
            "capacitors",
            Range("a capacitance such as 0.5 pF", Above<Capacitance>(Capacitance.TryParse, static c => c.Farads)),
            "smallest and greatest capacitance"),
        m.Maybe("series", _series, "series of preferred values, for capacitors")));

    private static readonly Shape<Resistance> _impedance = Shapes.Value<Resistance>(
        "an impedance such as 50 ohm", Above<Resistance>(Resistance.TryParse, static r => r.Ohms));

    // The contacts of a relay round the filter, as they stand while it receives; their key is that of a relay's contacts.
    private static readonly Shape<Bypass> _bypass = Shapes.ByKind(
        scalar: QuantityShapes.File("a bypass relay's file such as my.bypass.yaml, or { open: 0.8 pF }")
            .Select(static f => new Bypass(null, new BypassReference(f.Path, f.At))),
        mapping: Shapes.Mapping("{ open: 0.8 pF }", static m => new Bypass(
            m.Required(
                "open",
                Shapes.Value<Capacitance>("a capacitance such as 0.8 pF", Above<Capacitance>(Capacitance.TryParse, static c => c.Farads)),
                "capacitance of the open contacts, from port to port"),
            null)));

    public static Shape<Requirement> Requirement { get; } = Shapes.Mapping("keys such as name, pass, reject", static m =>
    {
        m.Required("spurless_requirement", Shapes.Integer("1, the version of the format", 1, 1), "version of the format");
        Requirement requirement = new()
        {
            File = m.Node?.File ?? "",
            Name = m.Required("name", Shapes.TextOf("a name of your choice"), "what the requirement is called"),
            Pass = m.Required("pass", _pass, "what must pass"),
            Reject = m.Or("reject", Shapes.ListOf(_reject, 1), [], "what must be kept out"),
            Impedance = m.Or("impedance", _impedance, Resistance.FromOhms(50), "of both ports; 50 ohm where not given"),
            Parts = m.Or("parts", _parts, new AvailableParts(null, null, null, null, null), "which parts may be used"),
            Transmit = m.Maybe("transmit", Shapes.Value<Power>("a power such as 50 W", Power.TryParse), "power that the filter must carry"),
        };
        Bypass? bypass = m.Optional("bypass", _bypass, "contacts that go round the filter, or the file of the relay that has them");
        CheckOverlap(m, requirement);
        return requirement with { BypassOpen = bypass?.Open, BypassFile = bypass?.File };
    });

    private static void Ordered(MappingReader m, Frequency from, Frequency to)
    {
        if (m.Node?.Value("to") is { } node && from.Hertz > 0 && to.Hertz > 0 && to.Hertz <= from.Hertz)
        {
            node.Error(
                m.Diagnostics,
                $"the upper edge {to} is not above the lower edge {from}",
                "write the lower edge in 'from' and the upper one in 'to'");
        }
    }

    private static void CheckOverlap(MappingReader m, Requirement requirement)
    {
        if (m.Node is null || requirement.Pass is not { } pass || pass.From.Hertz <= 0 || pass.To.Hertz <= 0)
        {
            return;
        }

        foreach (
            RejectBand band in requirement.Reject.Where(
                b => b.From.Hertz > 0 && b.From.Hertz <= pass.To.Hertz && b.To.Hertz >= pass.From.Hertz))
        {
            m.Diagnostics.Error(
                m.Node.File,
                band.At.Line,
                band.At.Column,
                $"this lies in the band that must pass, {pass.From} to {pass.To}",
                "move the one or narrow the other");
        }
    }

    private static Shape<(T Least, T Greatest)> Range<T>(string wanted, TextParser<T> parser)
        where T : struct, IComparable<T> => Shapes.ListOf(Shapes.Value(wanted, parser), 2, 2)
        .Check(
            static two =>
                two.Count == 2 && two[0].CompareTo(two[1]) >= 0
                    ? new Refusal($"the first, {two[0]}, is not below the second, {two[1]}", "write the smallest first")
                    : null)
        .Select(static two => two.Count == 2 ? (two[0], two[1]) : default);

    private static TextParser<T> Above<T>(TextParser<T> parser, Func<T, double> size) => (string text, out T value, out string problem) =>
    {
        bool good = parser(text, out value, out problem);
        if (good && !(size(value) > 0))
        {
            problem = $"'{Quote.Short(text)}' is not above 0; write a value above 0";
            return false;
        }

        return good;
    };

    private sealed record Bypass(Capacitance? Open, BypassReference? File);
}
