using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;
using Spurless.Design.Tuning;

namespace Spurless.Design.Tests.Tuning;

public class TuningTests
{
    private const double Centre = 146e6;

    // Dishal 1951: with 0, 1, 2 ... resonators in and the next shorted, the reflection in the middle of the band turns by half a turn each
    // time.
    [Fact]
    public void Detuned_lossless_reflections_alternate_between_open_and_short()
    {
        Blueprint b = Filter(Prototype.Butterworth(4), 60e3);
        Complex before = S11(TuningProcedure.Detuned(b.Circuit, b.Spots[0]).Circuit);
        for (int next = 1; next < 4; next++)
        {
            Complex here = S11(TuningProcedure.Detuned(b.Circuit, b.Spots[next]).Circuit);
            Assert.Equal(Math.PI, Math.Abs((here / before).Phase), 0.02);
            before = here;
        }
    }

    // The group delay of that reflection is the closed form's: which settles that two resonators read 4 g2/(g0 dw) and not 4 g2/(g0 g1 dw).
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Delay_of_a_narrow_lossless_filter_is_the_closed_form(int resonators)
    {
        Prototype p = Prototype.Chebyshev(4, 0.1);
        Blueprint b = Filter(p, 100e3);
        double[] f = [.. Enumerable.Range(-20, 41).Select(static i => Centre + (i * 1e3))];
        double[] delay = TuningProcedure.Delay(TuningProcedure.Detuned(b.Circuit, b.Spots[resonators]).Circuit, f)!;
        Assert.Equal(1, delay[20] / ReflectionDelay.Seconds(p, 100e3, resonators), 0.01);
    }

    [Fact]
    public void Advise_of_a_detuned_filter_turns_it_back()
    {
        Blueprint b = Filter(Prototype.Chebyshev(3, 0.1), 6e6);
        Questions.DesignQuestion question = new()
        {
            Name = "three tanks",
            PassFromHz = 145e6,
            PassToHz = 147e6,
            MostLossDb = 0.5,
            LeastReturnLossDb = 12,
            Reject = [new(136e6, 136e6, 25), new(158e6, 158e6, 20)],
        };
        string trimmer = b.Spots[1].Capacitor!;
        List<Part> parts = [.. b.Circuit.Parts.Select(p => p.Name == trimmer
            ? (Capacitor)p with { Capacitance = PartValue.Known(1.06 * ((Capacitor)p).Capacitance.Require()) } : p)];
        TuningAdvice advice = TuneAdvisor.Advise(CircuitSolver.Create(b.Circuit with { Parts = parts }),
            [.. b.Spots.Select(static s => s.Capacitor!)], question)!;
        Assert.False(advice.Meets);
        Assert.True(advice.CanMeet);
        Assert.Equal(trimmer, advice.Moves[0].Part);
        Assert.InRange(advice.Moves[0].Change, -0.09, -0.03);
    }

    private static Complex S11(Circuit circuit) => CircuitSolver.Create(circuit).Solve([Centre * (1 + 1e-9)])[0].S11;

    private static Blueprint Filter(Prototype p, double width) =>
        TankFilters.Make(p, Centre, width, 40e-9, 50, TankEnds.SeriesCapacitor, TankJoint.Capacitor)!;
}
