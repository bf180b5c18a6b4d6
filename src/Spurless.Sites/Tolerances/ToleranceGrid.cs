using Spurless.Circuits.Response;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Sites.Responses;

namespace Spurless.Sites.Tolerances;

/// <summary>The frequencies at which a spread is looked at where none are asked for.</summary>
public static class ToleranceGrid
{
    private const int TablePoints = 201;
    private const int WidePoints = 161;
    private const int ClosePoints = 121;
    private const double Margin = 1.08;

    /// <summary>For a table: evenly over pass-band and mask on a logarithmic scale, and what must pass by itself.</summary>
    /// <param name="network">The network.</param>
    /// <param name="mask">The mask; empty for none.</param>
    /// <returns>In hertz, rising.</returns>
    public static double[] ForTable(ITwoPort network, IReadOnlyList<MaskLine> mask)
    {
        ArgumentNullException.ThrowIfNull(network);
        double[] shown = ResponseCalculator.DefaultFrequencies(network);
        double low = mask.Select(static m => m.FromHz).Append(shown[0]).Min(),
            high = mask.Select(static m => m.ToHz).Append(shown[^1]).Max();
        double[] grid = low < high
            ? FrequencyGrid.Logarithmic(Math.Max(low, network.LowestHz), Math.Min(high, network.HighestHz), TablePoints)
            : shown;
        return [.. grid.Concat(MustPass(mask)).Distinct().Order()];
    }

    /// <summary>For plots: those of the two frames, of the mask, and those asked for.</summary>
    /// <param name="network">The network.</param>
    /// <param name="name">Its name.</param>
    /// <param name="mask">The mask; empty for none.</param>
    /// <param name="asked">Those asked for in hertz; empty for none.</param>
    /// <returns>In hertz, rising, all within the network's range.</returns>
    public static double[] ForPlots(ITwoPort network, string name, IReadOnlyList<MaskLine> mask, IReadOnlyList<double> asked)
    {
        ArgumentNullException.ThrowIfNull(mask);
        ArgumentNullException.ThrowIfNull(asked);
        ResponseFrames frames = ResponseFrames.Of(Ends(network, name, mask, asked), network, []);
        return [.. FrequencyGrid.Logarithmic(frames.WideFromHz, frames.WideToHz, WidePoints)
            .Concat(frames.CloseToHz > frames.CloseFromHz ? FrequencyGrid.Linear(frames.CloseFromHz, frames.CloseToHz, ClosePoints) : [])
            .Concat(asked)
            .Concat(MustPass(mask))
            .Where(f => f >= network.LowestHz && f <= network.HighestHz).Distinct().Order()];
    }

    /// <summary>The response at the two ends of what a bench sheet shows: pass-band, mask and what was asked for, with a margin.</summary>
    /// <param name="network">The network.</param>
    /// <param name="name">Its name.</param>
    /// <param name="mask">The mask; empty for none.</param>
    /// <param name="asked">Those asked for in hertz; empty for none.</param>
    public static ResponseResult Ends(ITwoPort network, string name, IReadOnlyList<MaskLine> mask, IReadOnlyList<double> asked)
    {
        ArgumentNullException.ThrowIfNull(network);
        double[] shown = ResponseCalculator.DefaultFrequencies(network);
        double[] ends = [.. mask.SelectMany(static m => new[] { m.FromHz / Margin, m.ToHz * Margin })
            .Concat(asked).Append(shown[0]).Append(shown[^1]).Where(f => f >= network.LowestHz && f <= network.HighestHz)];
        return ResponseCalculator.Compute(network, name, [ends.Min(), ends.Max()]);
    }

    // What must pass is looked at itself, and not beside.
    private static IEnumerable<double> MustPass(IReadOnlyList<MaskLine> mask) =>
        mask.Where(static m => m.MostLossDb is not null).SelectMany(static m => new[] { m.FromHz, (m.FromHz + m.ToHz) / 2, m.ToHz });
}
