using System.Numerics;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Fit;

/// <summary>Eight residuals side by side, as <see cref="FitModel"/> sums them: a real plane of eight and an imaginary one.</summary>
internal static class FitLanes
{
    public static unsafe void Put(double* lanes, int k, Complex value) => (lanes[k], lanes[8 + k]) = (value.Real, value.Imaginary);

    // In one order on every processor.
    public static unsafe double Sum(double* lanes) =>
        lanes[0] + lanes[4] + (lanes[2] + lanes[6]) + (lanes[1] + lanes[5] + (lanes[3] + lanes[7]));

    public static unsafe void Accumulate(double* columns, int count, double* sums)
    {
        for (int i = 0; i < count; i++)
        {
            V ar = Vector512.LoadAligned(columns + (i * 16)), ai = Vector512.LoadAligned(columns + (i * 16) + 8);
            for (int j = i; j < count; j++, sums += 8)
            {
                V sum = Vector512.LoadAligned(sums);
                sum = Vector512.FusedMultiplyAdd(ar, Vector512.LoadAligned(columns + (j * 16)), sum);
                sum = Vector512.FusedMultiplyAdd(ai, Vector512.LoadAligned(columns + (j * 16) + 8), sum);
                sum.StoreAligned(sums);
            }
        }
    }
}
