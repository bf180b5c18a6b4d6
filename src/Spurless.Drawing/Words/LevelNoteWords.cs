using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;
using Spurless.Register.Records;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;

namespace Spurless.Drawing.Words;

/// <summary>How a level is known and what it rests on, without a capital and a full stop.</summary>
public static class LevelNoteWords
{
    /// <summary>Notes, each in words.</summary>
    public static IEnumerable<string> Of(IEnumerable<LevelNote> notes) => notes.Select(Of);

    /// <summary>Notes that differ in nothing, or in the frequency that an antenna's gain is taken at, in one sentence.</summary>
    /// <param name="notes">At least one.</param>
    public static string OfAlike(IReadOnlyList<LevelNote> notes)
    {
        ArgumentNullException.ThrowIfNull(notes);
        long[] at = [.. notes.OfType<LevelNote.GainOutOfBand>().Select(static n => n.AtHz).Distinct().Order()];
        return at.Length > 1
            ? GainTaken((LevelNote.GainOutOfBand)notes[0], $"from {Frequency.FromHertz(at[0])} to {Frequency.FromHertz(at[^1])}")
            : Of(notes[0]);
    }

    /// <summary>A note.</summary>
    public static string Of(LevelNote note) => note switch
    {
        LevelNote.Measured n => n.At switch
        {
            LevelsAt.FeedlineEnd => "measured at the feedline's end",
            LevelsAt.Receiver => "measured at the receiver",
            _ => "measured",
        },
        LevelNote.Predicted n => "predicted: " + PathNoteWords.Of(n.Basis, n.Choice),
        LevelNote.NothingGiven => "unknown: neither level nor power is given; measure the level at the antenna",
        LevelNote.NoPowerInRegister => "unknown: the register gives no power; measure the level at the antenna",
        LevelNote.NotPredicted n => "unknown: " + n.Refused,
        LevelNote.OnPath n => PathNoteWords.Of(n.Remark),
        LevelNote.GroundNotCounted n =>
            "the ground between is not counted: " + (n.Problem ?? "their places are not known as coordinates"),
        LevelNote.NoFeedlineLoss => "no feedline loss was given, so none is counted",
        LevelNote.GainNotGiven n => $"the gain of {(n.Name is { } name ? "the antenna of " + name
            : n.End == PathEnd.Emitter ? "the emitter's antenna" : "the receiver's antenna")} was not given, so 0 dBi is counted",
        LevelNote.CrossedPolarisations n => FormattableString.Invariant(
            $"one antenna is vertical, the other horizontal: {n.LossDb} dB between them (typical)"),
        LevelNote.GainOutOfBand n => GainTaken(n, $"at {Frequency.FromHertz(n.AtHz)}"),
        LevelNote.ResponseHeld n =>
            $"the response of {Antenna(n.End)} is not stated at {MegahertzText.InWords(n.AtHz)} MHz: its outermost figure is held",
        LevelNote.ResponseNotRead n => $"the response of {Antenna(n.End)} in {n.File} could not be read: nothing is counted",
        LevelNote.ResponseNotMeasured n =>
            $"the response of {Antenna(n.End)} is not measured at {MegahertzText.InWords(n.AtHz)} MHz: nothing is counted",
        LevelNote.OutputFilterEnds n => $"output filter of {n.Emitter}: {MegahertzText.Of(n.AtHz, 4, 6)} MHz is outside its "
            + "sweep, so nothing is counted as attenuated there",
        LevelNote.PowerFromRadiated n => $"output power of {n.Emitter}: from its radiated power, antenna gain and feedline",
        LevelNote.FilterEnds n => $"outside the sweep of {n.Filter}: counted as not attenuated by it",
        LevelNote.HalfDuplex => "never on while this receiver listens (half_duplex): it takes part in nothing here",
        LevelNote.OfEmitter n => $"{n.Emitter}: {Of(n.Note)}",
        LevelNote.OfCoupling n => $"coupling from {n.From} to {n.At}: {Coupling(n.Note)}",
        LevelNote.OfRecord n => Record(n.Note),
        LevelNote.NoPolarisationInRegister =>
            "the register gives no polarisation: none is counted, where 20 dB may lie between crossed ones",
        LevelNote.RefractivityTaken n => FormattableString.Invariant($"a surface refractivity of {n.NUnits:0} N-units"),
        LevelNote.GradientTaken n => FormattableString.Invariant($"a refractivity that falls by {n.NUnitsPerKm:0} N-units per km"),
        LevelNote.HeightsTaken n => FormattableString.Invariant($"heights good to {n.SigmaM:0} m (one sigma): the file does not say"),
        LevelNote.VerticalTaken => "vertical polarisation",
        LevelNote.BareGround => "no clutter on the ground, and all of it inland unless a tile says sea",
        _ => throw new ArgumentOutOfRangeException(nameof(note), note.GetType().Name, "has no words"),
    };

    private static string GainTaken(LevelNote.GainOutOfBand n, string at) => FormattableString.Invariant(
        $"the receive antenna's gain at {Frequency.FromHertz(n.OwnHz)} is taken {at} too, one sigma {n.SigmaDb} dB more ")
            + "(antenna.response would tell)";

    private static string Antenna(PathEnd end) => end == PathEnd.Emitter ? "the emitter's antenna" : "the receive antenna";

    private static string Coupling(LevelNote note) => note switch
    {
        LevelNote.Predicted { Basis: PathBasis.OnOneStructure } n => PathNoteWords.Of(n.Basis, n.Choice) + ", by their heights",
        LevelNote.Predicted n => $"predicted, {PathNoteWords.Of(n.Basis, n.Choice)}, antennas' gains towards each other; "
            + "measure it where it decides",
        _ => Of(note),
    };

    private static string Record(RecordNotes note) => note switch
    {
        RecordNotes.FromErp => "EIRP from the ERP of the record, plus 2.15 dB",
        RecordNotes.FromPower => "EIRP from the transmitter's power and the antenna's gain in the record, taken as dBi",
        RecordNotes.GainAssumed =>
            "EIRP from the transmitter's power with a dipole's gain, 2.15 dBi: the record gives no gain and no losses",
        RecordNotes.PowerUnitAssumed => "the record gives no unit of its power: taken as dBW",
        RecordNotes.PowerKindAssumed => "the record does not say whether its power is ERP or EIRP: taken as ERP",
        RecordNotes.Temporary => "a temporary station: it may stand elsewhere or not at all",
        RecordNotes.Itinerant => "an itinerant station: it may stand elsewhere",
        RecordNotes.Nad27 => "the position is on NAD27 and was not converted: it may be 200 m off",
        RecordNotes.OtherDatum => "the position is on a datum that is not known here: it may be some 100 m off",
        RecordNotes.StatusUnknown => "the licence's status is a word that is not known here: taken as in force",
        RecordNotes.NoBeamwidth => "the antenna has a main direction without a beamwidth: counted as equal all round",
        RecordNotes.NoHeight => "the record gives no antenna height",
        _ => throw new ArgumentOutOfRangeException(nameof(note), note, "is not one note"),
    };
}
