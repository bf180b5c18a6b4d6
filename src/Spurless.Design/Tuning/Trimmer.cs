namespace Spurless.Design.Tuning;

/// <summary>A part that is adjusted after the filter is built.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="IsCapacitor">Whether it is a capacitor, to be made of a fixed one and a trimmer; else a coil or line whose length is
/// adjusted.</param>
/// <param name="Nominal">Its value as drawn, in SI units.</param>
/// <param name="Low">Least value that the tuned specimens needed, in SI units.</param>
/// <param name="High">Greatest.</param>
public sealed record Trimmer(string Part, bool IsCapacitor, double Nominal, double Low, double High)
{
    private static readonly (double Least, double Most)[] _trimmers =
        [(0.5e-12, 2e-12), (1e-12, 4e-12), (1.5e-12, 6e-12), (2e-12, 10e-12), (3e-12, 15e-12), (4e-12, 20e-12), (5e-12, 30e-12),
            (7e-12, 40e-12), (10e-12, 60e-12), (15e-12, 100e-12)];

    /// <summary>What to take for a capacitor: a trimmer of a usual range and what stands fixed beside it (0 for none), in farads; null
    /// where no trimmer spans it.</summary>
    public (double FixedF, double TrimmerLowF, double TrimmerHighF)? Take(int? series)
    {
        if (!IsCapacitor)
        {
            return null;
        }

        double margin = 0.1 * (High - Low), low = Math.Max(0, Low - margin), high = High + margin;
        foreach ((double least, double most) in _trimmers)
        {
            if (most - least < high - low)
            {
                continue;
            }

            if (least <= low && most >= high)
            {
                return (0, least, most);
            }

            // The fixed one so that the needed range stands in the middle of the trimmer's.
            double middle = ((low + high) / 2) - ((least + most) / 2);
            double fixedF = middle <= 0 ? 0 : Circuits.Series.ESeries.Nearest(middle, series ?? 24);
            if (fixedF + least <= low && fixedF + most >= high)
            {
                return (fixedF, least, most);
            }
        }

        return null;
    }
}
