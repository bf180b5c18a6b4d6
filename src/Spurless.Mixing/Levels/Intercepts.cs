namespace Spurless.Mixing.Levels;

/// <summary>Input intercepts of one stage for orders 2 to 9, those not given filled in by rule and marked.</summary>
public sealed record Intercepts
{
    private readonly double[] _dbm;
    private readonly bool[] _assumed;
    private readonly double?[] _sigmaDb;

    private Intercepts(double[] dbm, bool[] assumed, double?[] sigmaDb)
    {
        _dbm = dbm;
        _assumed = assumed;
        _sigmaDb = sigmaDb;
    }

    /// <summary>IIP_n.</summary>
    /// <param name="order">2 to 9.</param>
    /// <returns>dBm at the stage's input.</returns>
    public double Dbm(int order) => _dbm[order];

    /// <summary>Whether IIP_n was filled in by rule.</summary>
    /// <param name="order">2 to 9.</param>
    public bool IsAssumed(int order) => _assumed[order];

    /// <summary>
    /// One sigma of IIP_n: the stated one, else 3 dB where the intercept is given, 5 dB where assumed, 10 dB for an assumed IIP2 (common
    /// practice).
    /// </summary>
    /// <param name="order">2 to 9.</param>
    /// <returns>dB.</returns>
    public double SigmaDb(int order) => _sigmaDb[order] ?? (!_assumed[order] ? 3 : order == 2 ? 10 : 5);

    /// <summary>IIP_n in micro-dBm, rounded once.</summary>
    /// <param name="order">2 to 9.</param>
    public int MicroDbm(int order) => MicroDb.FromDecibels(_dbm[order]);

    /// <summary>
    /// Fills in what is not given: odd n equal to IIP3; IIP2 = IIP3 + 30 dB; even n from 4: <c>IIP3 + max(0, IIP2 - IIP3)/(n-1)</c>
    /// (a balanced stage lowers every even order alike).
    /// </summary>
    /// <param name="iip3Dbm">IIP3 in dBm.</param>
    /// <param name="given">
    /// Intercept in dBm by order; null where not given. An entry of order 3 is the same as <paramref name="iip3Dbm"/> and is ignored.
    /// </param>
    /// <param name="iip3Assumed">Whether IIP3 itself is a guess.</param>
    /// <param name="sigmaDb">One sigma in dB by order, 0 or more, null where not stated; of an order that is filled in not asked.</param>
    /// <returns>The intercepts of orders 2 to 9 with their marks.</returns>
    /// <remarks>Common practice; the even-order rule is held to a device law by a test.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not finite.</exception>
    public static Intercepts Complete(
        double iip3Dbm, Func<int, double?>? given = null, bool iip3Assumed = false, Func<int, double?>? sigmaDb = null)
    {
        double[] dbm = new double[Multinomial.MaxOrder + 1];
        bool[] assumed = new bool[Multinomial.MaxOrder + 1];
        dbm[3] = iip3Dbm;
        assumed[3] = iip3Assumed;
        for (int n = 2; n <= Multinomial.MaxOrder; n++)
        {
            if (n == 3)
            {
                continue;
            }

            double? own = given?.Invoke(n);
            assumed[n] = own is null;
            dbm[n] = own ?? (n == 2 ? iip3Dbm + 30 : n % 2 == 1 ? iip3Dbm : iip3Dbm + (Math.Max(0, dbm[2] - iip3Dbm) / (n - 1)));
        }

        for (int n = 2; n <= Multinomial.MaxOrder; n++)
        {
            if (!double.IsFinite(dbm[n]))
            {
                throw new ArgumentOutOfRangeException(nameof(given), dbm[n], "An intercept must be finite.");
            }
        }

        return new Intercepts(
            dbm, assumed, [.. Enumerable.Range(0, dbm.Length).Select(n => n < 2 || assumed[n] ? null : sigmaDb?.Invoke(n))]);
    }
}
