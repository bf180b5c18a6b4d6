using Spurless.Register.Records;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Registers;

/// <summary>Which licensed transmitters stand round a site.</summary>
public sealed record NearQuestion
{
    /// <summary>How far is asked where nobody says: 10 km.</summary>
    public const double DefaultRadiusM = 10_000;

    /// <summary>The register's database.</summary>
    public required string Database { get; init; }

    /// <summary>How far to look, in metres, inclusive.</summary>
    public double RadiusM { get; init; } = DefaultRadiusM;

    /// <summary>The ground round the site; null to predict without it.</summary>
    public SiteTerrain? Terrain { get; init; }

    /// <summary>Circuits and sweeps that the site names, by path: the receive antenna's response may be one of them.</summary>
    public IReadOnlyDictionary<string, Network> Networks { get; init; } = new Dictionary<string, Network>();
}

/// <summary>One licensed transmitter near a site.</summary>
public sealed record NearEmitter
{
    /// <summary>What the register says.</summary>
    public required RegisterRecord Record { get; init; }

    /// <summary>Its name in a site file.</summary>
    public string Name => Record.Name;

    /// <summary>Distance on the WGS-84 ellipsoid in metres.</summary>
    public required double DistanceM { get; init; }

    /// <summary>Bearing from the site in degrees.</summary>
    public required double BearingDegrees { get; init; }

    /// <summary>Predicted level at the antenna connector of the site's first receiver in dBm; null where it is not known.</summary>
    public required double? LevelDbm { get; init; }

    /// <summary>One sigma of it in dB; null without a level.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>How the level was predicted, first, and what was assumed.</summary>
    public required IReadOnlyList<LevelNote> Assumed { get; init; }

    /// <summary>Whether the level is the most that it can be, because the ground between is not known.</summary>
    public bool IsMost { get; init; }

    /// <summary>Whether the site file has it already.</summary>
    public required bool InSite { get; init; }
}

/// <summary>The transmitters near a site, strongest first, those of unknown level last.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="Receiver">The receiver the levels are for.</param>
/// <param name="RadiusM">How far was looked.</param>
/// <param name="Emitters">The transmitters.</param>
public sealed record NearAnswer(string Site, string Receiver, double RadiusM, IReadOnlyList<NearEmitter> Emitters);

/// <summary>What was measured of a licensed transmitter.</summary>
/// <param name="LevelDbm">Its level at the antenna connector in dBm; null where it was only heard.</param>
/// <param name="SigmaDb">One sigma of it in dB.</param>
/// <param name="OnShare">Share of the time in which it was on.</param>
public sealed record MeasuredFigures(double? LevelDbm, double SigmaDb, double OnShare);
