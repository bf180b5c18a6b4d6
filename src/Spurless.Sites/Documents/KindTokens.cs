using Spurless.Signals.Recognition;

namespace Spurless.Sites.Documents;

/// <summary>The word of each kind of transmission, in files and results.</summary>
public static class KindTokens
{
    /// <summary>Every kind with its word.</summary>
    public static IReadOnlyList<(string Word, SignalKind Kind)> All { get; } =
    [
        ("pocsag", SignalKind.Pocsag), ("afsk1200", SignalKind.Afsk1200), ("fsk9600", SignalKind.Fsk9600), ("ctcss", SignalKind.Ctcss),
        ("dcs", SignalKind.Dcs), ("dtmf", SignalKind.Dtmf), ("two_tone", SignalKind.TwoTone), ("morse", SignalKind.Morse),
        ("voice", SignalKind.Voice), ("carrier", SignalKind.Carrier), ("tone", SignalKind.Tone),
        ("two_level_fsk", SignalKind.TwoLevelFsk), ("four_level_fsk", SignalKind.FourLevelFsk), ("hum", SignalKind.Hum),
        ("comb", SignalKind.Comb), ("noise", SignalKind.Noise), ("unknown", SignalKind.Unknown),
    ];

    /// <summary>A kind's word.</summary>
    public static string Of(SignalKind kind) => All.First(k => k.Kind == kind).Word;
}
