using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Prototypes;
using Spurless.Design.Questions;
using Spurless.Design.Tests.Designing;

namespace Spurless.Design.Tests.Optimising;

public class MaskModelTests
{
    [Fact]
    public void Normal_gradient_is_that_of_differences()
    {
        DesignQuestion question = DemoRequirement.Question;
        Blueprint blueprint = TankFilters.Make(Prototype.Chebyshev(3, 0.1), question.CentreHz, 6e6, 40e-9, 50, TankEnds.SeriesCapacitor,
            TankJoint.Capacitor)!;
        RealCircuit real = RealCircuit.Of(blueprint, question)!;
        MaskModel model = new(real.Solver, MaskGrid.Of(question, 9), real.Variables);
        double[] x = real.Start, a = new double[model.Count * model.Count], g = new double[model.Count];
        const double target = 5, step = 1e-5;
        model.Normal(x, target, a, g);
        for (int k = 0; k < x.Length; k++)
        {
            double[] up = [.. x], down = [.. x];
            up[k] += step;
            down[k] -= step;
            double slope = (model.Cost(up, target) - model.Cost(down, target)) / (2 * step);
            Assert.Equal(slope, g[k], 1e-4 * (1 + Math.Abs(slope)));
        }
    }

    [Fact]
    public void Run_of_the_descent_never_leaves_its_start_worse()
    {
        DesignQuestion question = DemoRequirement.Question;
        foreach (Blueprint blueprint in FamilyCatalogue.For(question).Select(static g => g[0]))
        {
            RealCircuit real = RealCircuit.Of(blueprint, question)!;
            MaskModel model = new(real.Solver, MaskGrid.Of(question, 5), real.Variables);
            double[] x = real.Start;
            for (int i = 0; i < x.Length; i++)
            {
                x[i] = Math.Clamp(x[i], real.Low[i], real.High[i]);
            }

            double before = model.Worst(x), after = new MaskDescent(model).Run(x, real.Low, real.High, 4, 5);
            Assert.True(after >= before, $"{blueprint.Family}: {before} to {after}");
            Assert.Equal(after, model.Worst(x), 1e-12);
        }
    }
}
