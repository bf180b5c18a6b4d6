namespace Spurless.Fit;

/// <summary>
/// How large an instrument's errors are beforehand, one sigma each. Residual terms are rms amplitudes of complex numbers.
/// </summary>
/// <remarks>Figures of common practice for a calibration with short, open, load and through; no standard states them.</remarks>
/// <param name="Gain">Gain of each S-parameter, real and imaginary part, as a ratio.</param>
/// <param name="GainDb">The same in dB where only magnitudes were measured.</param>
/// <param name="DelayS">Offset of a port's reference plane in seconds.</param>
/// <param name="Directivity">What a reflection shows with nothing reflected.</param>
/// <param name="SourceMatch">Reflection of the port that drives, as the circuit sees it.</param>
/// <param name="LoadMatch">Reflection of the port that listens.</param>
/// <param name="Tracking">What a gain changes over the sweep, as a ratio.</param>
internal sealed record InstrumentErrors(
    double Gain, double GainDb, double DelayS, double Directivity, double SourceMatch, double LoadMatch, double Tracking)
{
    /// <summary>Gains and planes alone: no analyser's, for checks against sweeps made so.</summary>
    public static InstrumentErrors PlanesOnly { get; } = new(0.05, 0.43, 100e-12, 0, 0, 0, 0);

    /// <summary>
    /// Delay of the reflection that a residual stands for, at most; decides how fast it turns over the sweep, in seconds.
    /// </summary>
    public const double MostDelayS = 1e-9;

    /// <summary>The errors of a calibration.</summary>
    public static InstrumentErrors Of(Calibration calibration) => calibration switch
    {
        Calibration.Good => new(0.02, 0.17, 50e-12, Amplitude(-46), Amplitude(-42), Amplitude(-42), 0.004),
        Calibration.Poor => new(0.10, 0.87, 200e-12, Amplitude(-30), Amplitude(-26), Amplitude(-24), 0.03),
        Calibration.None => new(0.25, 2, 500e-12, Amplitude(-20), Amplitude(-16), Amplitude(-16), 0.10),
        _ => new(0.05, 0.43, 100e-12, Amplitude(-38), Amplitude(-36), Amplitude(-36), 0.01),
    };

    private static double Amplitude(double decibels) => Math.Pow(10, decibels / 20);
}
