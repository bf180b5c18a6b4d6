namespace Spurless.Radio.Terrain;

/// <summary>
/// How far the level varies from place to place (ITU-R P.1812-5 and later, section on location variability, from memory: no reference
/// figure at hand exercises it).
/// </summary>
public static class LocationVariability
{
    /// <summary>One standard deviation.</summary>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="areaM">Side of the square over which places are taken, in metres: 50 to 1,000.</param>
    /// <param name="heightM">Height of the receiving antenna over ground in metres.</param>
    /// <param name="clutterM">Height of the clutter round it in metres.</param>
    /// <returns>
    /// (0.024 f/GHz + 0.52) w^0.28 dB up to the clutter's height, falling in a straight line to 0 from 10 m over it. 1.90 dB at 145 MHz in
    /// 100 m.
    /// </returns>
    public static double SigmaDb(double frequencyHz, double areaM, double heightM, double clutterM)
    {
        double share = Math.Clamp(1 - (heightM - clutterM) / 10, 0, 1);
        return (0.024 * (frequencyHz / 1e9) + 0.52) * Math.Pow(areaM, 0.28) * share;
    }
}
