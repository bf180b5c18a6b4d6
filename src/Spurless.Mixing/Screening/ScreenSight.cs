using System.Runtime.CompilerServices;

namespace Spurless.Mixing.Screening;

/// <summary>
/// What emitters can bring at most to one receiver, as powers: without a logarithm, for most emitters are asked for no more than that. The
/// greater loss of free space and of plane earth counts where both antennas' heights and grounds are known; else, or where the ground
/// between is asked, that of free space.
/// </summary>
internal readonly struct ScreenSight
{
    /// <summary>Places are off by less than half a metre: beyond this nearness, squared, that is less than what follows.</summary>
    private const double NearSquared = 1e4;

    /// <summary>What is left of a squared distance when a place is off, and all else by rounding.</summary>
    private const double Least = 0.99;

    private readonly EarthPoint _here;
    private readonly double _free;
    private readonly double _withinSquared;
    private readonly bool _bounded;
    private readonly double _height;
    private readonly double _ground;

    /// <summary>For a receiver.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="leastFreeSpaceDb">Least loss over 1 m at 1 Hz, in dB.</param>
    /// <param name="withinSquared">What is further, squared, is left out.</param>
    /// <param name="overGround">Whether the ground between is asked.</param>
    public ScreenSight(ScreenReceiver receiver, double leastFreeSpaceDb, double withinSquared, bool overGround)
    {
        _here = EarthPoint.Of(receiver.Place);
        (_free, _withinSquared) = (Math.Pow(10, -leastFreeSpaceDb / 10), withinSquared);
        _bounded = !overGround && receiver.HeightM > 0 && double.IsFinite(receiver.GroundM);
        (_height, _ground) = (receiver.HeightM, receiver.GroundM);
    }

    /// <summary>No emitter of a box arrives stronger than this, in milliwatts; boundless for one at hand, below 0 for one left
    /// out.</summary>
    /// <param name="node">The box.</param>
    /// <param name="nearSquared">Nearer than this, squared, is at hand.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Most(in ScreenTree.Node node, double nearSquared)
    {
        double x = Math.Max(0, Math.Max(node.MinX - _here.X, _here.X - node.MaxX));
        double y = Math.Max(0, Math.Max(node.MinY - _here.Y, _here.Y - node.MaxY));
        double z = Math.Max(0, Math.Max(node.MinZ - _here.Z, _here.Z - node.MaxZ));
        return Most(
            (x * x) + (y * y) + (z * z), nearSquared, node.OverDistance, node.OverDistanceSquared, node.Height, node.Top, node.LeastGround);
    }

    /// <summary>An emitter does not arrive stronger than this.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Most(in ScreenTree.Seat seat, double nearSquared)
    {
        (double x, double y, double z) = (seat.X - _here.X, seat.Y - _here.Y, seat.Z - _here.Z);
        return Most(
            (x * x) + (y * y) + (z * z), nearSquared, seat.OverDistance, seat.OverDistanceSquared, seat.Height, seat.Height + seat.Ground,
            seat.Ground);
    }

    /// <summary>A little more than a power in dB: within 0.3 dB, and never less.</summary>
    public static float DecibelsOver(double milliwatts)
    {
        // The logarithm of a number between two powers of two lies over the straight line between theirs, by 0.0861 at most.
        double log2 = (BitConverter.DoubleToInt64Bits(milliwatts) / (double)(1L << 52)) - 1023 + 0.0862;
        return (float)(log2 * 3.0103);
    }

    /// <summary>A little less than a power in milliwatts: within 0.3 dB, and never more.</summary>
    /// <param name="dbm">The power in dBm, -3,000 to 3,000.</param>
    public static double MilliwattsUnder(double dbm)
    {
        // The other way round: the straight line lies over the power between two powers of two, by a share of 0.0615 at most.
        double exact = (dbm * 0.33219280948873623) + 1023;
        return BitConverter.Int64BitsToDouble((long)(exact * (1L << 52))) * 0.942;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private double Most(
        double squared, double nearSquared, double overDistance, double overDistanceSquared, float height, float top, float leastGround)
    {
        double least = squared * Least;
        if (least > _withinSquared)
        {
            return -1;
        }

        if (squared < Math.Max(NearSquared, nearSquared))
        {
            return double.PositiveInfinity;
        }

        double over = 1 / least;
        double most = overDistance * _free * over;
        if (_bounded && !float.IsNaN(height))
        {
            double h1 = Math.Max(height, top - _ground);
            double h2 = Math.Max(_height, _height + _ground - leastGround);
            double root = overDistanceSquared * h1 * h2 * over;
            most = Math.Min(most, root * root);
        }

        return most;
    }
}
