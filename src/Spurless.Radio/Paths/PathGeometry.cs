using Spurless.Numerics;

namespace Spurless.Radio.Paths;

/// <summary>
/// Two antennas and what lies between them. Lengths in metres, frequency in hertz, gains in dBi towards the other antenna.
/// </summary>
public sealed record PathGeometry
{
    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Distance over the ground in metres; null where it is not known.</summary>
    public double? DistanceM { get; init; }

    /// <summary>Height of the transmitting antenna over the ground at its foot in metres.</summary>
    public double? TransmitterHeightM { get; init; }

    /// <summary>Height of the receiving antenna over the ground at its foot in metres.</summary>
    public double? ReceiverHeightM { get; init; }

    /// <summary>Height of the ground at the transmitting antenna's foot over sea level in metres; null where it is not known.</summary>
    public double? TransmitterGroundM { get; init; }

    /// <summary>Height of the ground at the receiving antenna's foot over sea level in metres; null where it is not known.</summary>
    public double? ReceiverGroundM { get; init; }

    /// <summary>Whether both heights and both grounds are known, so that one can say what the ground between reflects.</summary>
    public bool GroundIsKnown =>
        TransmitterHeightM > 0 && ReceiverHeightM > 0 && TransmitterGroundM is not null && ReceiverGroundM is not null;

    /// <summary>
    /// Heights of both antennas over the ground that reflects, in metres: over the lower of the two grounds where both are known, else as
    /// they stand over their own. Null where a height is not known.
    /// </summary>
    /// <remarks>The reflection lies near the lower antenna, so that it is the ground there that counts.</remarks>
    public (double Transmitter, double Receiver)? OverReflectingGround
    {
        get
        {
            if (this is not { TransmitterHeightM: { } h1, ReceiverHeightM: { } h2 })
            {
                return null;
            }

            if (this is not { TransmitterGroundM: { } g1, ReceiverGroundM: { } g2 })
            {
                return (h1, h2);
            }

            double lower = Math.Min(g1, g2);
            return (h1 + g1 - lower, h2 + g2 - lower);
        }
    }

    /// <summary>Gain of the transmitting antenna towards the receiver, in dBi.</summary>
    public double TransmitterGainDbi { get; init; }

    /// <summary>Gain of the receiving antenna towards the transmitter, in dBi.</summary>
    public double ReceiverGainDbi { get; init; }

    /// <summary>Largest dimension of either antenna in metres, where it is known: decides where the far field begins.</summary>
    public double? LargestAntennaM { get; init; }

    /// <summary>Wavelength in metres.</summary>
    public double WavelengthM => PhysicalConstants.SpeedOfLight / FrequencyHz;

    /// <summary>
    /// What makes the geometry impossible, as <c>what was found; what to write instead</c>; null where nothing does. Models ask first.
    /// </summary>
    internal string? Impossible()
    {
        if (!double.IsFinite(FrequencyHz) || FrequencyHz <= 0)
        {
            return "the frequency is not a number above 0; give the emitter's frequency";
        }

        if (!double.IsFinite(TransmitterGainDbi) || !double.IsFinite(ReceiverGainDbi))
        {
            return "an antenna's gain is not a finite number; give it like 6 dBd";
        }

        foreach ((double? value, string name) in new[]
        {
            (DistanceM, "distance"), (TransmitterHeightM, "transmitting antenna's height"), (ReceiverHeightM, "receiving antenna's height"),
        })
        {
            if (value is { } given && (!double.IsFinite(given) || given < 0))
            {
                return $"the {name} is not a number of 0 or more; give it like 30 m";
            }
        }

        foreach ((double? value, string name) in new[] { (TransmitterGroundM, "emitter's"), (ReceiverGroundM, "site's") })
        {
            if (value is { } given && !double.IsFinite(given))
            {
                return $"the {name} ground is not a finite number; give it like 410 m over sea level";
            }
        }

        return null;
    }
}
