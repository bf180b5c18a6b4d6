using System.Globalization;

namespace Spurless.Radio.Terrain;

/// <summary>
/// All that a prediction over the ground takes beside the profile. Heights in metres, frequency in hertz, shares in per cent.
/// Defaults of the atmosphere are those of a temperate climate and are said as assumed by whoever prints them.
/// </summary>
public sealed record TerrainConditions
{
    /// <summary>Default sea-level surface refractivity in N-units.</summary>
    public const double UsualRefractivity = 325;

    /// <summary>Default average lapse rate of refractivity over the lowest kilometre, in N-units per km.</summary>
    public const double UsualGradient = 45;

    /// <summary>Frequency in hertz; the model holds from 30 MHz to 6 GHz.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Height of the transmitting antenna over ground in metres; the model holds from 1 to 3,000.</summary>
    public required double TransmitterHeightM { get; init; }

    /// <summary>Height of the receiving antenna over ground in metres; the model holds from 1 to 3,000.</summary>
    public required double ReceiverHeightM { get; init; }

    /// <summary>Latitude of the middle of the path in degrees, -90 to 90.</summary>
    public required double LatitudeDegrees { get; init; }

    /// <summary>Share of the average year, in per cent, for which the loss is not exceeded: 1 to 50.</summary>
    public double TimePercent { get; init; } = 50;

    /// <summary>Share of the places, in per cent, at which the loss is not exceeded: 1 to 99.</summary>
    public double LocationPercent { get; init; } = 50;

    /// <summary>Sea-level surface refractivity in N-units, 200 to 500.</summary>
    public double Refractivity { get; init; } = UsualRefractivity;

    /// <summary>Lapse rate of refractivity in N-units per km, above 0 and up to 150.</summary>
    public double Gradient { get; init; } = UsualGradient;

    /// <summary>Distance over land from the transmitting antenna to the coast along the path, in metres.</summary>
    public double CoastFromTransmitterM { get; init; } = 500_000;

    /// <summary>Distance over land from the receiving antenna to the coast along the path, in metres.</summary>
    public double CoastFromReceiverM { get; init; } = 500_000;

    /// <summary>Polarisation.</summary>
    public Polarisation Polarisation { get; init; } = Polarisation.Vertical;

    /// <summary>Side of the square over which the places of <see cref="LocationPercent"/> are taken, in metres: 50 to 1,000.</summary>
    public double AreaM { get; init; } = 100;

    /// <summary>Height of the clutter round the receiving antenna in metres; decides how far the place matters.</summary>
    public double ReceiverClutterM { get; init; }

    /// <summary>What is impossible in itself, whatever the model's range: what was found; what to write instead. Null where nothing
    /// is.</summary>
    public string? Impossible()
    {
        static string? Outside(double value, double low, double high, string what, string unit) =>
            value >= low && value <= high ? null : string.Create(
                CultureInfo.InvariantCulture, $"{what} of {value:0.###}{unit} is out of range; write {low:0.###} to {high:0.###}{unit}");

        return Outside(FrequencyHz / 1e6, 0.001, 300_000, "the frequency", " MHz")
            ?? Outside(TransmitterHeightM, 0, 10_000, "the transmitting antenna's height", " m")
            ?? Outside(ReceiverHeightM, 0, 10_000, "the receiving antenna's height", " m")
            ?? Outside(LatitudeDegrees, -90, 90, "the latitude", " degrees")
            ?? Outside(TimePercent, 1, 50, "the share of time", " %")
            ?? Outside(LocationPercent, 1, 99, "the share of places", " %")
            ?? Outside(Refractivity, 200, 500, "the refractivity", " N-units")
            ?? Outside(Gradient, 1, 150, "the gradient of refractivity", " N-units/km")
            ?? Outside(CoastFromTransmitterM / 1000, 0, 20_000, "the distance to the coast", " km")
            ?? Outside(CoastFromReceiverM / 1000, 0, 20_000, "the distance to the coast", " km")
            ?? Outside(AreaM, 50, 1000, "the side of the area", " m")
            ?? Outside(ReceiverClutterM, 0, 200, "the clutter's height", " m");
    }
}
