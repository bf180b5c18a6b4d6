using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>The shapes of what was observed.</summary>
internal static class EvidenceShapes
{
    private static readonly Shape<InsertedAt> _at = Shapes.Words(("antenna", InsertedAt.Antenna), ("receiver", InsertedAt.Receiver));

    private static readonly Shape<EvidenceEntry> _attenuator = Shapes.Mapping<EvidenceEntry>(
        "{ receiver: NAME, inserted: 3 dB, at: antenna, over_noise: 22 dB, fall: 8.6 dB }",
        static m => new AttenuatorTest(
            Receiver(m),
            m.Required("inserted", QuantityShapes.PositiveDecibels, "the attenuator"),
            m.Required("at", _at, "antenna, or receiver (behind the amplifier)"),
            OverNoise(m),
            Fall(m),
            PlusMinus(m))
        { Source = EntrySource.Of(m.Node) });

    private static readonly Shape<EvidenceEntry> _filter = Shapes.Mapping<EvidenceEntry>(
        "{ receiver: NAME, inserted: trap.s2p, over_noise: 22 dB, fall: 22 dB }",
        static m => new FilterTest(
            Receiver(m),
            m.Required("inserted", QuantityShapes.File("the file of a measured two-port or a circuit"), "the filter"),
            OverNoise(m),
            Fall(m),
            PlusMinus(m))
        { Source = EntrySource.Of(m.Node) });

    private static readonly Shape<Decibels?> _by = Shapes.Value<Decibels?>("a ratio such as 3 dB, or off", TryParseBy);

    private static readonly Shape<EvidenceEntry> _reduced = Shapes.Mapping<EvidenceEntry>(
        "{ receiver: NAME, emitter: NAME, by: 3 dB, over_noise: 22 dB, fall: 3 dB }",
        static m => new EmitterReduced(
            Receiver(m),
            m.Required("emitter", QuantityShapes.NameOf("an emitter's name"), "whose power was reduced"),
            m.Required("by", _by, "by how much, or off"),
            OverNoise(m),
            Fall(m),
            PlusMinus(m))
        { Source = EntrySource.Of(m.Node) });

    private static readonly Shape<EvidenceEntry> _offset = Shapes.Mapping<EvidenceEntry>(
        "{ receiver: NAME, measured: 180 Hz, plus_minus: 50 Hz }",
        static m => new OffsetMeasured(
            Receiver(m),
            m.Required("measured", QuantityShapes.Offset, "offset from the channel's centre, up positive"),
            m.Maybe("plus_minus", QuantityShapes.Width, "one sigma"))
        { Source = EntrySource.Of(m.Node) });

    private static readonly Shape<EvidenceEntry> _recording = Shapes.Mapping<EvidenceEntry>(
        "{ receiver: NAME, kinds: [pocsag, voice], deviation: 6.5 kHz }",
        static m => new RecordingHeard(
            Receiver(m),
            m.Required("kinds", Shapes.ListOf(Shapes.Words([.. KindTokens.All]), least: 1), "what was on it, as 'listen' names it"),
            m.Maybe("deviation", QuantityShapes.Width, "its peak deviation"))
        { Source = EntrySource.Of(m.Node) });

    public static Shape<EvidenceEntry?> Evidence { get; } = Shapes.Mapping(
        "{ attenuator_test: … }, { filter_test: … }, { emitter_reduced: … }, { offset: … }, { recording: … } or { log: … }",
        static m =>
    {
        EvidenceEntry? attenuator = m.Optional("attenuator_test", _attenuator, "an attenuator was inserted");
        EvidenceEntry? filter = m.Optional("filter_test", _filter, "a filter was inserted");
        EvidenceEntry? reduced = m.Optional("emitter_reduced", _reduced, "an emitter's power was reduced");
        EvidenceEntry? offset = m.Optional("offset", _offset, "the offset from the channel was measured");
        EvidenceEntry? recording = m.Optional("recording", _recording, "which kinds of transmission a recording of the channel holds");
        FileReference? log = m.Optional(
            "log", QuantityShapes.File("the file of an observation log"), "who was on the air when it was heard");
        m.ExactlyOneKind(
            "write one of attenuator_test, filter_test, emitter_reduced, offset, recording, log",
            "attenuator_test",
            "filter_test",
            "emitter_reduced",
            "offset",
            "recording",
            "log");
        return attenuator ?? filter ?? reduced ?? offset ?? recording
            ?? (log is null ? null : new LogEvidence(log) { Source = EntrySource.Of(m.Node) });
    });

    private static string Receiver(MappingReader m) =>
        m.Required("receiver", QuantityShapes.NameOf("a receiver's name"), "which receiver heard it");

    private static Decibels OverNoise(MappingReader m) =>
        m.Required("over_noise", QuantityShapes.Decibels, "what was read before, over noise");

    private static Decibels Fall(MappingReader m) => m.Required("fall", QuantityShapes.Decibels, "by how much the reading fell");

    private static Decibels? PlusMinus(MappingReader m) => m.Maybe("plus_minus", QuantityShapes.PositiveDecibels, "one sigma of the fall");

    private static bool TryParseBy(string text, out Decibels? value, out string problem)
    {
        value = null;
        problem = "";
        if (text.Trim() == "off")
        {
            return true;
        }

        bool read = Decibels.TryParse(text, out Decibels by, out problem);
        value = by;
        if (read && by.Value <= 0)
        {
            problem = $"'{by}' is not above 0; write a ratio such as 3 dB, or off";
        }

        return read && by.Value > 0;
    }
}
