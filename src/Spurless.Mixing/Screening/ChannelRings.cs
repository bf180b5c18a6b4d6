using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Screening;

/// <summary>
/// How much of a product misses the channel at least, by how far off it lands: rings round the channel's centre. A bound of
/// <see cref="InChannelShare"/>: beyond the channel's edge it is at most the Gaussian's share beyond that edge, and with tails of
/// modulation no more than where they begin; more spread brings more of it in.
/// </summary>
internal readonly struct ChannelRings
{
    // A Gaussian's share beyond so many sigmas is a little under -10, -20 and -35 dB: 1.2816, 2.3263 and 3.4173 sigmas.
    private const double FirstSigmas = 1.282;
    private const double SecondSigmas = 2.327;
    private const double ThirdSigmas = 3.418;
    private const double FirstDropDb = 9.9;
    private const double SecondDropDb = 19.9;
    private const double ThirdDropDb = 34.9;

    private readonly double _first;
    private readonly double _second;
    private readonly double _third;

    /// <summary>For products of at most such a spread.</summary>
    /// <param name="halfIfHz">Half the channel's noise bandwidth in hertz.</param>
    /// <param name="variance">Variance of the momentary frequency in hertz squared, at most.</param>
    /// <param name="shiftHz">Sum of the shifts in hertz, at most.</param>
    public ChannelRings(double halfIfHz, double variance, double shiftHz)
    {
        double sigma = Math.Sqrt(variance);
        double edge = halfIfHz + shiftHz + 1;
        (_first, _second, _third) = (edge + (FirstSigmas * sigma), edge + (SecondSigmas * sigma), edge + (ThirdSigmas * sigma));
    }

    /// <summary>So far off a product may land that has so much to lose, in hertz; the greatest number where there is no bound.</summary>
    public long Within(double roomDb) => roomDb < 0 ? -1
        : roomDb >= ThirdDropDb ? long.MaxValue
        : (long)(roomDb >= SecondDropDb ? _third : roomDb >= FirstDropDb ? _second : _first);

    /// <summary>A product that lands so far off loses at least this, in dB.</summary>
    public double LeastDropDb(long offHz) =>
        offHz <= _first ? 0 : offHz <= _second ? FirstDropDb : offHz <= _third ? SecondDropDb : ThirdDropDb;
}
