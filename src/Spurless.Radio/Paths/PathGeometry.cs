namespace Spurless.Radio.Paths;

/// <summary>Two antennas and what lies between them. Lengths in metres, frequency in hertz, gains in dBi towards the other antenna.</summary>
public sealed record PathGeometry
{
    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Distance over the ground in metres; null where it is not known.</summary>
    public double? DistanceM { get; init; }

    /// <summary>Height of the transmitting antenna over ground in metres.</summary>
    public double? TransmitterHeightM { get; init; }

    /// <summary>Height of the receiving antenna over ground in metres.</summary>
    public double? ReceiverHeightM { get; init; }

    /// <summary>Gain of the transmitting antenna towards the receiver, in dBi.</summary>
    public double TransmitterGainDbi { get; init; }

    /// <summary>Gain of the receiving antenna towards the transmitter, in dBi.</summary>
    public double ReceiverGainDbi { get; init; }

    /// <summary>Largest dimension of either antenna in metres, where it is known: decides where the far field begins.</summary>
    public double? LargestAntennaM { get; init; }

    /// <summary>Wavelength in metres.</summary>
    public double WavelengthM => Noise.LevelConversion.SpeedOfLight / FrequencyHz;

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

        return null;
    }
}
