using Spurless.Signals.Spectra;

namespace Spurless.Signals.Tests.Spectra;

/// <summary>
/// Makes the sweeps of an analyser that averages K independent powers in each bin: noise with that law, and lines of a given shape under
/// the same law (noise-like) or
/// steady (a carrier). The analyser's own law, so that what is found can be held against what was put in.
/// </summary>
internal sealed class SpectrumMaker(int bins, double fromHz, double spacingHz, double noiseDbm, int averages, int seed)
{
    private readonly Random _random = new(seed);
    private readonly List<(double CentreHz, double WidthHz, double Dbm, double OnShare, bool Steady)> _lines = [];

    /// <summary>A line with a flat spectrum of a width; width 0 is a carrier in its bin.</summary>
    public SpectrumMaker Line(double centreHz, double widthHz, double dbm, double onShare = 1, bool steady = false)
    {
        _lines.Add((centreHz, widthHz, dbm, onShare, steady));
        return this;
    }

    public Sweep Make(int rows = 1)
    {
        double[] frequencies = [.. Enumerable.Range(0, bins).Select(i => fromHz + (i * spacingHz))];
        List<double[]> all = [];
        for (int r = 0; r < rows; r++)
        {
            double[] mean = new double[bins];
            double[] steady = new double[bins];
            Array.Fill(mean, Math.Pow(10, noiseDbm / 10));
            for (int k = 0; k < _lines.Count; k++)
            {
                (double centre, double width, double dbm, double share, bool still) = _lines[k];

                // On in its share of the rows, spread evenly, each line with its own beginning.
                if (((r * 0.6180339887) + (k * 0.31)) % 1 >= share && share < 1)
                {
                    continue;
                }

                double power = Math.Pow(10, dbm / 10);
                for (int b = 0; b < bins; b++)
                {
                    double low = Math.Max(frequencies[b] - (spacingHz / 2), centre - (width / 2));
                    double high = Math.Min(frequencies[b] + (spacingHz / 2), centre + (width / 2));
                    double part = width > 0 ? Math.Max(0, high - low) / width : Math.Abs(frequencies[b] - centre) < spacingHz / 2 ? 1 : 0;
                    (still ? steady : mean)[b] += part * power;
                }
            }

            all.Add([.. mean.Select((m, b) => 10 * Math.Log10((m * Gamma()) + steady[b]))]);
        }

        return new Sweep("made.csv", frequencies, all);
    }

    /// <summary>Mean of K exponential deviates: the law of K averaged powers.</summary>
    private double Gamma()
    {
        double sum = 0;
        for (int i = 0; i < averages; i++)
        {
            sum -= Math.Log(1 - _random.NextDouble());
        }

        return sum / averages;
    }
}
