using System.Collections.Immutable;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>
/// Tries other tracings where the one given does not explain the sweep: each single part left out, there twice, or with one end on a
/// neighbouring node, a capacitor more between two nodes, and the ports the other way round. Each is fitted anew.
/// </summary>
internal static class TracingCheck
{
    private const int Starts = 8;
    private const double MuchBetter = 0.5;
    private const int Told = 3;

    /// <summary>Tries them.</summary>
    /// <param name="model">The fit as it stands.</param>
    /// <param name="problem">The circuit as traced and what is looked for in it.</param>
    /// <param name="x">The minimum as it stands.</param>
    /// <param name="structure">Power of its residual over the noise's.</param>
    /// <param name="options">Seed and threads.</param>
    /// <param name="progress">Share done.</param>
    /// <param name="cancellation">Ends the trial.</param>
    /// <returns>Tracings that leave less than half of the residual's power, the best first.</returns>
    public static ImmutableArray<TracingFinding> Run(
        FitModel model, FitProblem problem, double[] x, double structure, FitOptions options, IProgress<double>? progress,
            CancellationToken cancellation)
    {
        Trial[] trials = [.. Trials(problem.Circuit, [.. problem.Sought])];
        TracingFinding?[] found = new TracingFinding?[trials.Length];
        double[] ratios = new double[trials.Length];
        int done = 0;
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = options.Threads > 0 ? options.Threads : Environment.ProcessorCount };
        Parallel.For(0, trials.Length, parallel, i =>
        {
            ratios[i] = double.PositiveInfinity;
            if (cancellation.IsCancellationRequested || Changed(problem, trials[i]) is not { } changed)
            {
                return;
            }

            if (Fit(changed, trials[i], model, x, options.Seed) is { } fit)
            {
                ratios[i] = fit.Structure / structure;
                found[i] = new TracingFinding(trials[i].Change, trials[i].Part, trials[i].From, trials[i].To)
                {
                    ResidualRatio = Math.Sqrt(ratios[i]),
                    Circuit = fit.Circuit,
                };
            }

            progress?.Report(0.2 + (0.7 * Interlocked.Increment(ref done) / trials.Length));
        });
        return [
            .. Enumerable.Range(0, trials.Length)
                .Where(i => found[i] is not null && ratios[i] < MuchBetter)
                .OrderBy(i => ratios[i])
                .Take(Told)
                .Select(i => found[i]!),
        ];
    }

    private static FitProblem? Changed(FitProblem before, Trial trial) => FitProblem.TryMake(
        trial.Circuit,
        solver =>
        [
            .. before.Sought.Where(u => solver.ParameterNumber(u.Part, u.Quantity) >= 0).Select(u => u.With(solver)),
            .. trial.Added is { } added ? [added(solver)] : Array.Empty<FitUnknown>(),
        ],
        before.Capacitors.Count > 0,
        before.Errors);

    private static (double Structure, Circuit Circuit)? Fit(FitProblem problem, Trial trial, FitModel before, double[] x, ulong seed)
    {
        IReadOnlyList<FitUnknown> unknowns = problem.Sought;
        FitModel model = problem.Fine(before.Data);
        FitWorkspace w = model.CreateWorkspace();
        double[] from = new double[model.Count];
        for (int i = 0; i < model.Unknowns.Length; i++)
        {
            FitUnknown u = model.Unknowns[i];
            int was = Array.FindIndex(before.Unknowns, o => o.Part == u.Part && o.Quantity == u.Quantity);
            from[i] = was >= 0 ? x[was] : u.Mean ?? ((u.Low + u.High) / 2);
        }

        Array.Copy(x, before.Unknowns.Length, from, model.Unknowns.Length, model.Count - model.Unknowns.Length);
        double least = BoundedLeastSquares.Run(new FitSquares(model, w), from, 60, 1e-7).Cost;
        FitCandidate search = new FitSearch(problem, before.Data, Noise(before.Data), seed, Starts, 1).Run(null, default)[0];
        double[] best = search.Cost < least ? search.X : from;
        double structure = Structure(model, best, w);
        return double.IsFinite(structure)
            ? (structure, FittedCircuit.With(trial.Circuit, unknowns.Select((u, i) => (u.Part, u.Quantity, u.From(best[i])))))
            : null;
    }

    /// <summary>Power of a weighted residual over that of the noise.</summary>
    private static double Structure(FitModel model, double[] x, FitWorkspace w)
    {
        if (!double.IsFinite(model.Cost(x, w)))
        {
            return double.PositiveInfinity;
        }

        double sum = 0;
        int count = 0;
        for (int t = 0; t < model.Data.Parameters.Length; t++)
        {
            model.Residuals(x, t, w);
            for (int i = 0; i < model.Data.Points; i++)
            {
                if (model.Data.Weight[t][i] > 0)
                {
                    sum += Math.Min(1e6, ((w.Re[i] * w.Re[i]) + (w.Im[i] * w.Im[i])) / (model.Data.Magnitude[t] ? 1 : 2));
                    count++;
                }
            }
        }

        return sum / Math.Max(1, count);
    }

    private static TraceNoise[] Noise(FitData data) =>
        [
            .. Enumerable.Range(0, data.Parameters.Length).Select(
                t => new TraceNoise(data.Weight[t].Where(static v => v > 0).Select(static v => 1 / (v * v)).DefaultIfEmpty(0).Min(), 0)),
        ];

    private static IEnumerable<Trial> Trials(Circuit circuit, FitUnknown[] unknowns)
    {
        yield return new Trial(
            TracingChange.PortsExchanged, null, circuit with { PortIn = circuit.PortOut, PortOut = circuit.PortIn });
        string[] nodes = [.. circuit.Parts.SelectMany(static p => p.Nodes).Append(Circuit.Ground).Distinct()];
        foreach (Part part in circuit.Parts)
        {
            Part[] rest =
            [
                .. circuit.Parts.Where(p => p != part && (p is not Coupling k || (k.First != part.Name && k.Second != part.Name))),
            ];
            yield return new Trial(TracingChange.PartLeftOut, part, circuit with { Parts = rest });
            if (part is not TwoTerminalPart two)
            {
                continue;
            }

            // A second one of a free value in parallel is but another value.
            if (Array.Find(unknowns, u => u.Part == part.Name && u.Quantity != CircuitQuantity.Q) is null or { Mean: not null })
            {
                yield return new Trial(
                    TracingChange.PartTwice,
                    part,
                    circuit with { Parts = [.. circuit.Parts, part with { Name = part.Name + " again" }] });
            }

            (string, string, bool)[] ends = [(two.To, two.From, true), (two.From, two.To, false)];
            foreach ((string fixedEnd, string end, bool first) in ends)
            {
                foreach (string node in Neighbours(circuit, two, end))
                {
                    if (node != fixedEnd && node != end)
                    {
                        TwoTerminalPart moved = first ? two with { From = node } : two with { To = node };
                        yield return new Trial(
                            TracingChange.EndMoved, part, circuit with { Parts = [.. circuit.Parts.Select(p => p == part ? moved : p)] })
                        {
                            From = fixedEnd,
                            To = node,
                        };
                    }
                }
            }
        }

        for (int i = 0; i < nodes.Length; i++)
        {
            for (int j = i + 1; j < nodes.Length; j++)
            {
                (string a, string b) = (nodes[i], nodes[j]);
                if (circuit.Parts.OfType<Capacitor>().Any(c => (c.From == a && c.To == b) || (c.From == b && c.To == a)))
                {
                    continue;
                }

                const string Name = "one more";
                Capacitor more = new() { Name = Name, From = a, To = b, Capacitance = PartValue.Unknown() };
                yield return new Trial(
                    TracingChange.CapacitorAdded, null, circuit with { Parts = [.. circuit.Parts, more] })
                {
                    From = a,
                    To = b,
                    Added = static solver => FitUnknown.Within(solver, Name, CircuitQuantity.CapacitanceF, 0.02e-12, 1e-9),
                };
            }
        }
    }

    private static IEnumerable<string> Neighbours(Circuit circuit, TwoTerminalPart part, string end) =>
        circuit.Parts.OfType<TwoTerminalPart>()
            .Where(p => p != part && (p.From == end || p.To == end))
            .Select(p => p.From == end ? p.To : p.From)
            .Concat(circuit.Parts.OfType<Line>().Where(l => l.From == end || l.To == end).Select(l => l.From == end ? l.To : l.From))
                .Append(Circuit.Ground)
                .Distinct();

    private sealed record Trial(TracingChange Change, Part? Part, Circuit Circuit)
    {
        public string? From { get; init; }

        public string? To { get; init; }

        public Func<CircuitSolver, FitUnknown>? Added { get; init; }
    }
}
