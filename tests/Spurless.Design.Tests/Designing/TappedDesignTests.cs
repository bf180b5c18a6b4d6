using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Designing;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Prototypes;
using Spurless.Design.Questions;
using Spurless.Design.Winding;

namespace Spurless.Design.Tests.Designing;

/// <summary>A filter with tapped coils, from its synthesis to what is wound.</summary>
public class TappedDesignTests
{
    private static readonly DesignQuestion Question = DemoRequirement.Question;

    // What the circuit says of both parts is what the winding says, by the formulas that tests hold to Maxwell's loops; and the whole lies
    // within the inductors asked for.
    [Fact]
    public void Finish_of_tapped_coils_writes_the_values_of_their_winding()
    {
        DesignCandidate found = Finished();
        Assert.Equal(2, found.Coils.Count(static c => c.Tap is not null));
        Assert.Equal(0, found.UnwoundCoils);
        foreach (WoundCoil coil in found.Coils.Where(static c => c.Tap is not null))
        {
            TappedValues wound = TappedWinding.Values(coil.Geometry, coil.Tap!.Turns, Question.CentreHz);
            Assert.Equal(1, Henries(found.Circuit, coil.Part) / wound.UpperH, 1e-4);
            Assert.Equal(1, Henries(found.Circuit, coil.Tap.LowerPart) / wound.LowerH, 1e-4);
            double k = found.Circuit.Parts.OfType<Coupling>().Single(m => m.Name == coil.Tap.Coupling).Coefficient.Require();
            Assert.Equal(wound.Coupling, k, 1e-4);
            Assert.Equal(coil.Geometry.Turns, Math.Round(coil.Geometry.Turns));
            Assert.Equal(0, Math.IEEERemainder(coil.Tap.Turns, TappedWinding.StepTurns), 1e-9);
            Assert.InRange(coil.Tap.Turns, TappedWinding.LeastTurns, coil.Geometry.Turns - 0.2);
        }
    }

    // Neither part can be turned without the other, so no trimmer is one of them.
    [Fact]
    public void Look_at_tapped_coils_turns_none_of_their_parts_alone()
    {
        DesignCandidate found = CandidateFinish.Look(
            Finished(), Question with { Samples = 100, TunedSpecimens = 20 }, TestContext.Current.CancellationToken);
        string[] parts = [.. TappedCoil.Of(found.Circuit).SelectMany(static t => new[] { t.Upper, t.Lower })];
        Assert.Equal(4, parts.Length);
        Assert.DoesNotContain(found.Tuned!.Trimmers, t => parts.Contains(t.Part));
    }

    // What is held against the requirement is the circuit as it is written.
    [Fact]
    public void Finish_of_tapped_coils_claims_what_the_solver_finds()
    {
        DesignCandidate found = Finished();
        IReadOnlyList<DemandFinding> again = DenseCheck.Run(CircuitSolver.Create(found.Circuit), Question)!;
        Assert.Equal(again.Select(static f => f.AchievedDb), found.Findings.Select(static f => f.AchievedDb));
    }

    private static DesignCandidate Finished()
    {
        Blueprint blueprint = TankFilters.Make(
            Prototype.Butterworth(3), Question.CentreHz, 6e6, 80e-9, 50, TankEnds.CoilTap, TankJoint.Capacitor)!;
        return CandidateFinish.Finish(blueprint, Question, TestContext.Current.CancellationToken)!;
    }

    private static double Henries(Circuit circuit, string name) =>
        circuit.Parts.OfType<Inductor>().Single(l => l.Name == name).Inductance.Require();
}
