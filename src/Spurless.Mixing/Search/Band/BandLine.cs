namespace Spurless.Mixing.Search.Band;

/// <summary>
/// Where the emitters that stay must add up to, channel by channel, for a product with coefficient c of the moving one to land on the
/// receiver: <c>F(j) = f_r(j) - c f_m(j)</c>, a straight line over the channels.
/// </summary>
/// <param name="Coefficient">c; 0 for products without the moving emitter.</param>
/// <param name="FirstHz">F(0) in hertz, of either sign.</param>
/// <param name="SlopeHz">F(j + 1) - F(j) in hertz.</param>
internal readonly record struct BandLine(int Coefficient, long FirstHz, long SlopeHz)
{
    public static BandLine Of(BandProblem band, int coefficient) => coefficient == 0
        ? new(0, band.ReceiverHz(0), band.StepHz)
        : new(
            coefficient,
            band.ReceiverHz(0) - (coefficient * band.MovingHz(0)),
            band.StepHz - (coefficient * band.MovingStepHz));

    public long At(int channel) => FirstHz + (channel * SlopeHz);

    /// <summary>The channels of a range on which a sum of the others hits: <c>2 |g - F(j)| &lt;= width</c>.</summary>
    /// <param name="sumHz">g in hertz.</param>
    /// <param name="widthHz">Channel and all occupied bandwidths together, in hertz.</param>
    /// <param name="from">First channel of the range.</param>
    /// <param name="to">One after its last.</param>
    /// <returns>From and one after the last; equal for none.</returns>
    public (int From, int To) Hit(long sumHz, long widthHz, int from, int to)
    {
        long twice = 2 * (sumHz - FirstHz);
        if (SlopeHz == 0)
        {
            return Math.Abs(twice) <= widthHz ? (from, to) : (from, from);
        }

        // |twice - 2 s j| <= width, with s > 0 after turning both round.
        long slope = 2 * SlopeHz;
        if (slope < 0)
        {
            (slope, twice) = (-slope, -twice);
        }

        long low = CeilingOf(twice - widthHz, slope);
        long high = FloorOf(twice + widthHz, slope) + 1;
        low = Math.Max(low, from);
        high = Math.Min(high, to);
        return low < high ? ((int)low, (int)high) : (from, from);
    }

    private static long FloorOf(long a, long b) => a >= 0 ? a / b : -((-a + b - 1) / b);

    private static long CeilingOf(long a, long b) => -FloorOf(-a, b);
}
