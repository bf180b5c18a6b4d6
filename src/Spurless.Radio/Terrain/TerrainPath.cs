using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain;

/// <summary>
/// A path over known ground (<see cref="TerrainPrediction"/>), to be asked like any other path model. Antenna heights and frequency come
/// from the geometry, the distance from the profile.
/// </summary>
public sealed class TerrainPath : IPathModel
{
    /// <summary>The model's name in files and results.</summary>
    public const string ModelName = "terrain";

    private readonly TerrainProfile _profile;
    private readonly TerrainConditions _conditions;
    private readonly double _heightErrorM;
    private readonly IReadOnlyList<PathRemark> _remarks;

    private TerrainPath(
        TerrainProfile profile, TerrainConditions conditions, double heightErrorM, bool chosen, IReadOnlyList<PathRemark> remarks)
    {
        Choice = chosen ? PathChoice.GroundBetweenKnown : PathChoice.AsGiven;
        _profile = profile;
        _conditions = conditions;
        _heightErrorM = heightErrorM;
        _remarks = remarks;
    }

    /// <inheritdoc/>
    public string Name => ModelName;

    /// <inheritdoc/>
    public PathChoice Choice { get; }

    /// <summary>A path over a profile.</summary>
    /// <param name="profile">The ground from the transmitting to the receiving antenna.</param>
    /// <param name="conditions">Conditions; frequency and antenna heights are replaced by those of the geometry where it has them.</param>
    /// <param name="heightErrorM">One standard deviation of the profile's heights in metres.</param>
    /// <param name="chosen">Whether it was chosen because the ground is known, not named by the user.</param>
    /// <param name="remarks">What must be said of the profile, such as filled voids.</param>
    public static TerrainPath Over(
        TerrainProfile profile, TerrainConditions conditions, double heightErrorM, bool chosen, params IReadOnlyList<PathRemark> remarks) =>
        new(profile, conditions, heightErrorM, chosen, remarks);

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (geometry.Impossible() is { } impossible)
        {
            return PathResult.None(Name, impossible);
        }

        TerrainConditions conditions = _conditions with
        {
            FrequencyHz = geometry.FrequencyHz,
            TransmitterHeightM = geometry.TransmitterHeightM ?? _conditions.TransmitterHeightM,
            ReceiverHeightM = geometry.ReceiverHeightM ?? _conditions.ReceiverHeightM,
        };
        TerrainPrediction prediction = TerrainPrediction.Of(_profile, conditions, _heightErrorM);
        if (prediction.LossDb is not { } loss)
        {
            return PathResult.None(Name, prediction.Refused!);
        }

        PathBasis basis = prediction.Outside is { } outside
            ? new TerrainBasis.OutsideModel(_profile.LengthM, outside)
            : new TerrainBasis.OverGround(_profile.LengthM, prediction.Mechanism!.Value, loss - prediction.FreeSpaceDb!.Value);
        PathRemark[] remarks = prediction.Outside is { } remark ? [.. _remarks, remark] : [.. _remarks];
        return PathResult.Basic(Name, basis, geometry, loss, remarks) with { SigmaDb = prediction.SigmaDb };
    }
}
