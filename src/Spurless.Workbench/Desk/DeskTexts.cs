using Spurless.Circuits.Parts;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Workbench.Desk;

/// <summary>Reads the texts that the desk writes, by the very parsers that read the files; null where a text may not stand there.</summary>
internal static class DeskTexts
{
    public static AttenuatorStage? Pad(string text) => Loss(text) is { } loss ? new AttenuatorStage(loss) : null;

    public static Decibels? Loss(string text) => Decibels.TryParse(text, out Decibels d, out _) && d.Value >= 0 ? d : null;

    public static Decibels? Ratio(string text) => Decibels.TryParse(text, out Decibels d, out _) ? d : null;

    public static Decibels? Positive(string text) => Decibels.TryParse(text, out Decibels d, out _) && d.Value > 0 ? d : null;

    public static Level? Level(string text) => Radio.Quantities.Level.TryParse(text, out Level l, out _) ? l : null;

    public static NoiseFigure? NoiseFigure(string text) => Radio.Quantities.NoiseFigure.TryParse(text, out NoiseFigure n, out _) ? n : null;

    public static AntennaGain? Gain(string text) => AntennaGain.TryParse(text, out AntennaGain g, out _) ? g : null;

    public static Length? Length(string text) => Radio.Quantities.Length.TryParsePositive(text, out Length l, out _) ? l : null;

    public static FeedlineStage? FeedlineLoss(string text) =>
        DecibelsAt.TryParse(text, out DecibelsAt loss, out _) && loss.Value.Value >= 0 ? new FeedlineStage(loss, null, null) : null;

    public static IsolatorEntry? Isolator(string text) =>
        text.Contains(" at ", StringComparison.Ordinal)
            ? DecibelsAt.TryParse(text, out DecibelsAt at, out _) && at.Value.Value >= 0 ? new IsolatorEntry(null, [at]) : null
            : Loss(text) is { } everywhere ? new IsolatorEntry(everywhere, []) : null;

    public static Part? Inductor(Part part, string text) =>
        part is Inductor i && Inductance.TryParse(text, out Inductance q, out _) && q.Henries > 0
            ? i with { Inductance = PartValue.Known(q.Henries) }
            : null;

    public static Part? Capacitor(Part part, string text) =>
        part is Capacitor c && Capacitance.TryParse(text, out Capacitance q, out _) && q.Farads > 0
            ? c with { Capacitance = PartValue.Known(q.Farads) }
            : null;

    public static Part? Resistor(Part part, string text) =>
        part is Resistor r && Resistance.TryParse(text, out Resistance q, out _) && q.Ohms > 0
            ? r with { Resistance = PartValue.Known(q.Ohms) }
            : null;

    public static Part? Coil(Part part, string text) =>
        part is Coil c && Length(text) is { } length ? c with { LengthM = length.Metres } : null;

    public static Part? Line(Part part, string text) => (part, Length(text)) switch
    {
        (Line l, { } length) => l with { Length = PartValue.Known(length.Metres) },
        (Stub s, { } length) => s with { Length = PartValue.Known(length.Metres) },
        _ => null,
    };
}
