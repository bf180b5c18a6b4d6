using Spurless.Numerics;

namespace Spurless.Circuits.Coils;

/// <summary>A metal, by its resistivity at 20 degrees Celsius; not magnetic. Resistivities from memory.</summary>
/// <param name="Name">The metal's name.</param>
/// <param name="ResistivityOhmM">Resistivity in ohm metres, above 0.</param>
public sealed record Conductor(string Name, double ResistivityOhmM)
{
    /// <summary>Annealed copper of the international standard (100 % IACS).</summary>
    public static Conductor Copper { get; } = new("copper", 1.7241e-8);

    /// <summary>Silver, also for silver-plated copper.</summary>
    public static Conductor Silver { get; } = new("silver", 1.59e-8);

    /// <summary>Aluminium.</summary>
    public static Conductor Aluminium { get; } = new("aluminium", 2.65e-8);

    /// <summary>Brass, a usual alloy.</summary>
    public static Conductor Brass { get; } = new("brass", 6.4e-8);

    /// <summary>Skin depth.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>Metres: <c>sqrt(rho / (pi f mu0))</c>; copper at 146 MHz 5.47 um.</returns>
    public double SkinDepthM(double frequencyHz) =>
        Math.Sqrt(ResistivityOhmM / (Math.PI * frequencyHz * PhysicalConstants.VacuumPermeability));

    /// <summary>Surface resistance of a conductor much thicker than the skin depth.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>Ohms per square: resistivity over skin depth.</returns>
    public double SurfaceOhm(double frequencyHz) => ResistivityOhmM / SkinDepthM(frequencyHz);
}
