using Spurless.Circuits.Parts;
using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Circuits.Tolerance;

/// <summary>
/// How one parameter of a circuit spreads: its tolerance at a share of the distribution, and its temperature coefficient.
/// </summary>
internal readonly record struct Spread(int Parameter, double Nominal, ToleranceKind? Kind, double Low, double High, double PerKelvin)
{
    /// <summary>The spreads of all parts that have a tolerance or, over a range of temperature, a coefficient.</summary>
    public static List<Spread> Of(CircuitSolver solver, bool temperature)
    {
        List<Spread> spreads = [];
        for (int i = 0; i < solver.Parameters.Count; i++)
        {
            CircuitParameter p = solver.Parameters[i];
            Part part = solver.Circuit.Parts[p.PartIndex];
            double perKelvin = temperature ? part.PpmPerKelvin * 1e-6 : 0;
            if (!p.IsPartValue || p.Nominal.Value is not { } nominal || (part.Tolerance is null && perKelvin == 0))
            {
                continue;
            }

            (double low, double high) = part.Tolerance switch
            {
                null => (nominal, nominal),
                { Kind: ToleranceKind.Series, SeriesSize: int size } when nominal > 0 => ESeries.Bin(nominal, size),
                { Kind: ToleranceKind.Series } => (nominal, nominal),
                { Fraction: double f } => (nominal * (1 - f), nominal * (1 + f)),
            };
            spreads.Add(new(i, nominal, part.Tolerance?.Kind, low, high, perKelvin));
        }

        return spreads;
    }

    /// <summary>Standard deviation of the value, that of an even spread of temperature included.</summary>
    public double Sigma(double kelvins)
    {
        double tolerance = Kind == ToleranceKind.Normal ? (High - Low) / 4 : (High - Low) / Math.Sqrt(12);
        double drift = Nominal * PerKelvin * kelvins / Math.Sqrt(12);
        return Math.Sqrt((tolerance * tolerance) + (drift * drift));
    }

    /// <summary>The value at a share of its distribution.</summary>
    /// <param name="u">Share, above 0 and below 1.</param>
    /// <param name="kelvins">Temperature above the reference.</param>
    public double At(double u, double kelvins)
    {
        double value = Kind switch
        {
            null => Nominal,
            ToleranceKind.Normal => Nominal + ((High - Low) / 4 * NormalDistribution.Quantile(u)),
            _ => Low + ((High - Low) * u),
        };
        value *= 1 + (PerKelvin * kelvins);

        // A Gaussian of a great tolerance reaches past zero once in a great while; no part does.
        return Nominal > 0 ? Math.Max(value, Nominal * 1e-3) : Math.Min(value, Nominal * 1e-3);
    }
}
