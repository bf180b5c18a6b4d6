using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit;

/// <summary>What makes a sweep useless for a circuit, said before any number is computed.</summary>
internal static class SweepCheck
{
    private const int LeastPoints = 16;
    private const double MostGain = 1.12;

    /// <summary>Looks for such a thing, and cuts the sweep to frequencies at which the circuit is known.</summary>
    /// <param name="solver">The circuit.</param>
    /// <param name="unknowns">What is looked for.</param>
    /// <param name="sweep">The sweep; replaced by its usable part.</param>
    /// <returns>Why it is useless, or null.</returns>
    public static Refusal? Refuse(CircuitSolver solver, IReadOnlyList<FitUnknown> unknowns, ref FitSweep sweep)
    {
        if (unknowns.Count == 0)
        {
            return CircuitFit.NothingUnknown;
        }

        FitSweep all = sweep;
        int[] inside =
        [
            .. Enumerable.Range(0, all.FrequenciesHz.Length).Where(
                i => all.FrequenciesHz[i] >= solver.LowestHz && all.FrequenciesHz[i] <= solver.HighestHz),
        ];
        if (inside.Length == 0)
        {
            return all.FrequenciesHz.Length == 0
                ? new Refusal("the sweep has no points above 0 Hz", "sweep where the circuit works")
                : new Refusal(
                    $"the sweep, {FitSweep.Megahertz(all.FrequenciesHz[0])} to {FitSweep.Megahertz(all.FrequenciesHz[^1])}, "
                        + $"and the circuit's measured blocks, {FitSweep.Megahertz(solver.LowestHz)} to "
                            + $"{FitSweep.Megahertz(solver.HighestHz)}, have no frequency in common",
                    "sweep within the blocks' span");
        }

        if (inside.Length < all.FrequenciesHz.Length)
        {
            sweep = all.At(inside);
        }

        if (inside.Length < LeastPoints)
        {
            return new Refusal(
                FormattableString.Invariant($"the sweep has {inside.Length} usable points"),
                FormattableString.Invariant($"sweep at least {LeastPoints}, 401 are usual"));
        }

        return Gain(sweep);
    }

    // More out than in by far more than an instrument's error: an amplifier, or ports and columns mixed up.
    private static Refusal? Gain(FitSweep sweep)
    {
        foreach (SweepTrace trace in sweep.Traces)
        {
            double[] sorted = [.. trace.Decibels.Order()];
            double most = sorted[Math.Min(sorted.Length - 1, (int)(0.98 * sorted.Length))];
            if (most > 20 * Math.Log10(MostGain))
            {
                string name = trace.Parameter.ToString();
                return new Refusal(
                    FormattableString.Invariant(
                        $"{name} of the sweep reaches {most:+0.0} dB, and a circuit of passive parts gives out no more than it gets"),
                    "measure behind no amplifier, and look whether the columns are magnitudes, dB or angles as the head says");
            }
        }

        return null;
    }
}
