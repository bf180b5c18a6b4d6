using Spurless.Mixing.Causes;
using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Levels;

/// <summary>An end of a path, whose antenna is meant.</summary>
public enum PathEnd
{
    /// <summary>The emitter that arrives.</summary>
    Emitter,

    /// <summary>The receiver.</summary>
    Receiver,
}

/// <summary>How a level is known, or what it rests on without its having been stated. Equal where it says the same.</summary>
public abstract record LevelNote : CallersNote
{
    /// <summary>It was measured.</summary>
    /// <param name="At">Where.</param>
    public sealed record Measured(LevelsAt At) : LevelNote;

    /// <summary>It was predicted.</summary>
    /// <param name="Basis">What the prediction rests on.</param>
    /// <param name="Choice">Why that model was taken.</param>
    public sealed record Predicted(PathBasis Basis, PathChoice Choice) : LevelNote;

    /// <summary>It is not known: neither level nor power is given.</summary>
    public sealed record NothingGiven : LevelNote;

    /// <summary>It is not known: a register gives no power.</summary>
    public sealed record NoPowerInRegister : LevelNote;

    /// <summary>It is not known: no path model holds.</summary>
    /// <param name="Refused">Why, as the model refused it: what; what to give instead.</param>
    public sealed record NotPredicted(string Refused) : LevelNote;

    /// <summary>A remark of the path model.</summary>
    /// <param name="Remark">The remark.</param>
    public sealed record OnPath(PathRemark Remark) : LevelNote;

    /// <summary>The ground between is not counted.</summary>
    /// <param name="Problem">Why, as it was refused: what; what to do. Null where the places are not known as coordinates.</param>
    public sealed record GroundNotCounted(string? Problem) : LevelNote;

    /// <summary>No loss of the transmitter's feedline was given, so none is counted.</summary>
    public sealed record NoFeedlineLoss : LevelNote;

    /// <summary>An antenna's gain was not given, so 0 dBi is counted.</summary>
    /// <param name="End">At which end.</param>
    /// <param name="Name">The transmitter's name between two transmitters, else null.</param>
    public sealed record GainNotGiven(PathEnd End, string? Name = null) : LevelNote;

    /// <summary>One antenna is vertical, the other horizontal.</summary>
    /// <param name="LossDb">What was counted between them, in dB.</param>
    public sealed record CrossedPolarisations(double LossDb) : LevelNote;

    /// <summary>The receive antenna's gain in its own band was taken far from it too.</summary>
    /// <param name="OwnHz">Where it holds, in hertz.</param>
    /// <param name="AtHz">Where it was taken.</param>
    /// <param name="SigmaDb">What that adds to one sigma, in squares, in dB.</param>
    public sealed record GainOutOfBand(long OwnHz, long AtHz, double SigmaDb) : LevelNote;

    /// <summary>The outermost stated figure of an antenna's response was held.</summary>
    /// <param name="End">At which end.</param>
    /// <param name="AtHz">Where, in hertz.</param>
    public sealed record ResponseHeld(PathEnd End, long AtHz) : LevelNote;

    /// <summary>The sweep of an antenna's response could not be read.</summary>
    /// <param name="End">At which end.</param>
    /// <param name="File">Its file.</param>
    public sealed record ResponseNotRead(PathEnd End, string File) : LevelNote;

    /// <summary>An antenna's response was not measured where it is wanted.</summary>
    /// <param name="End">At which end.</param>
    /// <param name="AtHz">Where, in hertz.</param>
    public sealed record ResponseNotMeasured(PathEnd End, long AtHz) : LevelNote;

    /// <summary>A frequency lies outside the sweep of a transmitter's output filter: nothing is counted.</summary>
    /// <param name="Emitter">The transmitter.</param>
    /// <param name="AtHz">The frequency in hertz.</param>
    public sealed record OutputFilterEnds(string Emitter, long AtHz) : LevelNote;

    /// <summary>A transmitter's output power was taken from what it radiates.</summary>
    /// <param name="Emitter">The transmitter.</param>
    public sealed record PowerFromRadiated(string Emitter) : LevelNote;

    /// <summary>The carrier lies outside the sweep of a filter in line, and counts as not attenuated by it.</summary>
    /// <param name="Filter">The filter.</param>
    public sealed record FilterEnds(string Filter) : LevelNote;

    /// <summary>The carrier is never on while this receiver listens.</summary>
    public sealed record HalfDuplex : LevelNote;

    /// <summary>Something that concerns one of several carriers.</summary>
    /// <param name="Emitter">Which.</param>
    /// <param name="Note">What.</param>
    public sealed record OfEmitter(string Emitter, LevelNote Note) : LevelNote;

    /// <summary>Something that concerns the coupling between two transmitters.</summary>
    /// <param name="From">Whose signal arrives.</param>
    /// <param name="At">Where.</param>
    /// <param name="Note">What; <see cref="Predicted"/> for the coupling itself.</param>
    public sealed record OfCoupling(string From, string At, LevelNote Note) : LevelNote;

    /// <summary>A note of a register on a record.</summary>
    /// <param name="Note">One note.</param>
    public sealed record OfRecord(RecordNotes Note) : LevelNote;

    /// <summary>A register gives no polarisation; none is counted.</summary>
    public sealed record NoPolarisationInRegister : LevelNote;

    /// <summary>A surface refractivity was taken.</summary>
    /// <param name="NUnits">In N-units.</param>
    public sealed record RefractivityTaken(double NUnits) : LevelNote;

    /// <summary>A lapse rate of refractivity was taken.</summary>
    /// <param name="NUnitsPerKm">In N-units per km.</param>
    public sealed record GradientTaken(double NUnitsPerKm) : LevelNote;

    /// <summary>Heights of a profile were taken as good to so much, which its file does not say.</summary>
    /// <param name="SigmaM">One sigma in metres.</param>
    public sealed record HeightsTaken(double SigmaM) : LevelNote;

    /// <summary>Vertical polarisation was taken.</summary>
    public sealed record VerticalTaken : LevelNote;

    /// <summary>No clutter stands on the ground, and all of it is inland unless a tile says sea.</summary>
    public sealed record BareGround : LevelNote;
}
