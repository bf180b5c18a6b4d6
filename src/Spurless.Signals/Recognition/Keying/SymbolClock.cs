namespace Spurless.Signals.Recognition.Keying;

/// <summary>
/// Takes a keyed signal in the middle of each symbol. The phase of the line in the squared slope says where the changes are; decisions lie
/// half a symbol off. It is taken over some six hundred symbols round each, so that noise does not move it and a clock's drift is followed.
/// </summary>
internal static class SymbolClock
{
    private const int BlockSymbols = 48;
    private const int BlocksEitherSide = 6;
    private const int LevelSymbols = 128;
    private const int LevelEvery = 32;

    /// <summary>The share of symbols at either end whose mean is the outermost level.</summary>
    private const int LevelShare = 5;

    /// <summary>The symbols, the outermost levels at 1 and -1 as they are round each; not a number in a hole.</summary>
    /// <param name="x">The signal.</param>
    /// <param name="per">Samples a symbol.</param>
    /// <param name="hole">Which samples a fade took; null for none.</param>
    public static List<double> Sampled(float[] x, double per, bool[]? hole)
    {
        (double Re, double Im)[] blocks = Blocks(x, per, hole);
        if (blocks.Length == 0)
        {
            return [];
        }

        List<double> samples = new((int)(x.Length / per) + 1);
        int block = -1;
        double at = 0;
        while (at < x.Length - 2)
        {
            int now = Math.Min(blocks.Length - 1, (int)(at / (per * BlockSymbols)));
            if (now != block)
            {
                block = now;
                double middle = Middle(blocks, now, per);
                double move = middle - at - per * Math.Round((middle - at) / per);
                at = samples.Count == 0 ? (middle % per + per) % per : at + move;
            }

            int n = (int)at;
            if (n >= 1 && n + 1 < x.Length)
            {
                samples.Add(hole?[n] == true ? double.NaN : x[n] + (x[n + 1] - x[n]) * (at - n));
            }

            at += per;
        }

        Scale(samples);
        return samples;
    }

    /// <summary>The line at the symbol rate in the squared slope, block by block.</summary>
    private static (double Re, double Im)[] Blocks(float[] x, double per, bool[]? hole)
    {
        int step = Math.Max(1, (int)(per / 6));
        double length = per * BlockSymbols;
        (double Re, double Im)[] blocks = new (double, double)[Math.Max(x.Length > 2 * per ? 1 : 0, (int)(x.Length / length))];
        for (int k = 0; k < blocks.Length; k++)
        {
            int from = Math.Max(step, (int)(k * length));
            int to = k == blocks.Length - 1 ? x.Length : (int)((k + 1) * length);
            (double re, double im) = (0, 0);
            for (int n = from; n < to; n++)
            {
                double d = hole?[n] == true ? 0 : x[n] - x[n - step];
                (double s, double c) = Math.SinCos(2 * Math.PI * (n - step / 2.0) / per);
                re += d * d * c;
                im += d * d * s;
            }

            blocks[k] = (re, im);
        }

        return blocks;
    }

    /// <summary>A moment in the middle between changes, by the blocks round one.</summary>
    private static double Middle((double Re, double Im)[] blocks, int block, double per)
    {
        (double re, double im) = (0, 0);
        for (int k = Math.Max(0, block - BlocksEitherSide); k <= Math.Min(blocks.Length - 1, block + BlocksEitherSide); k++)
        {
            re += blocks[k].Re;
            im += blocks[k].Im;
        }

        return (Math.Atan2(im, re) / (2 * Math.PI) + 0.5) * per;
    }

    /// <summary>Puts the outermost levels of the symbols round each at 1 and -1.</summary>
    private static void Scale(List<double> samples)
    {
        int knots = samples.Count / LevelEvery + 2;
        double[] mid = new double[knots];
        double[] half = new double[knots];
        for (int k = 0; k < knots; k++)
        {
            int from = Math.Clamp(k * LevelEvery - LevelSymbols / 2, 0, Math.Max(0, samples.Count - LevelSymbols));
            double[] sorted =
            [
                .. samples.Skip(from).Take(LevelSymbols).Where(static v => !double.IsNaN(v)).Order(),
            ];
            int share = sorted.Length / LevelShare;
            if (share < 2)
            {
                (mid[k], half[k]) = k > 0 ? (mid[k - 1], half[k - 1]) : (0, 0);
                continue;
            }

            double low = sorted.AsSpan(0, share).ToArray().Average();
            double high = sorted.AsSpan(sorted.Length - share).ToArray().Average();
            (mid[k], half[k]) = ((low + high) / 2, (high - low) / 2);
        }

        for (int i = 0; i < samples.Count; i++)
        {
            int k = i / LevelEvery;
            double u = (double)(i - k * LevelEvery) / LevelEvery;
            samples[i] = (samples[i] - mid[k] - (mid[k + 1] - mid[k]) * u) / Math.Max(1e-9, half[k] + (half[k + 1] - half[k]) * u);
        }
    }
}
