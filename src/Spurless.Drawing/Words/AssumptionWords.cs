using Spurless.Mixing.Causes;
using Spurless.Radio.Quantities;
using Spurless.Sites.Levels;

namespace Spurless.Drawing.Words;

/// <summary>What was assumed, and what is missing, in words.</summary>
public static class AssumptionWords
{
    /// <summary>An assumption, without a capital and a full stop.</summary>
    public static string Of(Assumption a) => a.Kind switch
    {
        AssumptionKind.UnknownLevelLeftOut => $"{a.Of}, whose level is not known, is not in the sum: a lower bound",
        AssumptionKind.UnknownLevelsLeftOut => "carriers of unknown level are not in the sum: a lower bound",
        AssumptionKind.BlockingFromIntercept => "blocking: not stated; taken from IIP3 by the cubic term",
        AssumptionKind.EnvelopeTakenFlat => "spectrum of the moving envelope taken as flat",
        AssumptionKind.InterceptOfCrossModulation => "IIP3 assumed",
        AssumptionKind.SecondOscillatorSide => "side of the second oscillator not stated: both looked at",
        AssumptionKind.SecondMixerLinearity => "second mixer taken to be as linear as the whole receiver",
        AssumptionKind.OscillatorHarmonics => "harmonics of the oscillator taken to fall as 1/q, even ones like odd ones: the worst case",
        AssumptionKind.InterceptOfResponse => FormattableString.Invariant($"intercept of order {a.Order} assumed"),
        AssumptionKind.InterceptOfStage =>
            FormattableString.Invariant($"IIP{a.Order} of {a.Of} taken as {Tenths(a.Value)} dBm for want of a figure"),
        AssumptionKind.NextDegree =>
            "level not trustworthy: the next degree of the stage's curve could change it by more than 3 dB",
        AssumptionKind.NoiseAtOneOffset => $"{Noise(a)}: the one figure given, at {Offset(a.FromHz)}, taken at {Offset(a.ToHz)} too",
        AssumptionKind.NoiseHeld => $"{Noise(a)}: the figure at {Offset(a.FromHz)} held to {Offset(a.ToHz)}",
        AssumptionKind.IsolatorElsewhere => $"isolator of {a.Of}: the figure at {Megahertz(a.FromHz)} taken at {Megahertz(a.ToHz)} too",
        AssumptionKind.PathElsewhere => $"path of {a.Of}, measured at {Megahertz(a.FromHz)}, taken at {Megahertz(a.ToHz)} too",
        AssumptionKind.SignalNotWeak => FormattableString.Invariant(
            $"a signal arrives at {a.Of} less than {a.Value:0.0} dB under its own power: level not trustworthy"),
        AssumptionKind.TurnRoundOfOtherOrder =>
            FormattableString.Invariant($"turn-round loss of order {a.FromOrder} taken for order {a.Order}"),
        AssumptionKind.UsualNoise => $"{Noise(a)}: not stated; bounded by a usual base transmitter, -140 to -160 dBc/Hz far out",
        AssumptionKind.UsualTurnRound => $"turn-round loss of {a.Of}: not stated; bounded by a usual base transmitter, 6 to 20 dB",
        AssumptionKind.AdjacentSelectivity => FormattableString.Invariant(
            $"adjacent-channel selectivity: not stated; {a.Value:0.#} dB taken at {Offset(a.FromHz)}, the least that EN 300 086 asks"),
        AssumptionKind.AdjacentHeld => $"adjacent-channel selectivity: the figure at {Offset(a.FromHz)} held to {Offset(a.ToHz)}",
        AssumptionKind.Saturated => FormattableString.Invariant(
            $"level not trustworthy: capped at {Tenths(a.Value)} dBm, the most that {a.Of} can deliver"),
        _ => a.Note is LevelNote note ? LevelNoteWords.Of(note) : "",
    };

    /// <summary>Assumptions, each in words.</summary>
    public static IEnumerable<string> Of(IEnumerable<Assumption> assumptions) => assumptions.Select(Of);

    /// <summary>What is missing and the measurement that would supply it.</summary>
    public static string Missing(MissingInput m) => $"{What(m)}: {Measurement(m)}";

    /// <summary>Several of one kind in a line: the first three by name, the measurement of the first.</summary>
    /// <param name="all">At least one, all of one kind.</param>
    public static string Missing(IReadOnlyList<MissingInput> all) => all.Count == 1
        ? Missing(all[0])
        : string.Join("; ", all.Take(3).Select(What)) + (all.Count > 3 ? FormattableString.Invariant($"; {all.Count - 3} more") : "")
            + $": {Measurement(all[0])}";

    /// <summary>What is missing.</summary>
    public static string What(MissingInput m) => m.Kind switch
    {
        MissingKind.LevelHere => $"level of {m.Of} at this receiver",
        MissingKind.ProductLevel => $"level of {m.Of}",
        MissingKind.OutsideLevel => "level of mixtures made in joints, fences and clamps: not predictable",
        MissingKind.Blocking => "blocking of this receiver",
        MissingKind.Harmonic => FormattableString.Invariant($"harmonic {m.Times} of {m.Of}"),
        MissingKind.SidebandNoise => $"sideband noise of {m.Of} at {Offset(m.FrequencyHz)}",
        MissingKind.InputSelectivity => $"what the input circuits of {m.Of} take off at {Megahertz(m.FrequencyHz)}",
        MissingKind.MixerFeedthrough => $"how much of {Megahertz(m.FrequencyHz)} passes the mixer of {m.Of} unconverted",
        MissingKind.FirstIfFilter => $"what the first IF filter of {m.Of} takes off at this response",
        MissingKind.Coupling => $"coupling from {m.Of} to {m.At} at {Megahertz(m.FrequencyHz)}",
        MissingKind.TurnRoundLoss => $"turn-round loss of {m.Of}",
        MissingKind.OutputPower => $"output power of {m.Of}",
        MissingKind.PathOnChannel => $"path from {m.Of} to this receiver at {Megahertz(m.FrequencyHz)}",
        MissingKind.OscillatorNoise => $"noise of this receiver's oscillator at {Offset(m.FrequencyHz)}",
        _ => $"path from {m.Of} to this receiver",
    };

    /// <summary>The measurement, or the paper, that would supply it.</summary>
    public static string Measurement(MissingInput m) => m.Kind switch
    {
        MissingKind.LevelHere => "measure it at the antenna connector with a spectrum analyser, or give its power, antenna and place",
        MissingKind.ProductLevel => "the levels of its carriers at the antenna connector",
        MissingKind.OutsideLevel => "put an attenuator in front of the receiver: what is on the air falls by its loss only; "
            + "then see whether it changes with wind, rain or place, and seek it with a small loop",
        MissingKind.Blocking => "its data sheet; or raise an unmodulated carrier some MHz beside the channel until "
            + "the noise rises, or a weak signal falls, by 3 dB",
        MissingKind.Harmonic => "measure it at its output with an analyser behind a notch for the carrier, "
            + $"or read the type approval's limit; on the air it is at {Megahertz(m.FrequencyHz)}",
        MissingKind.SidebandNoise => "measure its noise density there behind a notch filter for its carrier; "
            + "or hear whether the noise in this receiver rises when it is switched on",
        MissingKind.InputSelectivity => "the data sheet's image and spurious response rejection; "
            + "or feed a generator there and raise it until it equals a weak signal on the channel",
        MissingKind.MixerFeedthrough => "the data sheet's IF rejection; or feed a generator at that frequency and raise it "
            + "until it equals a weak signal on the channel",
        MissingKind.FirstIfFilter =>
            "the filter's data sheet; or feed a generator there and raise it until it equals a weak signal on the channel",
        MissingKind.Coupling => $"measure the level of {m.Of} at the output line of {m.At}, "
            + $"{m.At} switched off and its line ended in the analyser; or say where both antennas stand",
        MissingKind.TurnRoundLoss =>
            "feed a weak signal into its output through a coupler or circulator and read the mixture 2A-B against it on an analyser",
        MissingKind.PathOnChannel => "its level was measured far from there; measure on the channel itself what it sends there, "
            + "or let it be switched off and hear what falls",
        MissingKind.OscillatorNoise =>
            "the data sheet; or feed an unmodulated carrier at that offset and raise it until the noise rises by 3 dB",
        MissingKind.OutputPower => "read it from the licence, or measure it at the transmitter's output with a through-line wattmeter",
        _ =>
            $"measure the level of {m.Of} at the receiver's antenna connector with a spectrum "
                + $"analyser, or give its power, antenna and place",
    };

    private static string Noise(Assumption a) => a.Of is null ? "oscillator noise" : $"sideband noise of {a.Of}";

    private static string Megahertz(double hertz) => MegahertzText.Of(hertz, 4, 6) + " MHz";

    private static string Tenths(double db) => Figures.Db(db, Typography.Plain);

    private static string Offset(double hertz) => CauseWords.Offset(hertz);
}
