using Spurless.Radio.Emissions;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>An emitter of a site file. What is null was not written.</summary>
public sealed record EmitterEntry
{
    /// <summary>Its name, unlike every other receiver's and emitter's.</summary>
    public required string Name { get; init; }

    /// <summary>The carrier, above 0.</summary>
    public required Frequency Frequency { get; init; }

    /// <summary>The emission designator; exactly one of this and <see cref="Bandwidth"/> is given.</summary>
    public Emission? Emission { get; init; }

    /// <summary>
    /// The occupied bandwidth, 0 or more (0: an unmodulated carrier); exactly one of this and <see cref="Emission"/> is given.
    /// </summary>
    public Frequency? Bandwidth { get; init; }

    /// <summary>The occupied bandwidth in hertz, from whichever was given.</summary>
    public long BandwidthHz => Emission?.BandwidthHz ?? Bandwidth?.Hertz ?? 0;

    /// <summary>Level measured, the same for all receivers.</summary>
    public Level? Level { get; init; }

    /// <summary>Levels measured, by receiver's name; empty with <see cref="Level"/> or without any.</summary>
    public required IReadOnlyDictionary<string, Level> LevelPerReceiver { get; init; }

    /// <summary>How far its carrier was measured off its nominal frequency, up positive; null where not given.</summary>
    public Frequency? Offset { get; init; }

    /// <summary>Fraction of time on the air; null where not given.</summary>
    public Fraction? Activity { get; init; }

    /// <summary>Transmitter output power; at most one of this, <see cref="Erp"/> and <see cref="Eirp"/> is given.</summary>
    public Power? Power { get; init; }

    /// <summary>Power radiated relative to a half-wave dipole.</summary>
    public Power? Erp { get; init; }

    /// <summary>Power radiated relative to an isotropic antenna.</summary>
    public Power? Eirp { get; init; }

    /// <summary>Loss of its feedline, 0 or more.</summary>
    public Decibels? Feedline { get; init; }

    /// <summary>Its antenna.</summary>
    public AntennaEntry? Antenna { get; init; }

    /// <summary>Its position; not together with <see cref="Distance"/>.</summary>
    public PositionEntry? At { get; init; }

    /// <summary>Distance from the site, above 0; not together with <see cref="At"/>.</summary>
    public Length? Distance { get; init; }

    /// <summary>Direction from the site with <see cref="Distance"/>, degrees clockwise from north.</summary>
    public double? Bearing { get; init; }

    /// <summary>Which path model to use; null for the choice by geometry.</summary>
    public PathEntry? Path { get; init; }

    /// <summary>Isolation of the isolator behind the transmitter, 0 or more.</summary>
    public IsolatorEntry? Isolator { get; init; }

    /// <summary>Measurement of the filter behind the transmitter.</summary>
    public FileReference? OutputFilter { get; init; }

    /// <summary>Loss from a carrier that comes in at its output to the product that leaves it.</summary>
    public TurnRoundLossEntry? TurnRoundLoss { get; init; }

    /// <summary>Measured coupling loss, 0 or more, from the output of the emitter of that name to this one's.</summary>
    public required IReadOnlyDictionary<string, Decibels> Coupling { get; init; }

    /// <summary>
    /// The same as <see cref="Coupling"/> said from the other end: from this emitter's output to that of the emitter of that name. Of those
    /// in one file <see cref="Coupling"/> has it too; a newcomer's file says so what arrives at the site's transmitters.
    /// </summary>
    public IReadOnlyDictionary<string, Decibels> CouplingTo { get; init; } = new Dictionary<string, Decibels>();

    /// <summary>Sideband noise by ascending offset; empty where not given.</summary>
    public required IReadOnlyList<NoiseDensityAt> Noise { get; init; }

    /// <summary>Harmonics relative to the carrier by ascending order, 2 or more; empty where not given.</summary>
    public required IReadOnlyList<CarrierRatioAtOrder> Harmonics { get; init; }

    /// <summary>One sigma of its level, 0 or more.</summary>
    public Decibels? Uncertainty { get; init; }

    /// <summary>Height of the ground at its antenna's foot over sea level.</summary>
    public Length? Ground { get; init; }

    /// <summary>Whether its envelope is like noise (many carriers, scrambled wide data).</summary>
    public bool NoiseLike { get; init; }

    /// <summary>Name of the receiver that keys this transmitter: on whenever that receiver hears something.</summary>
    public string? Follows { get; init; }

    /// <summary>
    /// Name of the receiver that never hears while this transmitter is on: a station that does not receive while it transmits.
    /// </summary>
    public string? HalfDuplex { get; init; }

    /// <summary>Where it stands in the file.</summary>
    public required EntrySource Source { get; init; }

    /// <summary>The measured level for a receiver; null where none was given.</summary>
    public Level? LevelAt(string receiver) => Level ?? (LevelPerReceiver.TryGetValue(receiver, out Level level) ? level : null);
}

/// <summary>A path model.</summary>
public enum PathModel
{
    /// <summary>Free space (ITU-R P.525).</summary>
    FreeSpace,

    /// <summary>Over plane ground, with the reflected ray.</summary>
    PlaneEarth,

    /// <summary>Okumura and Hata's formula, in a town.</summary>
    HataUrban,

    /// <summary>Okumura and Hata's formula, in a suburb.</summary>
    HataSuburban,

    /// <summary>Okumura and Hata's formula, in open country.</summary>
    HataOpen,

    /// <summary>Between two antennas of one tower or roof.</summary>
    SameStructure,

    /// <summary>Over one obstacle (ITU-R P.526).</summary>
    Obstacle,

    /// <summary>Over the ground of the elevation files.</summary>
    Terrain,
}

/// <summary>The path that was asked for.</summary>
/// <param name="Model">The model.</param>
/// <param name="Vertical">Vertical distance of the antennas, 0 or more, with <see cref="PathModel.SameStructure"/> only.</param>
/// <param name="Horizontal">Horizontal distance of the antennas, 0 or more, with <see cref="PathModel.SameStructure"/> only.</param>
public sealed record PathEntry(PathModel Model, Length? Vertical, Length? Horizontal)
{
    /// <summary>
    /// Height of the obstacle's top over the straight line between the antennas, negative under it, with <see cref="PathModel.Obstacle"/>
    /// only.
    /// </summary>
    public Length? ObstacleHeight { get; init; }

    /// <summary>Distance of the obstacle from the emitter, above 0, with <see cref="PathModel.Obstacle"/> only.</summary>
    public Length? ObstacleDistance { get; init; }
}

/// <summary>An isolator: one figure for every frequency, or points by ascending frequency.</summary>
/// <param name="Everywhere">One figure; null with points.</param>
/// <param name="Points">Points; empty with one figure.</param>
public sealed record IsolatorEntry(Decibels? Everywhere, IReadOnlyList<DecibelsAt> Points);

/// <summary>A turn-round loss: one figure for every order, or points by ascending order, of which the nearest lower holds.</summary>
/// <param name="EveryOrder">One figure; null with points.</param>
/// <param name="Points">Points; empty with one figure.</param>
public sealed record TurnRoundLossEntry(Decibels? EveryOrder, IReadOnlyList<DecibelsAtOrder> Points);
