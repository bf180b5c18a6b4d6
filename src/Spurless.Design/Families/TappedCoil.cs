using Spurless.Circuits.Parts;

namespace Spurless.Design.Families;

/// <summary>One coil with a tap, drawn as two inductors in series that couple: from its hot end to the tap, and from there on.</summary>
/// <param name="Upper">Name of the inductor from the hot end to the tap.</param>
/// <param name="Lower">Name of the inductor from the tap to the cold end.</param>
/// <param name="Coupling">Name of their coupling.</param>
internal sealed record TappedCoil(string Upper, string Lower, string Coupling)
{
    /// <summary>What the halves of a short coil couple by, to begin with; its winding says it later.</summary>
    public const double UsualCoupling = 0.4;

    /// <summary>The tapped coils of a circuit: couplings of two inductors of which the one goes on where the other ends.</summary>
    public static IReadOnlyList<TappedCoil> Of(Circuit circuit)
    {
        List<TappedCoil> all = [];
        foreach (Coupling m in circuit.Parts.OfType<Coupling>())
        {
            if (Find(circuit, m.First) is { } first && Find(circuit, m.Second) is { } second && first.To == second.From
                && first.To != Circuit.Ground)
            {
                all.Add(new(first.Name, second.Name, m.Name));
            }
        }

        return all;
    }

    /// <summary>Inductance of a whole coil whose parts couple: <c>La + Lb + 2 k sqrt(La Lb)</c>.</summary>
    public static double Whole(double upperH, double lowerH, double coupling) =>
        upperH + lowerH + (2 * coupling * Math.Sqrt(upperH * lowerH));

    /// <summary>
    /// The parts of a tapped coil that shows its hot end the admittance <c>G - j b</c> with a conductance g at its tap. With
    /// <c>r = sqrt(La/Lb)</c>, <c>p = w Lb g</c> and <c>Rs + j Xs = 1/(G - j b)</c> the two equations are
    /// <c>(1 + k r)^2 = g Rs (1 + p^2)/p^2</c> and <c>Rs/p + (p/g) (1 - k^2) r^2 = Xs</c> (worked out from the two mesh equations);
    /// with k = 1 it is the ideal autotransformer.
    /// </summary>
    /// <param name="conductance">G in siemens, above 0.</param>
    /// <param name="susceptance">b in siemens, above 0.</param>
    /// <param name="coupling">k, above 0 and below 1.</param>
    /// <param name="omega">Frequency in radians per second.</param>
    /// <param name="ohms">Resistance at the tap.</param>
    /// <returns>La and Lb in henries; null where no tap does it.</returns>
    public static (double UpperH, double LowerH)? Make(double conductance, double susceptance, double coupling, double omega, double ohms)
    {
        double square = (conductance * conductance) + (susceptance * susceptance), g = 1 / ohms;
        double real = conductance / square, imaginary = susceptance / square, share = g * real;
        if (!(share > 0) || share >= 1)
        {
            return null;
        }

        double Ratio(double p) => ((Math.Sqrt(share * (1 + (p * p))) / p) - 1) / coupling;
        double Over(double p) => (real / p) + (p / g * (1 - (coupling * coupling)) * Ratio(p) * Ratio(p)) - imaginary;

        // Both terms fall as p rises, up to where the tap is the whole coil.
        double low = 0, high = Math.Sqrt(share / (1 - share));
        if (Over(high) > 0)
        {
            return null;
        }

        for (int i = 0; i < 200 && high - low > 1e-15 * high; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Over(middle) > 0 ? (middle, high) : (low, middle);
        }

        double lower = high / (omega * g), ratio = Ratio(high);
        return ratio > 0 ? (ratio * ratio * lower, lower) : null;
    }

    private static Inductor? Find(Circuit circuit, string name) =>
        circuit.Parts.OfType<Inductor>().FirstOrDefault(l => l.Name == name);
}
