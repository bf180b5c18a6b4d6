using System.Globalization;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;

namespace Spurless.Design.Designing;

/// <summary>From a requirement to circuits of real parts, ranked.</summary>
/// <remarks>
/// Each family is synthesised from prototypes at several widths and impedance levels, optimised with the losses of the parts by exact
/// gradients, rounded to the series with
/// all that is left optimised anew, wound, held against the requirement on a dense grid, and looked at for yield, power and alignment.
/// Deterministic for a
/// question on any number of threads.
/// </remarks>
public static class Designer
{
    private const int ScreenSpan = 7;
    private const int Finished = 18;

    /// <summary>Runs a design.</summary>
    /// <param name="question">The requirement; <see cref="DesignCheck.Faults"/> must be empty.</param>
    /// <param name="progress">Hears how far it has come, and candidates as they are found.</param>
    /// <param name="cancellation">Ends it early with the best so far.</param>
    /// <exception cref="ArgumentException">The requirement has a fault.</exception>
    public static DesignAnswer Run(DesignQuestion question, IProgress<DesignProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        if (DesignCheck.Faults(question) is { Count: > 0 } faults)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{faults[0].What}; {faults[0].Remedy}"),
                nameof(question));
        }

        Watch watch = new(progress);
        IReadOnlyList<IReadOnlyList<Blueprint>> groups = FamilyCatalogue.For(question);
        Screened?[] screened = new Screened?[groups.Count];
        DesignCandidate? early = null;
        InTurn(groups.Count, question.Threads, i =>
        {
            screened[i] = Screen(groups[i], question, cancellation);

            // The first that promises to do is shown at once.
            bool first = progress is not null && screened[i] is { Margin: > 0.5 } && watch.ClaimFirst();
            if (first)
            {
                early = CandidateFinish.Finish(screened[i]!.Blueprint, question, cancellation);
            }

            watch.Done(0.4 / groups.Count, first ? early : null);
        }, cancellation);

        Screened[] found = [.. screened.OfType<Screened>().OrderByDescending(static s => s.Margin)
            .ThenBy(static s => s.Blueprint.Family, StringComparer.Ordinal)];

        // What meets goes by its number of parts, for rounding takes a little of every margin; what does not by how near it comes.
        Screened[] chosen = [.. found.Where(static s => s.Margin >= 0.5).OrderBy(static s => s.Blueprint.Circuit.Parts.Count)
            .ThenByDescending(static s => s.Margin)
            .Concat(found.Where(static s => s.Margin < 0.5)).Take(Finished)];
        DesignCandidate?[] finished = new DesignCandidate?[chosen.Length];
        InTurn(chosen.Length, question.Threads, i =>
        {
            finished[i] = CandidateFinish.Finish(chosen[i].Blueprint, question, cancellation);
            watch.Done(0.3 / chosen.Length, finished[i]);
        }, cancellation);

        // Ended before anything else was finished: what was shown at once is what there is.
        DesignCandidate[] there = [.. finished.OfType<DesignCandidate>()];
        there = there.Length == 0 && early is not null && cancellation.IsCancellationRequested ? [early] : there;
        DesignCandidate[] best = [.. CandidateOrder.Ranked(there).Take(question.MostCandidates)];
        DesignCandidate[] looked = new DesignCandidate[best.Length];
        InTurn(best.Length, question.Threads, i =>
        {
            looked[i] = CandidateFinish.Look(best[i], question, cancellation);
            watch.Done(0.3 / best.Length, null);
        }, cancellation);

        DesignCandidate[] ranked = [.. CandidateOrder.Ranked(looked.Select((c, i) => c ?? best[i]))];
        if (ranked.Length > 0 && !ranked[0].Meets)
        {
            // The nearest misses: the Q with which each would do.
            InTurn(Math.Min(3, ranked.Length), question.Threads, i =>
                ranked[i] = CandidateFinish.WithQualityWanted(ranked[i], question, cancellation), cancellation);
        }

        watch.Finish();
        return new(question, ranked, [.. found.Select(static s => (s.Blueprint.Family, s.Margin))], SynthesisBound.Of(question),
            !cancellation.IsCancellationRequested);
    }

    // The best of a family: all of it for a few steps, the best three to the end, and the best of the predistorted.
    private static Screened? Screen(IReadOnlyList<Blueprint> group, DesignQuestion question, CancellationToken cancellation)
    {
        MaskGrid grid = MaskGrid.Of(question, ScreenSpan);
        List<(RealCircuit Real, MaskModel Model, MaskDescent Descent, double[] X, double Margin)> tried = [];
        foreach (Blueprint blueprint in group)
        {
            if (cancellation.IsCancellationRequested || RealCircuit.Of(blueprint, question) is not { } real)
            {
                continue;
            }

            MaskModel model = new(real.Solver, grid, real.Variables);
            MaskDescent descent = new(model);
            double[] x = real.Start;
            double margin = descent.Run(x, real.Low, real.High, 3, 8);
            tried.Add((real, model, descent, x, margin));
        }

        (RealCircuit Real, double[] X, double Margin)? best = null;
        var order = tried.Where(static t => double.IsFinite(t.Margin)).OrderByDescending(static t => t.Margin);
        foreach ((RealCircuit real, _, MaskDescent descent, double[] x, double margin) in order
            .Where(static t => !t.Real.Blueprint.Sharpened).Take(3)
            .Concat(order.Where(static t => t.Real.Blueprint.Sharpened).Take(1)))
        {
            double reached = cancellation.IsCancellationRequested ? margin : descent.Run(x, real.Low, real.High, 30, 12);
            best = best is null || reached > best.Value.Margin ? (real, x, reached) : best;
        }

        return best is { } b ? new(b.Real.With(Values(b.Real, b.X)), b.Margin) : null;
    }

    internal static double[] Values(RealCircuit real, double[] x)
    {
        double[] values = real.Solver.NominalValues();
        for (int i = 0; i < x.Length; i++)
        {
            ref double v = ref values[real.Variables[i]];
            v = Math.CopySign(Math.Exp(x[i]), v);
        }

        return values;
    }

    private static void InTurn(int count, int threads, Action<int> work, CancellationToken cancellation)
    {
        ParallelOptions options = new() { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        Parallel.For(0, count, options, i =>
        {
            if (!cancellation.IsCancellationRequested)
            {
                work(i);
            }
        });
    }

    private sealed record Screened(Blueprint Blueprint, double Margin);

    private sealed class Watch(IProgress<DesignProgress>? progress)
    {
        private readonly Lock _lock = new();
        private double _done;
        private int _claimed;

        public bool ClaimFirst() => Interlocked.Exchange(ref _claimed, 1) == 0;

        public void Done(double share, DesignCandidate? candidate)
        {
            lock (_lock)
            {
                _done = Math.Min(1, _done + share);
                progress?.Report(new(_done, candidate));
            }
        }

        public void Finish() => Done(1, null);
    }
}
