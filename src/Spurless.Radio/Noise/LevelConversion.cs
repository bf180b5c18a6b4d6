using Spurless.Numerics;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Noise;

/// <summary>Levels, voltages, powers and field strengths turned into each other. 50 ohm throughout; voltages are rms.</summary>
public static class LevelConversion
{
    /// <summary>Level of a voltage across 50 ohm.</summary>
    /// <param name="microvolts">Voltage in microvolts rms across 50 ohm (pd), above 0.</param>
    /// <returns>Level in dBm: 20 lg(U) - 106.99.</returns>
    public static double DbmFromMicrovoltsPd(double microvolts) =>
        20 * Math.Log10(QuantityText.AboveZero(microvolts, nameof(microvolts)) * 1e-6) + LevelText.VoltAcross50OhmDbm;

    /// <summary>Level of an open-circuit voltage behind 50 ohm into a matched load.</summary>
    /// <param name="microvolts">Voltage in microvolts rms, emf, above 0.</param>
    /// <returns>Level in dBm, 6.02 dB under that of the same voltage as pd.</returns>
    public static double DbmFromMicrovoltsEmf(double microvolts) => DbmFromMicrovoltsPd(microvolts) - LevelText.EmfOverPdDb;

    /// <summary>Voltage across 50 ohm.</summary>
    /// <param name="dbm">Level in dBm.</param>
    /// <returns>Microvolts rms, pd. 0 dBm is 223,607 uV.</returns>
    public static double MicrovoltsPd(double dbm) => 1e6 * Math.Pow(10, (dbm - LevelText.VoltAcross50OhmDbm) / 20);

    /// <summary>Open-circuit voltage of a 50 ohm source.</summary>
    /// <param name="dbm">Level into a matched load in dBm.</param>
    /// <returns>Microvolts rms, emf.</returns>
    public static double MicrovoltsEmf(double dbm) => 2 * MicrovoltsPd(dbm);

    /// <summary>Level of a power.</summary>
    /// <param name="watts">Power in watts, above 0.</param>
    /// <returns>Level in dBm.</returns>
    public static double DbmFromWatts(double watts) => 10 * Math.Log10(QuantityText.AboveZero(watts, nameof(watts))) + 30;

    /// <summary>Power of a level.</summary>
    /// <param name="dbm">Level in dBm.</param>
    /// <returns>Watts.</returns>
    public static double Watts(double dbm) => Math.Pow(10, (dbm - 30) / 10);

    /// <summary>Field strength in which a lossless isotropic antenna delivers a level into a matched load.</summary>
    /// <param name="dbm">Level in dBm.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>dB over 1 uV/m rms.</returns>
    /// <remarks>
    /// E = P + 20 lg f_MHz + 77.216, from P = E^2 / Z0 x lambda^2 / (4 pi) with Z0 = mu0 c = 376.730 ohm (77.219 with the rounded 120 pi
    /// ohm). 3GPP 05.05 clause 5 has 77.2 (seen).
    /// </remarks>
    public static double FieldStrengthDbuvPerMetre(double dbm, double frequencyHz)
    {
        double lambda = PhysicalConstants.SpeedOfLight / QuantityText.AboveZero(frequencyHz, nameof(frequencyHz));
        double vacuumOhm = PhysicalConstants.VacuumPermeability * PhysicalConstants.SpeedOfLight;
        return dbm - 30 + 10 * Math.Log10(vacuumOhm * 4 * Math.PI / (lambda * lambda)) + 120;
    }
}
