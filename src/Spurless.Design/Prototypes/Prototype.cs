namespace Spurless.Design.Prototypes;

/// <summary>
/// A low-pass prototype: element values g0 (source) to g(n+1) (load) at the edge 1 rad/s. Butterworth at its 3.01 dB edge, Chebyshev at the
/// edge of its ripple.
/// </summary>
/// <remarks>
/// Closed forms as in Matthaei, Young, Jones, 'Microwave Filters, Impedance-Matching Networks, and Coupling Structures', section 4.05 (from
/// memory;
/// held by tests to a public table without its misprints). A doubly terminated lossless ladder; of an even Chebyshev the load is not that
/// of the source.
/// </remarks>
public sealed class Prototype
{
    private readonly double[] _g;

    private Prototype(double[] g, double? rippleDb) => (_g, RippleDb) = (g, rippleDb);

    /// <summary>A prototype of other element values, with the response of Butterworth or of a ripple.</summary>
    internal static Prototype Of(double[] g, double? rippleDb) => new(g, rippleDb);

    /// <summary>Number of resonators.</summary>
    public int Order => _g.Length - 2;

    /// <summary>Ripple in dB; null for Butterworth.</summary>
    public double? RippleDb { get; }

    /// <summary>Element value, 0 for the source to n + 1 for the load.</summary>
    public double G(int i) => _g[i];

    /// <summary>Sum of g1 to gn: what decides the loss by dissipation.</summary>
    public double Sum => _g.AsSpan(1, Order).ToArray().Sum();

    /// <summary>Butterworth's.</summary>
    /// <param name="order">Number of elements, at least 1.</param>
    public static Prototype Butterworth(int order)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 1);
        double[] g = new double[order + 2];
        g[0] = g[^1] = 1;
        for (int i = 1; i <= order; i++)
        {
            g[i] = 2 * Math.Sin(((2 * i) - 1) * Math.PI / (2 * order));
        }

        return new(g, null);
    }

    /// <summary>Chebyshev's.</summary>
    /// <param name="order">Number of elements, at least 1.</param>
    /// <param name="rippleDb">Ripple of the loss in dB, above 0.</param>
    public static Prototype Chebyshev(int order, double rippleDb)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rippleDb);
        double[] g = new double[order + 2];
        double beta = Math.Log(1 / Math.Tanh(rippleDb * Math.Log(10) / 40));
        double gamma = Math.Sinh(beta / (2 * order));
        double A(int k) => Math.Sin(((2 * k) - 1) * Math.PI / (2 * order));
        double B(int k)
        {
            double sine = Math.Sin(k * Math.PI / order);
            return (gamma * gamma) + (sine * sine);
        }

        g[0] = 1;
        g[1] = 2 * A(1) / gamma;
        for (int k = 2; k <= order; k++)
        {
            g[k] = 4 * A(k - 1) * A(k) / (B(k - 1) * g[k - 1]);
        }

        double coth = 1 / Math.Tanh(beta / 4);
        g[^1] = order % 2 == 1 ? 1 : coth * coth;
        return new(g, rippleDb);
    }

    /// <summary>Loss of the lossless prototype.</summary>
    /// <param name="w">Frequency relative to the edge, not negative.</param>
    /// <returns>Loss in dB relative to the least there is.</returns>
    public double LossDb(double w)
    {
        if (RippleDb is not { } ripple)
        {
            return 10 * Math.Log10(1 + Math.Pow(w, 2 * Order));
        }

        double t = w <= 1 ? Math.Cos(Order * Math.Acos(w)) : Math.Cosh(Order * Math.Acosh(w));
        return 10 * Math.Log10(1 + ((Math.Pow(10, ripple / 10) - 1) * t * t));
    }

    /// <summary>The frequency relative to the edge from which on the loss is at least so much.</summary>
    /// <param name="lossDb">Loss in dB, above the ripple.</param>
    public double FrequencyOf(double lossDb)
    {
        double wanted = Math.Pow(10, lossDb / 10) - 1;
        return RippleDb is { } ripple
            ? Math.Cosh(Math.Acosh(Math.Max(1, Math.Sqrt(wanted / (Math.Pow(10, ripple / 10) - 1)))) / Order)
            : Math.Pow(wanted, 1 / (2.0 * Order));
    }

    /// <summary>Coupling coefficient between resonators i and i + 1 of a band-pass filter, <c>w / sqrt(g_i g_(i+1))</c>.</summary>
    /// <param name="i">1 to n - 1.</param>
    /// <param name="width">Relative bandwidth between the prototype's edges.</param>
    public double Coupling(int i, double width) => width / Math.Sqrt(_g[i] * _g[i + 1]);

    /// <summary>Loaded Q of the first resonator by the source, <c>g0 g1 / w</c>.</summary>
    /// <param name="width">Relative bandwidth between the prototype's edges.</param>
    public double FirstQ(double width) => _g[0] * _g[1] / width;

    /// <summary>Loaded Q of the last resonator by the load, <c>gn g(n+1) / w</c>.</summary>
    /// <param name="width">Relative bandwidth between the prototype's edges.</param>
    public double LastQ(double width) => _g[^2] * _g[^1] / width;
}
