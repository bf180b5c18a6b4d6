using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Questions;

namespace Spurless.Design.Optimising;

/// <summary>How a circuit stands to one demand, where it stands worst.</summary>
/// <param name="Line">Number of the line: 0 the pass-band, then the rejections in their order.</param>
/// <param name="Kind">What is asked.</param>
/// <param name="FromHz">Lower edge of the line in hertz.</param>
/// <param name="ToHz">Upper edge in hertz.</param>
/// <param name="WorstHz">The frequency in hertz where least is to spare.</param>
/// <param name="NeededDb">What is asked for, in dB of loss.</param>
/// <param name="AchievedDb">What there is, in dB of loss.</param>
public sealed record DemandFinding(int Line, DemandKind Kind, double FromHz, double ToHz, double WorstHz, double NeededDb,
    double AchievedDb)
{
    /// <summary>What is to spare in dB; below 0 where the demand is not met.</summary>
    public double MarginDb => Kind == DemandKind.PassLoss ? NeededDb - AchievedDb : AchievedDb - NeededDb;

    /// <summary>Whether it is met.</summary>
    public bool Met => MarginDb >= 0;
}

/// <summary>Holds a circuit against a requirement on a dense grid: 801 points of each span, edges included, and a golden-section search
/// round the worst of them.</summary>
public static class DenseCheck
{
    /// <summary>Points of a span.</summary>
    public const int PointsOfSpan = 801;

    private const double MostDb = 200;

    /// <summary>One finding for each demand; null where the circuit has no one solution.</summary>
    /// <param name="solver">The circuit's solver, at its nominal values.</param>
    /// <param name="question">The requirement.</param>
    /// <param name="points">Points of a span; fewer for a quick look.</param>
    public static IReadOnlyList<DemandFinding>? Run(CircuitSolver solver, DesignQuestion question, int points = PointsOfSpan)
    {
        ArgumentNullException.ThrowIfNull(solver);
        ArgumentNullException.ThrowIfNull(question);
        double[] values = solver.NominalValues();
        SolverWorkspace w = solver.CreateWorkspace();
        List<DemandFinding> all = [];
        IReadOnlyList<MaskLine> lines = MaskGrid.Lines(question);
        for (int number = 0; number < lines.Count; number++)
        {
            MaskLine line = lines[number];
            int count = line.ToHz > line.FromHz ? points : 1;
            double[] f = [.. Enumerable.Range(0, count).Select(i => count == 1 ? line.FromHz : line.FromHz
                + ((line.ToHz - line.FromHz) * i / (count - 1)))];
            ScatteringMatrix[] s = new ScatteringMatrix[count];
            if (solver.Solve(f, values, w, s) is not null)
            {
                return null;
            }

            foreach ((DemandKind kind, double? needed) in new[]
            {
                (DemandKind.PassLoss, line.MostLossDb), (DemandKind.ReturnLoss, line.LeastReturnLossDb),
                    (DemandKind.Rejection, line.LeastLossDb),
            })
            {
                if (needed is not { } db)
                {
                    continue;
                }

                double Loss(ScatteringMatrix m) => Db(kind == DemandKind.ReturnLoss ? m.S11.Magnitude : m.S21.Magnitude);
                bool most = kind == DemandKind.PassLoss;
                int worst = 0;
                for (int i = 1; i < count; i++)
                {
                    worst = (most ? Loss(s[i]) > Loss(s[worst]) : Loss(s[i]) < Loss(s[worst])) ? i : worst;
                }

                (double hz, double loss) = (f[worst], Loss(s[worst]));
                if (count > 1)
                {
                    ScatteringMatrix[] one = new ScatteringMatrix[1];
                    double At(double x) => solver.Solve([x], values, w, one) is null ? Loss(one[0]) * (most ? 1 : -1)
                        : double.NegativeInfinity;
                    (double x, double refined) = Golden(At, f[Math.Max(0, worst - 1)], f[Math.Min(count - 1, worst + 1)]);
                    (hz, loss) = refined > (most ? loss : -loss) ? (x, most ? refined : -refined) : (hz, loss);
                }

                all.Add(new(number, kind, line.FromHz, line.ToHz, hz, db, loss));
            }
        }

        return all;
    }

    private static (double X, double Value) Golden(Func<double, double> of, double low, double high)
    {
        double ratio = (Math.Sqrt(5) - 1) / 2, a = high - (ratio * (high - low)), b = low + (ratio * (high - low)), atA = of(a),
            atB = of(b);
        for (int i = 0; i < 24; i++)
        {
            if (atA > atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - (ratio * (high - low));
                atA = of(a);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + (ratio * (high - low));
                atB = of(b);
            }
        }

        return atA > atB ? (a, atA) : (b, atB);
    }

    private static double Db(double magnitude) => magnitude > 0 ? Math.Min(MostDb, -20 * Math.Log10(magnitude)) : MostDb;
}
