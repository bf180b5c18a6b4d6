using System.Globalization;
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
    private readonly IReadOnlyList<string> _remarks;

    private TerrainPath(
        TerrainProfile profile, TerrainConditions conditions, double heightErrorM, bool chosen, IReadOnlyList<string> remarks)
    {
        ChosenBecause = chosen ? "the ground between is known" : null;
        _profile = profile;
        _conditions = conditions;
        _heightErrorM = heightErrorM;
        _remarks = remarks;
    }

    /// <inheritdoc/>
    public string Name => ModelName;

    /// <inheritdoc/>
    public string? ChosenBecause { get; }

    /// <summary>A path over a profile.</summary>
    /// <param name="profile">The ground from the transmitting to the receiving antenna.</param>
    /// <param name="conditions">Conditions; frequency and antenna heights are replaced by those of the geometry where it has them.</param>
    /// <param name="heightErrorM">One standard deviation of the profile's heights in metres.</param>
    /// <param name="chosen">Whether it was chosen because the ground is known, not named by the user.</param>
    /// <param name="remarks">What must be said of the profile, such as filled voids.</param>
    public static TerrainPath Over(
        TerrainProfile profile, TerrainConditions conditions, double heightErrorM, bool chosen, params IReadOnlyList<string> remarks) =>
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

        string how = string.Create(
            CultureInfo.InvariantCulture,
            $"over the ground (ITU-R P.1812), {_profile.LengthM / 1000:0.###} km, {prediction.How}: "
                + $"{loss - prediction.FreeSpaceDb:0.0} dB over free space");
        if (prediction.Parts is null)
        {
            how = string.Create(CultureInfo.InvariantCulture,
                $"over {_profile.LengthM / 1000:0.###} km of known ground, but {prediction.Remarks[0]}");
        }

        return PathResult.Basic(Name, how, geometry, loss, [.. _remarks, .. prediction.Remarks]) with { SigmaDb = prediction.SigmaDb };
    }
}
