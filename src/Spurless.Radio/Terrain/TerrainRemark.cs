using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain;

/// <summary>What must stand beside a loss over known ground.</summary>
public abstract record TerrainRemark : PathRemark
{
    /// <summary>The path lies outside ITU-R P.1812, and something simpler was taken.</summary>
    /// <param name="Excess">What lies outside.</param>
    /// <param name="Taken">What was taken.</param>
    /// <param name="EdgesLossDb">Loss of the edges in the way in dB; 0 unless they were taken.</param>
    public sealed record OutsideModel(RangeExcess Excess, SimplePath Taken, double EdgesLossDb) : TerrainRemark;

    /// <summary>Points without a height were filled from their neighbours.</summary>
    /// <param name="Filled">How many.</param>
    /// <param name="Points">Of how many.</param>
    /// <param name="LongestM">The longest stretch of them in metres.</param>
    /// <param name="EndFilled">Whether an antenna's foot is among them.</param>
    public sealed record VoidsFilled(int Filled, int Points, double LongestM, bool EndFilled) : TerrainRemark;

    /// <summary>A ground that was stated differs from the elevation file's, which was taken.</summary>
    /// <param name="OfSite">Whether the site's own place is meant; else the emitter's.</param>
    /// <param name="StatedM">As stated, over sea level in metres.</param>
    /// <param name="FileM">As in the elevation file.</param>
    public sealed record GroundDiffers(bool OfSite, double StatedM, double FileM) : TerrainRemark;
}

/// <summary>What is taken for the loss over known ground where ITU-R P.1812 does not hold.</summary>
public enum SimplePath
{
    /// <summary>Free space, the least it can lose.</summary>
    FreeSpace,

    /// <summary>Plane earth.</summary>
    PlaneEarth,

    /// <summary>Free space and the knife edges of what stands in the way (ITU-R P.526).</summary>
    Edges,
}

/// <summary>A value that ITU-R P.1812 has a range of.</summary>
public enum RangeFigure
{
    /// <summary>The frequency, in hertz: 30 MHz to 6 GHz.</summary>
    Frequency,

    /// <summary>The path's length, in metres: 250 m to 3,000 km.</summary>
    Length,

    /// <summary>The transmitting antenna's height over ground, in metres: 1 to 3,000.</summary>
    TransmitterHeight,

    /// <summary>The receiving antenna's height over ground, in metres: 1 to 3,000.</summary>
    ReceiverHeight,
}

/// <summary>A value outside the range of ITU-R P.1812.</summary>
/// <param name="Figure">Which.</param>
/// <param name="Value">The value, in hertz or metres.</param>
public readonly record struct RangeExcess(RangeFigure Figure, double Value);

/// <summary>What a loss over known ground rests on.</summary>
public abstract record TerrainBasis : PathBasis
{
    /// <summary>ITU-R P.1812.</summary>
    /// <param name="LengthM">The path's length in metres.</param>
    /// <param name="Mechanism">By which way most of the signal arrives.</param>
    /// <param name="OverFreeSpaceDb">Loss over free space in dB.</param>
    public sealed record OverGround(double LengthM, TerrainMechanism Mechanism, double OverFreeSpaceDb) : TerrainBasis;

    /// <summary>Known ground, but outside the range of the model.</summary>
    /// <param name="LengthM">The path's length in metres.</param>
    /// <param name="Remark">What lies outside and what was taken.</param>
    public sealed record OutsideModel(double LengthM, TerrainRemark.OutsideModel Remark) : TerrainBasis;
}
