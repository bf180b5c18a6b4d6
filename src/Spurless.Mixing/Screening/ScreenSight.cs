using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Mixing.Screening;

/// <summary>
/// What emitters can bring at most to one receiver, as powers: without a logarithm, for most emitters are asked for no more than that, and
/// eight at once. The greater loss of free space and of plane earth counts where both antennas' heights and grounds are known; else, or
/// where the ground between is asked, that of free space.
/// </summary>
internal readonly struct ScreenSight
{
    /// <summary>Places of both ends are off by less than half a metre each: beyond this nearness, squared, that is less than what
    /// follows.</summary>
    private const float NearSquared = 9e4f;

    /// <summary>What is left of a squared distance when places are off, and all else by rounding.</summary>
    private const float Least = 0.99f;

    /// <summary>Powers under this are too near to the least number that there is to be told apart.</summary>
    private const double LeastMilliwatts = 1e-30;

    private readonly Vector256<float> _x;
    private readonly Vector256<float> _y;
    private readonly Vector256<float> _z;
    private readonly Vector256<float> _free;
    private readonly Vector256<float> _within;
    private readonly Vector256<float> _height;
    private readonly Vector256<float> _top;
    private readonly Vector256<float> _ground;
    private readonly bool _bounded;

    /// <summary>For a receiver.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="leastFreeSpaceDb">Least loss over 1 m at 1 Hz, in dB.</param>
    /// <param name="withinSquared">What is further, squared, is left out.</param>
    /// <param name="overGround">Whether the ground between is asked.</param>
    public ScreenSight(ScreenReceiver receiver, double leastFreeSpaceDb, double withinSquared, bool overGround)
    {
        EarthPoint here = EarthPoint.Of(receiver.Place);
        (_x, _y, _z) = (Vector256.Create((float)here.X), Vector256.Create((float)here.Y), Vector256.Create((float)here.Z));
        _free = Vector256.Create((float)Math.Pow(10, -leastFreeSpaceDb / 10));
        _within = Vector256.Create((float)withinSquared);
        _bounded = !overGround && receiver.HeightM > 0 && double.IsFinite(receiver.GroundM);
        _height = Vector256.Create((float)receiver.HeightM);
        _ground = Vector256.Create((float)receiver.GroundM);
        _top = _height + _ground;
    }

    /// <summary>No emitter of a box arrives stronger than this, in milliwatts; boundless for one at hand, minus infinity for one left
    /// out. Of eight boxes.</summary>
    /// <param name="tree">Whose boxes.</param>
    /// <param name="eight">Which eight.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> MostOfBoxes(ScreenTree tree, int eight)
    {
        ref float box = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(tree.Boxes), eight * (ScreenTree.Lanes * ScreenTree.BoxFigures));
        Vector256<float> x = Beside(At(ref box, 0), At(ref box, 3), _x);
        Vector256<float> y = Beside(At(ref box, 1), At(ref box, 4), _y);
        Vector256<float> z = Beside(At(ref box, 2), At(ref box, 5), _z);
        return Most(
            (x * x) + (y * y) + (z * z), tree.NearSquared, At(ref box, 6), At(ref box, 7), At(ref box, 8), At(ref box, 9), At(ref box, 10));
    }

    /// <summary>An emitter does not arrive stronger than this. Of eight emitters.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> MostOfSeats(ScreenTree tree, int eight)
    {
        ref float seat = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(tree.Seats), eight * (ScreenTree.Lanes * ScreenTree.SeatFigures));
        (Vector256<float> x, Vector256<float> y, Vector256<float> z) = (At(ref seat, 0) - _x, At(ref seat, 1) - _y, At(ref seat, 2) - _z);
        (Vector256<float> height, Vector256<float> ground) = (At(ref seat, 5), At(ref seat, 6));
        return Most(
            (x * x) + (y * y) + (z * z), tree.NearSquared, At(ref seat, 3), At(ref seat, 4), height, height + ground, ground);
    }

    /// <summary>A power to hold bounds against; one that lets all pass where it is too small to be told from nothing.</summary>
    public static float Floor(double milliwatts) => milliwatts < LeastMilliwatts ? -1 : (float)milliwatts;

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
    private static Vector256<float> At(ref float first, int figure) => Vector256.LoadUnsafe(ref first, (nuint)(figure * ScreenTree.Lanes));

    /// <summary>How far beside a box, along an axis.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<float> Beside(Vector256<float> least, Vector256<float> greatest, Vector256<float> here) =>
        Vector256.MaxNative(Vector256<float>.Zero, Vector256.MaxNative(least - here, here - greatest));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Most(
        Vector256<float> squared, float nearSquared, Vector256<float> overDistance, Vector256<float> overDistanceSquared,
        Vector256<float> height, Vector256<float> top, Vector256<float> leastGround)
    {
        Vector256<float> least = squared * Least;
        Vector256<float> over = Vector256<float>.One / least;
        Vector256<float> most = overDistance * _free * over;
        if (_bounded)
        {
            Vector256<float> h1 = Vector256.MaxNative(height, top - _ground);
            Vector256<float> h2 = Vector256.MaxNative(_height, _top - leastGround);
            Vector256<float> root = overDistanceSquared * h1 * h2 * over;

            // One without heights is not equal to itself.
            most = Vector256.ConditionalSelect(Vector256.Equals(height, height), Vector256.MinNative(most, root * root), most);
        }

        Vector256<float> near = Vector256.Create(MathF.Max(NearSquared, nearSquared));
        most = Vector256.ConditionalSelect(Vector256.LessThan(squared, near), Vector256.Create(float.PositiveInfinity), most);
        return Vector256.ConditionalSelect(Vector256.GreaterThan(least, _within), Vector256.Create(float.NegativeInfinity), most);
    }
}
