using System.Collections.Concurrent;
using Spurless.Circuits.Solving;

namespace Spurless.Fit.Tests;

/// <summary>A fit that is watched.</summary>
public sealed class FitProgressTests
{
    [Fact]
    public void Watched_fit_comes_nearer_to_what_is_left_over_and_is_the_same_as_an_unwatched_one()
    {
        Heard heard = new();
        FitResult watched = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Threads = 2 }, out _, heard)!;
        FitResult alone = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Threads = 1 }, out _)!;
        Assert.Equal(alone.Values, watched.Values);
        Assert.Equal(alone.RmsResidualDb, watched.RmsResidualDb);

        double[] shares = [.. heard.All.Select(static p => p.Fraction)];
        Assert.Equal(shares.Order(), shares);
        Assert.Equal(1, shares[^1]);
        double[] differences = [.. heard.All.Select(static p => p.Best).OfType<FitSoFar>().Select(static b => b.DifferenceDb).Distinct()];
        Assert.True(differences.Length > 2);
        Assert.Equal(differences.OrderDescending(), differences);

        // The last is the nearest met; the result, whose points are weighted by their noise and whose analyser is fitted on, lies within a
        // tenth of a decibel of it.
        FitSoFar last = heard.All.Last().Best!;
        Assert.InRange(watched.RmsResidualDb - last.DifferenceDb, -0.1, 0.1);
        Assert.Equal(watched.Values.Select(static v => (v.Part, v.Quantity)), last.Values.Select(static v => (v.Part, v.Quantity)));
        Assert.NotNull(CircuitSolver.TryCreate(last.Circuit, out _));
    }

    private sealed class Heard : IProgress<FitProgress>
    {
        public ConcurrentQueue<FitProgress> All { get; } = new();

        public void Report(FitProgress value) => All.Enqueue(value);
    }
}
