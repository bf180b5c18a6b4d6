using Spurless.Numerics;

namespace Spurless.Circuits.Coils;

/// <summary>Inductance of single-layer air coils of round wire.</summary>
public static class CoilInductance
{
    private const double Mu0 = PhysicalConstants.VacuumPermeability;

    /// <summary>Inductance of the winding, without its leads.</summary>
    /// <param name="turns">Turns, at least 1.</param>
    /// <param name="diameterM">Diameter centre to centre of the wire in metres.</param>
    /// <param name="lengthM">Turns times pitch, in metres.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <returns>Inductance in henries.</returns>
    /// <remarks>
    /// Current sheet <see cref="SheetHenries"/> less Rosa's correction for round wire, <c>mu0 r N (ks + km)</c> with <c>ks = 5/4 - ln(2 p /
    /// d)</c> and km by Grover's closed form (all from memory; held by tests to the check values computed from strip mean distances, within
    /// 1e-3).
    /// </remarks>
    public static double Henries(double turns, double diameterM, double lengthM, double wireM)
    {
        double pitch = lengthM / turns;
        double shape = 1.25 - Math.Log(2 * pitch / wireM);
        return SheetHenries(turns, diameterM, lengthM) - (Mu0 * (diameterM / 2) * turns * (shape + Mutual(turns)));
    }

    /// <summary>Inductance of the equivalent current sheet.</summary>
    /// <param name="turns">Turns, above 0.</param>
    /// <param name="diameterM">Diameter of the sheet in metres.</param>
    /// <param name="lengthM">Length of the sheet in metres.</param>
    /// <returns>Inductance in henries: <c>K mu0 pi D^2 N^2 / (4 l)</c>, K by Lundin's 1985 handbook formula (from memory), which agrees
    /// with the exact elliptic form to 3e-6.</returns>
    public static double SheetHenries(double turns, double diameterM, double lengthM) =>
        Nagaoka(diameterM / lengthM) * Mu0 * Math.PI * diameterM * diameterM * turns * turns / (4 * lengthM);

    /// <summary>Nagaoka's coefficient.</summary>
    /// <param name="u">Diameter over length, above 0.</param>
    /// <returns>The factor by which a short coil falls behind an infinitely long one, 0 to 1.</returns>
    public static double Nagaoka(double u)
    {
        if (u <= 1)
        {
            return F1(u * u) - (4 * u / (3 * Math.PI));
        }

        double x = 1 / (u * u);
        return 2 / (Math.PI * u) * (((Math.Log(4 * u) - 0.5) * F1(x)) + F2(x));
    }

    /// <summary>Inductance of both leads as straight round wires.</summary>
    /// <param name="leadM">Length of each lead in metres; 0 for none.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <returns>Inductance in henries; never negative. <c>2 mu0/(2 pi) l (ln(4 l / d) - 1)</c>, high-frequency form, mutual inductance of
    /// the leads neglected (formula from memory).</returns>
    public static double LeadHenries(double leadM, double wireM) =>
        leadM <= 0 ? 0 : Math.Max(0, 2 * Mu0 / (2 * Math.PI) * leadM * (Math.Log(4 * leadM / wireM) - 1));

    // Grover's series for the mutual part of Rosa's correction.
    private static double Mutual(double n) => n <= 1 ? 0 :
        (Math.Log(2 * Math.PI) - 1.5) - (Math.Log(n) / (6 * n)) - (0.33084236 / n) - (1 / (120 * n * n * n)) + (1 / (504 * Math.Pow(n, 5)));

    private static double F1(double x) => (1 + (0.383901 * x) + (0.017108 * x * x)) / (1 + (0.258952 * x));

    private static double F2(double x) => (0.093842 * x) + (0.002029 * x * x) - (0.000801 * x * x * x);
}
