using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Traces;

/// <summary>
/// Lays the symbols of a keyed signal over each other. The symbols' clock is taken from where the signal passes through its middle, anew
/// every some dozen symbols, so that clocks that are off do not smear it.
/// </summary>
internal static class EyeMaker
{
    private const int Columns = 64;
    private const int Rows = 48;
    private const int BlockSymbols = 48;
    private const int MostSymbols = 480;
    private const int LeastSymbols = 40;
    private const int StepsASymbol = 32;
    private const double LeastLock = 0.35;
    private const double Margin = 1.35;

    /// <summary>The eye of two or four levels.</summary>
    /// <param name="stretch">The audio.</param>
    /// <param name="span">Where in it, in seconds from its start.</param>
    /// <param name="rateBd">Symbols a second.</param>
    public static EyePicture? OfLevels(Stretch stretch, Span span, double rateBd)
    {
        (float[] x, double rate) = rateBd < 150 ? (stretch.Low, (double)Stretch.LowRate)
            : rateBd <= 1_300 ? (stretch.Narrow, Stretch.NarrowRate) : (stretch.Wide, Stretch.WideRate);
        return Make(Part(x, rate, Middle(span, rateBd)), rate, rateBd, Math.Max(1, (int)(0.3 * rate / rateBd)));
    }

    /// <summary>The eye of two tones, 1,200 and 2,200 Hz, behind two correlators as long as a symbol of 1,200 Bd.</summary>
    /// <param name="stretch">The audio.</param>
    /// <param name="span">Where in it.</param>
    public static EyePicture? OfTones(Stretch stretch, Span span)
    {
        const double Rate = Stretch.NarrowRate;
        const int Symbol = Stretch.NarrowRate / 1_200;
        float[] x = Part(stretch.Narrow, Rate, Middle(span, 1_200));
        float[] mark = Size(x, 1_200 / Rate, Symbol);
        float[] space = Size(x, 2_200 / Rate, Symbol);
        return Make([.. mark.Select((m, n) => m - space[n])], Rate, 1_200, 1);
    }

    private static Span Middle(Span span, double rateBd)
    {
        double half = Math.Min(span.LengthS, (MostSymbols + BlockSymbols) / rateBd) / 2;
        double middle = (span.FromS + span.ToS) / 2;
        return new Span(middle - half, middle + half);
    }

    private static float[] Part(float[] x, double rate, Span span)
    {
        int from = Math.Clamp((int)(span.FromS * rate), 0, x.Length);
        return x[from..Math.Clamp((int)(span.ToS * rate), from, x.Length)];
    }

    private static float[] Size(float[] x, double cyclesASample, int length)
    {
        float[] size = new float[x.Length];
        for (int n = 0; n + length <= x.Length; n++)
        {
            double re = 0;
            double im = 0;
            for (int k = 0; k < length; k++)
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * cyclesASample * k);
                re += x[n + k] * c;
                im += x[n + k] * s;
            }

            size[n] = (float)Math.Sqrt(re * re + im * im);
        }

        return size;
    }

    private static EyePicture? Make(float[] raw, double rate, double rateBd, int average)
    {
        float[] x = average > 1 ? Kernels.MovingMean(raw, average) : raw;
        double symbol = rate / rateBd;
        if (x.Length < LeastSymbols * symbol)
        {
            return null;
        }

        float[] sorted = [.. x.Order()];
        double low = sorted[sorted.Length / 20];
        double high = sorted[sorted.Length - 1 - sorted.Length / 20];
        double middle = (low + high) / 2;
        double half = Margin * (high - low) / 2;
        if (half <= 0)
        {
            return null;
        }

        int[] counts = new int[Columns * Rows];
        List<double> centres = [];
        int symbols = 0;
        int block = (int)(BlockSymbols * symbol);
        for (int from = 0; from + block <= x.Length; from += block)
        {
            if (Crossing(x, from, block, middle, symbol) is not { } phase)
            {
                continue;
            }

            symbols += BlockSymbols;
            for (double t = from; t < from + block - 1; t += symbol / StepsASymbol)
            {
                double level = x[(int)t] + (x[(int)t + 1] - x[(int)t]) * (t - (int)t);
                double into = ((t - phase) / symbol % 2 + 2) % 2;
                int row = (int)Math.Floor((level - middle + half) / (2 * half) * Rows);
                if (row is >= 0 and < Rows)
                {
                    counts[(int)(into * Columns / 2) % Columns * Rows + row]++;
                }

                if (Math.Abs(into % 1 - 0.5) < 0.5 / StepsASymbol)
                {
                    centres.Add(level - middle);
                }
            }
        }

        int most = counts.Max();
        return symbols < LeastSymbols || most == 0 ? null : new EyePicture(
            Columns, Rows, [.. counts.Select(c => (byte)(255 * Math.Sqrt((double)c / most)))], symbols, 1 / rateBd, Openness(centres));
    }

    /// <summary>Where in a symbol the signal passes through its middle, as a sample's place; null where that is anywhere.</summary>
    private static double? Crossing(float[] x, int from, int count, double middle, double symbol)
    {
        double re = 0;
        double im = 0;
        int crossings = 0;
        for (int n = from; n + 1 < from + count; n++)
        {
            double a = x[n] - middle;
            double b = x[n + 1] - middle;
            if (a < 0 != b < 0)
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * (n + a / (a - b)) / symbol);
                re += c;
                im += s;
                crossings++;
            }
        }

        return crossings < 4 || Math.Sqrt(re * re + im * im) < LeastLock * crossings ? null : Math.Atan2(im, re) / (2 * Math.PI) * symbol;
    }

    /// <summary>Of the levels at the symbols' middles: the gap round the middle over the distance of the means to either side.</summary>
    private static double Openness(List<double> levels)
    {
        double[] above = [.. levels.Where(static l => l > 0).Order()];
        double[] below = [.. levels.Where(static l => l <= 0).OrderDescending()];
        if (above.Length < 4 || below.Length < 4)
        {
            return 0;
        }

        // One symbol of twenty may be wrong without closing it; the inner levels of four are the lower half of each side.
        double gap = above[above.Length / 20] - below[below.Length / 20];
        double levelsApart = above[above.Length / 4] - below[below.Length / 4];
        return Math.Clamp(gap / levelsApart, 0, 1);
    }
}
