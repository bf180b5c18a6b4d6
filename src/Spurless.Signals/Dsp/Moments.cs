using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>
/// Mean, and sums of the powers of what differs from it. Those of parts give those of the whole (Chan, Golub and LeVeque 1979 for the
/// second; Pebay 2008 for the higher ones, from memory), without the loss that sums of plain powers have.
/// </summary>
/// <param name="Count">How many values.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Second">Sum of the squares of the differences.</param>
/// <param name="Third">Of the third powers.</param>
/// <param name="Fourth">Of the fourth powers.</param>
internal readonly record struct Moments(int Count, double Mean, double Second, double Third, double Fourth)
{
    /// <summary>Fourth moment over the square of the second; 3 of Gaussian noise, and where nothing differs.</summary>
    public double Kurtosis => Second > 0 ? Count * Fourth / (Second * Second) : 3;

    /// <summary>Of some values.</summary>
    public static Moments Of(ReadOnlySpan<float> x)
    {
        if (x.Length == 0)
        {
            return default;
        }

        ReadOnlySpan<Vector256<float>> vectors = MemoryMarshal.Cast<float, Vector256<float>>(x);
        ReadOnlySpan<float> rest = x[(vectors.Length * Vector256<float>.Count)..];
        Vector256<double> total = Vector256<double>.Zero;
        foreach (Vector256<float> v in vectors)
        {
            (Vector256<double> low, Vector256<double> high) = Vector256.Widen(v);
            total += low + high;
        }

        double sum = Vector256.Sum(total);
        foreach (float v in rest)
        {
            sum += v;
        }

        double mean = sum / x.Length;
        Vector256<double> m = Vector256.Create(mean), two = Vector256<double>.Zero, three = two, four = two;
        foreach (Vector256<float> v in vectors)
        {
            (Vector256<double> low, Vector256<double> high) = Vector256.Widen(v);
            (low, high) = (low - m, high - m);
            (Vector256<double> lows, Vector256<double> highs) = (low * low, high * high);
            two += lows + highs;
            three += lows * low + highs * high;
            four += lows * lows + highs * highs;
        }

        (double s2, double s3, double s4) = (Vector256.Sum(two), Vector256.Sum(three), Vector256.Sum(four));
        foreach (float v in rest)
        {
            double d = v - mean;
            s2 += d * d;
            s3 += d * d * d;
            s4 += d * d * d * d;
        }

        return new Moments(x.Length, mean, s2, s3, s4);
    }

    /// <summary>Of two lots of values together.</summary>
    public static Moments operator +(Moments a, Moments b)
    {
        if (a.Count == 0 || b.Count == 0)
        {
            return a.Count == 0 ? b : a;
        }

        double n = (double)a.Count + b.Count;
        double d = b.Mean - a.Mean;
        double dn = d / n;
        double product = (double)a.Count * b.Count;
        double second = a.Second + b.Second + d * dn * product;
        double third = a.Third + b.Third + d * dn * dn * product * (a.Count - b.Count)
            + 3 * dn * (a.Count * b.Second - b.Count * a.Second);
        double fourth = a.Fourth + b.Fourth
            + d * dn * dn * dn * product * ((double)a.Count * a.Count - product + (double)b.Count * b.Count)
            + 6 * dn * dn * ((double)a.Count * a.Count * b.Second + (double)b.Count * b.Count * a.Second)
            + 4 * dn * (a.Count * b.Third - b.Count * a.Third);
        return new Moments(a.Count + b.Count, a.Mean + dn * b.Count, second, third, fourth);
    }
}
