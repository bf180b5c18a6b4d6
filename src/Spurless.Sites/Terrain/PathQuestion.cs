using Spurless.Radio.Terrain;

namespace Spurless.Sites.Terrain;

/// <summary>What is asked of one path beside its ground. SI units; the atmosphere's figures are null where the usual ones are to be
/// assumed.</summary>
public sealed record PathQuestion
{
    /// <summary>Frequency in hertz.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Height of the transmitting antenna over ground in metres.</summary>
    public required double TransmitterHeightM { get; init; }

    /// <summary>Height of the receiving antenna over ground in metres.</summary>
    public required double ReceiverHeightM { get; init; }

    /// <summary>Latitude of the middle of the path in degrees.</summary>
    public required double LatitudeDegrees { get; init; }

    /// <summary>Share of time in per cent for which the loss is not exceeded.</summary>
    public double TimePercent { get; init; } = 50;

    /// <summary>Sea-level surface refractivity in N-units; null to assume the usual.</summary>
    public double? Refractivity { get; init; }

    /// <summary>Lapse rate of refractivity in N-units per km; null to assume the usual.</summary>
    public double? Gradient { get; init; }

    /// <summary>Distance over land to the coast from the transmitting antenna in metres; null where the sea is far.</summary>
    public double? CoastFromTransmitterM { get; init; }

    /// <summary>Distance over land to the coast from the receiving antenna in metres; null where the sea is far.</summary>
    public double? CoastFromReceiverM { get; init; }

    /// <summary>Direction of the electric field; null where nobody says it: of a site its antennas' own, else vertical.</summary>
    public Polarisation? Polarisation { get; init; }

    /// <summary>The conditions for the model, with the usual atmosphere where none was given.</summary>
    public TerrainConditions Conditions
    {
        get
        {
            TerrainConditions usual = new()
            {
                FrequencyHz = FrequencyHz,
                TransmitterHeightM = TransmitterHeightM,
                ReceiverHeightM = ReceiverHeightM,
                LatitudeDegrees = LatitudeDegrees,
                TimePercent = TimePercent,
                Polarisation = Polarisation ?? Radio.Terrain.Polarisation.Vertical,
            };
            return usual with
            {
                Refractivity = Refractivity ?? usual.Refractivity,
                Gradient = Gradient ?? usual.Gradient,
                CoastFromTransmitterM = CoastFromTransmitterM ?? usual.CoastFromTransmitterM,
                CoastFromReceiverM = CoastFromReceiverM ?? usual.CoastFromReceiverM,
            };
        }
    }
}
