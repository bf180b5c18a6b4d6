using Spurless.Circuits.Requirements;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Requirements;

namespace Spurless.Circuits.Tests.Requirements;

public sealed class MaskTests
{
    private const string Text = """
        spurless_requirement: 1
        name: test
        pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 2.5 dB, return_loss: 12 dB }
        reject:
          - { at: 160.5125 MHz, by: 25 dB }
          - { from: 450 MHz, to: 470 MHz, by: 75 dB }
        impedance: 50 ohm
        """;

    [Fact]
    public void Lines_of_a_requirement_are_pass_then_rejections_in_their_order()
    {
        MaskLine[] lines = [.. RequirementMask.Lines(Read(Text))];
        Assert.Equal(new MaskLine(144.9e6, 145.2e6, MostLossDb: 2.5, LeastReturnLossDb: 12), lines[0]);
        Assert.Equal(new MaskLine(160.5125e6, 160.5125e6, LeastLossDb: 25), lines[1]);
        Assert.Equal(new MaskLine(450e6, 470e6, LeastLossDb: 75), lines[2]);
        Assert.Equal(3, lines.Length);
    }

    [Fact]
    public void Problem_of_another_impedance_is_said()
    {
        Assert.Null(RequirementMask.Refuse(Read(Text), 50));
        Assert.Contains("75 ohm", RequirementMask.Refuse(Read(Text), 75)?.ToString(), StringComparison.Ordinal);
    }

    /// <summary>
    /// docs/checks.md 9: the demo's filter has 2.92 dB and -24.0 dB at 145.05 MHz, 33.7 dB at 160.525 MHz, 69.6 dB at 466.1 MHz.
    /// </summary>
    [Fact]
    public void Run_of_the_demo_filter_tells_what_is_short_and_what_is_not()
    {
        CircuitTwoPort network = new(CircuitSolver.Create(KnownCircuits.Demo()));
        IReadOnlyList<MaskFinding> found = MaskCheck.Run(network, RequirementMask.Lines(Read(Text)));
        Assert.Equal(
            [MaskDemand.PassLoss, MaskDemand.ReturnLoss, MaskDemand.Rejection, MaskDemand.Rejection], found.Select(static f => f.Demand));
        Assert.Equal(2.92, found[0].AchievedDb, 0.02);
        Assert.False(found[0].Met);
        Assert.Equal(-0.42, found[0].MarginDb, 0.02);
        Assert.True(found[1].Met);
        Assert.InRange(found[1].AchievedDb, 22.5, 24.1);
        Assert.True(found[2].Met);
        Assert.Equal(160.5125e6, found[2].WorstHz);
        Assert.InRange(found[2].AchievedDb, 33, 34.5);
        Assert.False(found[3].Met);
        Assert.InRange(found[3].AchievedDb, 69, 70);
    }

    [Fact]
    public void Run_worst_frequency_of_a_span_is_no_better_than_any_of_its_points()
    {
        CircuitTwoPort network = new(CircuitSolver.Create(KnownCircuits.Demo()));
        MaskLine line = new(150e6, 170e6, LeastLossDb: 10);
        MaskFinding worst = MaskCheck.Run(network, [line])[0];
        Assert.Equal(line.Frequencies().Min(f => network.At(f).InsertionLossDb), worst.AchievedDb, 1e-12);
        Assert.Equal(150e6, worst.WorstHz);
    }

    private static Requirement Read(string text)
    {
        DiagnosticBag findings = new();
        Requirement? requirement = RequirementReader.Read(text, "t.requirement.yaml", findings);
        Assert.False(findings.HasErrors);
        return requirement!;
    }
}
