namespace Spurless.Numerics;

/// <summary>Constants of nature in SI units.</summary>
public static class PhysicalConstants
{
    /// <summary>Speed of light in vacuum in metres a second, exact by the definition of the metre (SI).</summary>
    public const double SpeedOfLight = 299_792_458;

    /// <summary>Boltzmann's constant in joules per kelvin, exact by the definition of the kelvin (SI, 2019).</summary>
    public const double Boltzmann = 1.380649e-23;

    /// <summary>
    /// Permeability of vacuum in henries per metre: 4 pi 1e-7, exact until 2019 and since then right to 2e-10 of itself (CODATA 2018),
    /// far below anything a winding is measured to.
    /// </summary>
    public const double VacuumPermeability = 4e-7 * Math.PI;
}
