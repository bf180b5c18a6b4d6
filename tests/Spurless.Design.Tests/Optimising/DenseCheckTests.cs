using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;
using Spurless.Design.Designing;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Prototypes;
using Spurless.Design.Questions;
using Spurless.Design.Tests.Designing;
using Spurless.Design.Tests.RandomRequirements;

namespace Spurless.Design.Tests.Optimising;

/// <summary>A circuit held against a requirement: the worst is really the worst, and rounding and descent keep to their rules.</summary>
public class DenseCheckTests
{
    public static TheoryData<int> Requirements => [2, 11, 29, 37, 53];

    [Theory]
    [MemberData(nameof(Requirements))]
    public void Run_finds_no_better_worst_than_twenty_times_as_many_points(int number)
    {
        DesignQuestion question = RandomRequirement.Make(number);
        foreach (Blueprint b in FamilyCatalogue.For(question).Select(static g => g[0]))
        {
            CircuitSolver solver = RealCircuit.Of(b, question)!.Solver;
            foreach (DemandFinding f in DenseCheck.Run(solver, question)!)
            {
                Assert.InRange(f.WorstHz, f.FromHz, f.ToHz);
                double At(double hz) => f.Kind == DemandKind.ReturnLoss
                    ? solver.Solve([hz])[0].ReturnLoss1Db
                    : solver.Solve([hz])[0].InsertionLossDb;
                Assert.Equal(Math.Min(200, At(f.WorstHz)), f.AchievedDb, 1e-6);
                if (f.Kind == DemandKind.PassLoss)
                {
                    double worst = Enumerable.Range(0, 2001).Max(i => At(f.FromHz + ((f.ToHz - f.FromHz) * i / 2000)));
                    Assert.True(f.AchievedDb >= worst - 1e-6, $"{b.Family}: {f.AchievedDb} dB found, {worst} dB there is");
                }
            }
        }
    }

    [Theory]
    [InlineData(DemandKind.PassLoss, 2.5, 2.0, 0.5, true)]
    [InlineData(DemandKind.PassLoss, 2.5, 3.0, -0.5, false)]
    [InlineData(DemandKind.ReturnLoss, 12, 15, 3, true)]
    [InlineData(DemandKind.Rejection, 30, 29.9, -0.1, false)]
    [InlineData(DemandKind.Rejection, 30, 30, 0, true)]
    public void Margin_is_what_is_to_spare_in_the_demands_own_sense(
        DemandKind kind, double needed, double achieved, double margin, bool met)
    {
        DemandFinding finding = new(0, kind, 1, 2, 1, needed, achieved);
        Assert.Equal(margin, finding.MarginDb, 1e-12);
        Assert.Equal(met, finding.Met);
    }

    [Theory]
    [InlineData(12)]
    [InlineData(24)]
    [InlineData(96)]
    public void SeriesRounding_ends_on_the_series_within_the_range_and_no_worse_than_plain_rounding(int series)
    {
        DesignQuestion question = DemoRequirement.Question with
        {
            Parts = DemoRequirement.Question.Parts with { Series = series },
        };
        Blueprint b = TankFilters.Make(
            Prototype.Chebyshev(3, 0.1), question.CentreHz, 6e6, 40e-9, 50, TankEnds.SeriesCapacitor, TankJoint.Capacitor)!;
        RealCircuit real = RealCircuit.Of(b, question)!;
        MaskModel model = new(real.Solver, MaskGrid.Of(question, 9), real.Variables);
        MaskDescent descent = new(model);
        double[] x = real.Start, low = [.. real.Low], high = [.. real.High];
        descent.Run(x, low, high, 10, 10);
        double[] plain = [.. x];
        double margin = SeriesRounding.Run(real, descent, ref x, low, high, series, CancellationToken.None);
        Assert.Equal(margin, model.Worst(x), 1e-9);
        for (int i = 0; i < x.Length; i++)
        {
            if (real.Solver.Parameters[real.Variables[i]].Quantity == CircuitQuantity.CapacitanceF)
            {
                double farads = Math.Exp(x[i]);
                Assert.Equal(1, ESeries.Nearest(farads, series) / farads, 1e-9);
                Assert.InRange(x[i], real.Low[i] - 1e-9, real.High[i] + 1e-9);
                plain[i] = Math.Log(ESeries.Nearest(Math.Exp(plain[i]), series));
            }
        }

        Assert.True(margin >= model.Worst(plain), $"{margin} after the search, {model.Worst(plain)} by rounding alone");
    }

    [Fact]
    public void Worst_of_the_model_is_the_least_weighted_margin_of_the_plain_solver()
    {
        DesignQuestion question = DemoRequirement.Question;
        foreach (Blueprint b in FamilyCatalogue.For(question).Select(static g => g[0]))
        {
            RealCircuit real = RealCircuit.Of(b, question)!;
            MaskGrid grid = MaskGrid.Of(question, 7);
            double expected = double.PositiveInfinity;
            foreach (MaskPoint point in grid.Points)
            {
                var s = real.Solver.Solve([grid.FrequenciesHz[point.Frequency]])[0];
                double margin = point.Kind switch
                {
                    DemandKind.PassLoss => point.NeededDb - Math.Min(160, s.InsertionLossDb),
                    DemandKind.ReturnLoss => Math.Min(160, s.ReturnLoss1Db) - point.NeededDb,
                    _ => Math.Min(160, s.InsertionLossDb) - point.NeededDb,
                };
                expected = Math.Min(expected, margin * point.Weight);
            }

            double worst = new MaskModel(real.Solver, grid, real.Variables).Worst(real.Start);
            Assert.Equal(expected, worst, 1e-6 * Math.Max(1, Math.Abs(expected)));
        }
    }

    [Theory]
    [InlineData(3.14159265, 3, 3.14)]
    [InlineData(0.000123456, 4, 0.0001235)]
    [InlineData(9.9999e-9, 3, 1e-8)]
    public void Digits_keeps_so_many_figures_and_a_second_time_changes_nothing(double value, int digits, double kept)
    {
        Assert.Equal(kept, CandidateFinish.Digits(value, digits));
        Assert.Equal(kept, CandidateFinish.Digits(CandidateFinish.Digits(value, digits), digits));
    }
}
