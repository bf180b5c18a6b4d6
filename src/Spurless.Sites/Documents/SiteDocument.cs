using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;

namespace Spurless.Sites.Documents;

/// <summary>A site file as read and checked: every name that another entry refers to exists, every file that it names exists.</summary>
public sealed record SiteDocument
{
    /// <summary>The file's name as the user gave it.</summary>
    public required string File { get; init; }

    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>Where the site is, if that was stated.</summary>
    public PlaceEntry? Place { get; init; }

    /// <summary>At least one receiver, in the file's order; no two names (of receivers or emitters) are equal.</summary>
    public required IReadOnlyList<ReceiverEntry> Receivers { get; init; }

    /// <summary>The emitters in the file's order, then those of <see cref="EmittersFrom"/>; at most 5,000.</summary>
    public required IReadOnlyList<EmitterEntry> Emitters { get; init; }

    /// <summary>Groups of emitters' names of which no two are ever on the air together.</summary>
    public required IReadOnlyList<IReadOnlyList<string>> Exclusive { get; init; }

    /// <summary>How far to search.</summary>
    public required SearchEntry Search { get; init; }

    /// <summary>The table that holds more emitters.</summary>
    public FileReference? EmittersFrom { get; init; }

    /// <summary>The folder with elevation files.</summary>
    public FileReference? Terrain { get; init; }

    /// <summary>Whom to ask, in the user's words; null where not given.</summary>
    public string? Contact { get; init; }

    /// <summary>Free notes that the report carries; null where not given.</summary>
    public string? Notes { get; init; }

    /// <summary>What was heard on the channel, in the user's words.</summary>
    public IReadOnlyList<string> Heard { get; init; } = [];

    /// <summary>What was observed.</summary>
    public required IReadOnlyList<EvidenceEntry> Evidence { get; init; }

    /// <summary>
    /// Every kind of key that stands in the file or in the table of emitters, once each, in order of first appearance:
    /// <c>receivers.superhet</c>, <c>emitters.antenna.gain</c>, <c>evidence.offset.measured</c>.
    /// </summary>
    public required IReadOnlyList<string> KeysPresent { get; init; }

    /// <summary>All files that the site file names, in the file's order.</summary>
    public required IReadOnlyList<FileReference> Files { get; init; }

    /// <summary>Where everything stands in the site file itself.</summary>
    public required EntrySource Source { get; init; }
}

/// <summary>Where a site is.</summary>
/// <param name="Latitude">Degrees, north positive, -90 to 90.</param>
/// <param name="Longitude">Degrees, east positive, -180 to 180.</param>
/// <param name="Ground">Height of the ground over sea level, if stated.</param>
public sealed record PlaceEntry(double Latitude, double Longitude, Length? Ground);

/// <summary>A position on the map.</summary>
/// <param name="Latitude">Degrees, north positive, -90 to 90.</param>
/// <param name="Longitude">Degrees, east positive, -180 to 180.</param>
public sealed record PositionEntry(double Latitude, double Longitude);

/// <summary>How far to search for products.</summary>
/// <param name="LowestOrder">2 to 9; null where the default (2) stands.</param>
/// <param name="HighestOrder">2 to 9; null where the default (7) stands.</param>
/// <param name="Signals">How many emitters in one product, 1 to 9; null where the default (3) stands.</param>
/// <param name="Floor">Products under this level are left out; null where the default stands.</param>
/// <param name="NoFloor">Whether <c>floor: none</c> was written: nothing is left out.</param>
public sealed record SearchEntry(int? LowestOrder, int? HighestOrder, int? Signals, Level? Floor, bool NoFloor);

/// <summary>A file that a site file names.</summary>
/// <param name="Path">The path as written, relative to the site file.</param>
/// <param name="NamedIn">The file that names it.</param>
/// <param name="At">Where it is named.</param>
public sealed record FileReference(string Path, string NamedIn, YamlPosition At);

/// <summary>An antenna as far as it is known.</summary>
/// <param name="Gain">Gain in the direction of its maximum.</param>
/// <param name="Height">Height over the ground.</param>
/// <param name="Bearing">Direction of the maximum, degrees clockwise from north; null for all round or unknown.</param>
/// <param name="Beamwidth">Half-power width, degrees, over 0 to 360; null for all round or unknown.</param>
/// <param name="Mismatch">Magnitude of its reflection coefficient out of band, 0 to 1.</param>
public sealed record AntennaEntry(AntennaGain? Gain, Length? Height, double? Bearing, double? Beamwidth, double? Mismatch)
{
    /// <summary>Its gain over frequency, relative to that in its own band; null where not given.</summary>
    public AntennaResponseEntry? Response { get; init; }

    /// <summary>Its polarisation; null where not given.</summary>
    public Polarisation? Polarisation { get; init; }

    /// <summary>How far its main lobe points under the horizon, in degrees, negative upwards; null where not given.</summary>
    public double? Tilt { get; init; }

    /// <summary>Half-power width in the vertical, in degrees; null where not given.</summary>
    public double? VerticalBeamwidth { get; init; }
}

/// <summary>
/// An antenna's gain over frequency relative to that in its own band: points by ascending frequency, or a measured two-port.
/// </summary>
/// <param name="Points">In dB, negative for less gain; empty with a two-port.</param>
/// <param name="TwoPort">The measurement's file, or null.</param>
public sealed record AntennaResponseEntry(IReadOnlyList<DecibelsAt> Points, FileReference? TwoPort);
