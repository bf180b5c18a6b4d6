using System.Globalization;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain;

/// <summary>
/// The loss over a profile by the model that holds there: ITU-R P.1812 in its range; outside it free space or plane earth where nothing
/// stands in the way, free space with the edges of P.526 where something does; nothing beyond 3,000 km. What was taken is said.
/// </summary>
public sealed record TerrainPrediction
{
    /// <summary>One standard deviation, in dB, where no model of the ground holds (common practice).</summary>
    private const double SimpleSigmaDb = 10;

    private TerrainPrediction()
    {
    }

    /// <summary>Basic transmission loss in dB; null where it was refused.</summary>
    public double? LossDb { get; private init; }

    /// <summary>One standard deviation in dB; null where it was refused.</summary>
    public double? SigmaDb { get; private init; }

    /// <summary>What the standard deviation is made of; null outside the range of P.1812.</summary>
    public TerrainSigma? Sigma { get; private init; }

    /// <summary>The parts of P.1812; null outside its range.</summary>
    public TerrainLoss? Parts { get; private init; }

    /// <summary>Free space along the path in dB; null where it was refused.</summary>
    public double? FreeSpaceDb { get; private init; }

    /// <summary>By which way most of the signal arrives; null where it was refused.</summary>
    public TerrainMechanism? Mechanism { get; private init; }

    /// <summary>What lies in the way; null where it was refused.</summary>
    public SightLine? Sight { get; private init; }

    /// <summary>What stands outside the range of P.1812, and what was taken; null inside it and where it was refused.</summary>
    public TerrainRemark.OutsideModel? Outside { get; private init; }

    /// <summary>Why there is no prediction; null where there is one.</summary>
    public string? Refused { get; private init; }

    /// <summary>Predicts.</summary>
    /// <param name="profile">The ground.</param>
    /// <param name="conditions">The conditions.</param>
    /// <param name="heightErrorM">One standard deviation of the profile's heights in metres.</param>
    public static TerrainPrediction Of(TerrainProfile profile, TerrainConditions conditions, double heightErrorM)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(conditions);
        if (conditions.Impossible() is { } impossible)
        {
            return new TerrainPrediction { Refused = impossible };
        }

        if (profile.LengthM > PathSpecificModel.LongestM)
        {
            return new TerrainPrediction
            {
                Refused = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{profile.LengthM / 1000:0.###} km is outside ITU-R P.1812, which holds from 0.25 to 3,000 km; "
                        + $"no path so long is predicted, measure the level"),
            };
        }

        if (PathSpecificModel.OutsideRange(profile.LengthM, conditions) is { } outside)
        {
            return Simple(profile, conditions, outside);
        }

        TerrainLoss loss = PathSpecificModel.Predict(profile, conditions);
        TerrainSigma sigma = TerrainSigma.Of(profile, conditions, loss, heightErrorM);
        return new TerrainPrediction
        {
            LossDb = loss.BasicLossDb,
            SigmaDb = sigma.TotalDb,
            Sigma = sigma,
            Parts = loss,
            FreeSpaceDb = loss.FreeSpaceDb,
            Mechanism = loss.Mechanism,
            Sight = Look(profile, conditions, loss.MedianRadiusKm),
        };
    }

    private static SightLine Look(TerrainProfile profile, TerrainConditions conditions, double radiusKm) =>
        SightLine.Of(profile, conditions.TransmitterHeightM, conditions.ReceiverHeightM, conditions.FrequencyHz, radiusKm);

    private static TerrainPrediction Simple(TerrainProfile profile, TerrainConditions conditions, RangeExcess outside)
    {
        double rise = profile.GroundM[0] + conditions.TransmitterHeightM - profile.GroundM[^1] - conditions.ReceiverHeightM;
        double straight = Math.Sqrt(profile.LengthM * profile.LengthM + rise * rise);
        PathGeometry geometry = new()
        {
            FrequencyHz = conditions.FrequencyHz,
            DistanceM = straight,
            TransmitterHeightM = conditions.TransmitterHeightM,
            ReceiverHeightM = conditions.ReceiverHeightM,
            TransmitterGroundM = profile.GroundM[0],
            ReceiverGroundM = profile.GroundM[^1],
        };
        PathResult free = FreeSpace.Model.Predict(geometry);
        if (free.Refused is { } refused)
        {
            return new TerrainPrediction { Refused = refused };
        }

        SightLine sight = Look(profile, conditions, PathClimate.EarthRadiusKm * 157 / (157 - conditions.Gradient));
        PathResult clear = PathModels.Predict(null, geometry);
        double overGround = clear.Model == PlaneEarth.Model.Name ? clear.BasicLossDb!.Value - free.BasicLossDb!.Value : 0;

        // Level ground in the Fresnel zone is a mirror, not an edge: whichever takes more, as long as the line itself is free.
        double edges = sight.IsFresnelClear || (sight.IsClear && overGround >= sight.EdgesLossDb) ? 0 : sight.EdgesLossDb;
        bool plane = edges == 0 && overGround > 0;
        return new TerrainPrediction
        {
            LossDb = (plane ? clear.BasicLossDb : free.BasicLossDb) + edges,
            SigmaDb = SimpleSigmaDb,
            FreeSpaceDb = free.BasicLossDb,
            Mechanism = edges > 0 ? TerrainMechanism.Diffraction : plane ? TerrainMechanism.PlaneEarth : TerrainMechanism.FreeSpace,
            Sight = sight,
            Outside = new TerrainRemark.OutsideModel(
                outside, edges > 0 ? SimplePath.Edges : plane ? SimplePath.PlaneEarth : SimplePath.FreeSpace, edges),
        };
    }
}
