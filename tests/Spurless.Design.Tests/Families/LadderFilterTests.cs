using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Families;

/// <summary>Ladders are exact: their loss is the prototype's closed form at every frequency.</summary>
public class LadderFilterTests
{
    [Theory]
    [InlineData(2, 0)]
    [InlineData(3, 0)]
    [InlineData(4, 0)]
    [InlineData(5, 0)]
    [InlineData(3, 0.01)]
    [InlineData(5, 0.1)]
    [InlineData(3, 0.5)]
    [InlineData(5, 0.5)]
    public void Ladders_lose_what_the_closed_form_says(int order, double ripple)
    {
        Prototype p = ripple == 0 ? Prototype.Butterworth(order) : Prototype.Chebyshev(order, ripple);
        const double edge = 150e6, centre = 146e6, width = 20e6;
        foreach (double f in new[] { 101e6, 125e6, 139.3e6, 143e6, 149e6, 151e6, 158e6, 170e6, 233e6 })
        {
            Holds(p.LossDb(f / edge), LadderFilters.LowPass(p, edge, 50), f);
            Holds(p.LossDb(edge / f), LadderFilters.HighPass(p, edge, 50), f);
            Holds(p.LossDb(BandPassMap.ToPrototype(f, centre, width)), LadderFilters.BandPass(p, centre, width, 50), f);
        }
    }

    private static void Holds(double loss, Blueprint blueprint, double f) =>
        Assert.Equal(loss, CircuitSolver.Create(blueprint.Circuit).Solve([f])[0].InsertionLossDb, 1e-9 * Math.Max(1, loss));
}
