namespace Spurless.Fit;

/// <summary>How well the analyser of a sweep was calibrated: decides how much of what is measured may be the instrument's.</summary>
public enum Calibration
{
    /// <summary>Calibrated at the circuit's own connectors with a good kit: residual directivity about -46 dB, match -42 dB.</summary>
    Good,

    /// <summary>
    /// Calibrated at the ends of the cables with the kit of a cheap analyser: residual directivity about -38 dB, match -36 dB.
    /// </summary>
    Usual,

    /// <summary>An old calibration, or one through adapters that were not part of it: directivity about -30 dB, match -26 dB.</summary>
    Poor,

    /// <summary>Not calibrated beyond a through: directivity about -20 dB, match -16 dB.</summary>
    None,
}
