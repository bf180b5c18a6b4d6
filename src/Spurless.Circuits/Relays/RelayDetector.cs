namespace Spurless.Circuits.Relays;

/// <summary>How the tapped radio frequency is rectified.</summary>
public enum Rectifier
{
    /// <summary>A resistive return to ground and one diode into the smoothing capacitor.</summary>
    Single,

    /// <summary>A diode from ground and one into the smoothing capacitor.</summary>
    Doubler,
}

/// <summary>A detector at a tap of a line: a capacitor from the line, then the rectifier.</summary>
public sealed record RelayDetector
{
    /// <summary>Return of <see cref="Rectifier.Single"/> to ground, in ohms.</summary>
    public const double ReturnOhm = 1000;

    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Capacitor from the line, in farads, above 0.</summary>
    public required double TapF { get; init; }

    /// <summary>How it is rectified.</summary>
    public required Rectifier Rectifier { get; init; }

    /// <summary>The diode, or each of the two.</summary>
    public required Diode Diode { get; init; }

    /// <summary>Junctions at the detector's node in farads: one, or two.</summary>
    public double StrayF => (Rectifier == Rectifier.Doubler ? 2 : 1) * Diode.JunctionF;

    /// <summary>Amplitude at the detector's node over that on the line while no diode conducts.</summary>
    public double Share
    {
        get
        {
            double whole = TapF + StrayF;
            double turns = 2 * Math.PI * FrequencyHz * whole * ReturnOhm;
            double divided = TapF / whole;
            return Rectifier == Rectifier.Doubler ? divided : divided * turns / Math.Sqrt(1 + (turns * turns));
        }
    }

    /// <summary>Smoothing voltage over the line's amplitude where diodes had no drop and nothing loaded it.</summary>
    public double OpenShare => Rectifier == Rectifier.Doubler ? 2 * Share : Share;
}
