using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;

namespace Spurless.Design.Tests.RandomRequirements;

/// <summary>
/// A second way to a filter that knows nothing of the first: values at random, bettered by differential evolution (R. Storn, K. Price,
/// J. Global Optimization 11, 1997; from memory), without a prototype, a gradient or a series. Only what a real part loses is the same.
/// </summary>
internal static class RandomSearch
{
    private const int Population = 28;
    private const int SpanPoints = 5;
    private const double Factor = 0.6;
    private const double Crossing = 0.9;

    /// <summary>Whether some circuit of the kinds tried meets a requirement with something to spare.</summary>
    /// <param name="question">The requirement.</param>
    /// <param name="spareDb">What must be to spare, in decibels of rejection (a quarter of it in the pass-band).</param>
    /// <param name="generations">How long each kind is bettered.</param>
    /// <returns>The kind that does; null where none does.</returns>
    public static string? Meeting(DesignQuestion question, double spareDb, int generations)
    {
        foreach ((string kind, Circuit circuit) in Kinds(question))
        {
            if (RealCircuit.Of(new Blueprint(kind, circuit, []), question) is { } real && Better(real, question, spareDb, generations))
            {
                return kind;
            }
        }

        return null;
    }

    private static bool Better(RealCircuit real, DesignQuestion question, double spareDb, int generations)
    {
        Random random = new((int)question.Seed + (7919 * real.Variables.Length));
        Aim aim = new(real.Solver, question, spareDb);
        int n = real.Variables.Length;
        double[][] all = [.. Enumerable.Range(0, Population).Select(_ => Begin(real, question, random))];
        double[] cost = [.. all.Select(x => aim.Shortfall(real.Variables, x))];
        double[] trial = new double[n];
        for (int generation = 0; generation < generations && cost.Min() > 0; generation++)
        {
            int best = Array.IndexOf(cost, cost.Min());
            for (int i = 0; i < Population; i++)
            {
                double[] a = all[random.Next(Population)], b = all[random.Next(Population)];
                int forced = random.Next(n);
                for (int k = 0; k < n; k++)
                {
                    double mutated = all[i][k] + (Factor * (all[best][k] - all[i][k])) + (Factor * (a[k] - b[k]));
                    trial[k] = k == forced || random.NextDouble() < Crossing
                        ? Math.Clamp(mutated, real.Low[k], real.High[k])
                        : all[i][k];
                }

                double reached = aim.Shortfall(real.Variables, trial);
                if (reached <= cost[i])
                {
                    (all[i], cost[i]) = ([.. trial], reached);
                }
            }
        }

        return cost.Min() <= 0;
    }

    // Coils at random; a capacitor to ground or in line beside one so that they are in tune within a tenth; any other at random.
    private static double[] Begin(RealCircuit real, DesignQuestion question, Random random)
    {
        double[] x = new double[real.Variables.Length];
        double w2 = Math.Pow(2 * Math.PI * question.CentreHz, 2), last = 1e-8;
        for (int k = 0; k < x.Length; k++)
        {
            CircuitParameter p = real.Solver.Parameters[real.Variables[k]];
            double any = real.Low[k] + ((real.High[k] - real.Low[k]) * random.NextDouble());
            if (p.Quantity == CircuitQuantity.InductanceH)
            {
                last = Math.Exp(any);
            }

            bool tuned = p.Quantity == CircuitQuantity.CapacitanceF && p.Part.StartsWith("CT", StringComparison.Ordinal);
            x[k] = Math.Clamp(
                tuned ? Math.Log(1 / (w2 * last)) + (0.2 * (random.NextDouble() - 0.5)) : any, real.Low[k], real.High[k]);
        }

        return x;
    }

    private static IEnumerable<(string, Circuit)> Kinds(DesignQuestion q)
    {
        for (int n = 1; n <= 4; n++)
        {
            List<Part> parts = [C("CC0", "n0", "n1")];
            for (int i = 1; i <= n; i++)
            {
                parts.AddRange([L($"L{i}", $"n{i}", Circuit.Ground), C($"CT{i}", $"n{i}", Circuit.Ground)]);
                parts.Add(C($"CC{i}", $"n{i}", $"n{i + 1}"));
            }

            yield return ($"{n} tanks", Of(q, parts, $"n{n + 1}"));
        }

        for (int n = 2; n <= 3; n++)
        {
            List<Part> parts = [];
            for (int i = 1; i <= n; i++)
            {
                parts.AddRange([L($"L{i}", $"n{i - 1}", $"m{i}"), C($"CT{i}", $"m{i}", $"n{i}")]);
                parts.AddRange(i < n ? [C($"CC{i}", $"n{i}", Circuit.Ground)] : []);
            }

            yield return ($"{n} meshes", Of(q, parts, $"n{n}"));
        }

        foreach (bool low in new[] { true, false })
        {
            Part Arm(int i) => low ? L($"LS{i}", $"n{i}", $"n{i + 1}") : C($"CS{i}", $"n{i}", $"n{i + 1}");
            yield return (low ? "low-pass, two traps" : "high-pass, two traps", Of(
                q,
                [
                    Arm(0), L("L1", "n1", "t1"), C("CT1", "t1", Circuit.Ground),
                    Arm(1), L("L2", "n2", "t2"), C("CT2", "t2", Circuit.Ground), Arm(2),
                ],
                "n3"));
        }
    }

    private static Circuit Of(DesignQuestion q, IReadOnlyList<Part> parts, string output) =>
        new() { Name = "at random", PortIn = "n0", PortOut = output, ImpedanceOhm = q.ImpedanceOhm, Parts = [.. parts] };

    private static Capacitor C(string name, string from, string to) =>
        new() { Name = name, From = from, To = to, Capacitance = PartValue.Known(5e-12) };

    private static Inductor L(string name, string from, string to) =>
        new() { Name = name, From = from, To = to, Inductance = PartValue.Known(50e-9) };

    /// <summary>What a circuit lacks, by the plain solver.</summary>
    private sealed class Aim
    {
        private readonly CircuitSolver _solver;
        private readonly DesignQuestion _question;
        private readonly SolverWorkspace _workspace;
        private readonly double[] _values;
        private readonly double[] _frequencies;
        private readonly ScatteringMatrix[] _s;
        private readonly double _spareDb;

        public Aim(CircuitSolver solver, DesignQuestion question, double spareDb)
        {
            (_solver, _question, _spareDb) = (solver, question, spareDb);
            (_workspace, _values) = (solver.CreateWorkspace(), solver.NominalValues());
            _frequencies =
            [
                .. Span(question.PassFromHz, question.PassToHz),
                .. question.Reject.SelectMany(static r => Span(r.FromHz, r.ToHz)),
            ];
            _s = new ScatteringMatrix[_frequencies.Length];
        }

        public double Shortfall(int[] variables, double[] x)
        {
            for (int k = 0; k < x.Length; k++)
            {
                _values[variables[k]] = Math.Exp(x[k]);
            }

            if (_solver.Solve(_frequencies, _values, _workspace, _s) is not null)
            {
                return double.PositiveInfinity;
            }

            double lacks = 0;
            int at = 0;
            for (int i = 0; i < SpanPoints; i++, at++)
            {
                lacks += Math.Max(0, _spareDb - (4 * (_question.MostLossDb - _s[at].InsertionLossDb)));
                lacks += _question.LeastReturnLossDb is { } match ? Math.Max(0, _spareDb - (1.2 * (_s[at].ReturnLoss1Db - match))) : 0;
            }

            foreach (RejectDemand r in _question.Reject)
            {
                for (int i = 0; i < (r.ToHz > r.FromHz ? SpanPoints : 1); i++, at++)
                {
                    lacks += Math.Max(0, _spareDb - (Math.Min(200, _s[at].InsertionLossDb) - r.LeastLossDb));
                }
            }

            return double.IsNaN(lacks) ? double.PositiveInfinity : lacks;
        }

        private static IEnumerable<double> Span(double from, double to) => to > from
            ? Enumerable.Range(0, SpanPoints).Select(i => from + ((to - from) * i / (SpanPoints - 1)))
            : [from];
    }
}
