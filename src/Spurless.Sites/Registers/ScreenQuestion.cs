using Spurless.Sites.Terrain;

namespace Spurless.Sites.Registers;

/// <summary>Every receiver of a list, or of a register, against every transmitter of the register.</summary>
public sealed record ScreenQuestion
{
    /// <summary>The register's database.</summary>
    public required string Database { get; init; }

    /// <summary>A table of receivers; null for the receivers that the register has.</summary>
    public string? Receivers { get; init; }

    /// <summary>Orders of mixtures that are looked for.</summary>
    public IReadOnlyList<int> Orders { get; init; } = [2, 3, 5];

    /// <summary>Where the result goes: a <c>.csv</c> or <c>.geojson</c> file.</summary>
    public required string Out { get; init; }

    /// <summary>Transmitters further away are left out, in metres; null for none.</summary>
    public double? WithinM { get; init; }

    /// <summary>The ground between; null to count free space and plane earth alone.</summary>
    public SiteTerrain? Terrain { get; init; }

    /// <summary>Only these tiles, of <see cref="TileSize"/> receivers each, from 1, both inclusive; null for all.</summary>
    public (int First, int Last)? Tiles { get; init; }

    /// <summary>Threads; null for one per processor.</summary>
    public int? Threads { get; init; }

    /// <summary>Receivers in a tile.</summary>
    public int TileSize { get; init; } = 500;
}

/// <summary>How far a screening has come.</summary>
/// <param name="Doing">What is being done.</param>
/// <param name="Fraction">0 to 1.</param>
public readonly record struct ScreenProgress(string Doing, double Fraction);

/// <summary>What a screening did.</summary>
public sealed record ScreenAnswer
{
    /// <summary>Transmitters that took part.</summary>
    public required long Emitters { get; init; }

    /// <summary>Transmitters without a known power, which did not.</summary>
    public required long WithoutPower { get; init; }

    /// <summary>Receivers screened.</summary>
    public required long Receivers { get; init; }

    /// <summary>Receivers on which some mixture is harmful.</summary>
    public required long Harmed { get; init; }

    /// <summary>Receivers on which there are transmitters too near for any formula of paths.</summary>
    public required long WithUnknown { get; init; }

    /// <summary>Receivers whose counting was stopped.</summary>
    public required long Incomplete { get; init; }

    /// <summary>Tiles done now, and tiles that an earlier run had done.</summary>
    public required (int Done, int Before) Tiles { get; init; }

    /// <summary>What the ground did, in what was screened now; null without elevation files.</summary>
    public ScreenGroundSum? Ground { get; init; }

    /// <summary>What was assumed of receivers.</summary>
    public required IReadOnlyList<ScreenAssumption> Assumed { get; init; }
}

/// <summary>What a screening assumes of its receivers.</summary>
public abstract record ScreenAssumption
{
    private ScreenAssumption()
    {
    }

    /// <summary>What a receiver of a register is taken to be: no selectivity, an antenna without feedline.</summary>
    /// <param name="NoiseFigureDb">Its noise figure.</param>
    /// <param name="Iip3Dbm">Its third-order input intercept.</param>
    /// <param name="GainDbi">Its antenna's gain.</param>
    public sealed record OfRegister(double NoiseFigureDb, double Iip3Dbm, double GainDbi) : ScreenAssumption;

    /// <summary>An antenna's gain counts alike at all frequencies where its response is not stated; polarisation and tilt do not
    /// count.</summary>
    public sealed record GainAlike : ScreenAssumption;
}
