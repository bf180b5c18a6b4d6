using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Fit;
using Spurless.Reports.Bench;

namespace Spurless.Reports.Tests.Bench;

public class FitFindingWordsTests
{
    private static readonly Circuit Traced = new() { Name = "t", PortIn = "a", PortOut = "b", Parts = [] };
    private static readonly Capacitor C1 = new() { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(1e-12) };

    public static TheoryData<FitRemark, string> Remarks => new()
    {
        {
            new FitRemark.InstrumentOff(
                Calibration.Usual,
                [new(new(InstrumentFigure.Gain, SweepParameter.S21, 0), 5.3), new(new(InstrumentFigure.Directivity, null, 1), 3.5)]),
            "this sweep is not of this circuit as traced, or the calibration is worse than 'usual': the instrument would have to be off, "
                + "the gain of S21 by 5.3 sigmas and the directivity at port 1 by 3.5 sigmas"
        },
        {
            new FitRemark.PointsLeftOut(SweepParameter.S21, 12, 401, -83.4),
            "12 of 401 points of S21, all below -83 dB, lie in the instrument's floor or its leakage and are left out"
        },
        { new FitRemark.OtherSets(1), "another set of values explains the sweep as well; the intervals span both" },
        { new FitRemark.OtherSets(3), "3 other sets of values explain the sweep as well; the intervals span all" },
        { new FitRemark.OnEndOfRange(["C1"]), "C1 stands on an end of the range and is not known: the true value may lie beyond" },
        {
            new FitRemark.OnEndOfRange(["C1", "C2"]),
            "C1, C2 stand on an end of the range and are not known: the true value may lie beyond"
        },
        {
            new FitRemark.EstimatesLean(["L1", "L2", "L3"], false, 22.9, 23.2),
            "the estimates all lean one way: L1, L2 and L3 came out 23 to 23 % less than stated, more than chance explains; look for one "
                + "cause (the measure they share, or an impedance that is not the stated one)"
        },
    };

    public static TheoryData<InseparableParts, string> Open => new()
    {
        {
            new InseparableParts(["C4", "C5"], InseparableKind.SideBySide),
            "C4 and C5 stand side by side: they are seen together only, and one may be larger where the other is smaller"
        },
        {
            new InseparableParts(["L2", "C3", "C4"], InseparableKind.ImpedanceLevel) { Node = "c" },
            "the impedance level of node c cannot be seen from the ports: L2, C3 and C4 change together without any change of the sweep; "
                + "nothing stated holds it, so measure one of them"
        },
        {
            new InseparableParts(["L2", "C3"], InseparableKind.ImpedanceLevel) { Node = "c", HeldBy = ["L2"] },
            "the impedance level of node c cannot be seen from the ports: L2 and C3 change together without any change of the sweep; what "
                + "was stated of L2 holds it"
        },
        {
            new InseparableParts(["C1", "C2"], InseparableKind.Ratio),
            "C1 and C2 are seen by their ratio only: both may be larger or smaller together"
        },
        {
            new InseparableParts(["C1", "C2", "C3"], InseparableKind.Combination),
            "C1, C2 and C3 can change together with no change that the sweep shows"
        },
    };

    public static TheoryData<NextMeasurement, string> Steps => new()
    {
        { new NextMeasurement(MeasurementKind.PartAlone, "L2", null), "lift L2 and measure it alone, to 2 %" },
        { new NextMeasurement(MeasurementKind.Length, "W1", null), "measure the length of W1, to 2 %" },
        {
            new NextMeasurement(MeasurementKind.ShortedNode, "c", null) { AcrossNode = ["L2", "C4"] },
            "short node c (L2, C4) to ground and sweep once more"
        },
        { new NextMeasurement(MeasurementKind.ShortedNode, "c", null), "short node c to ground and sweep once more" },
        { new NextMeasurement(MeasurementKind.FurtherParameter, null, SweepParameter.S11), "sweep the return loss too (|S11|)" },
        { new NextMeasurement(MeasurementKind.FurtherParameter, null, SweepParameter.S21), "sweep the transmission too (|S21|)" },
    };

    [Theory]
    [MemberData(nameof(Remarks))]
    public void Remark_says_the_figures(FitRemark remark, string says) => Assert.Equal(says, FitFindingWords.Remark(remark));

    [Theory]
    [MemberData(nameof(Open))]
    public void Inseparable_says_what_is_open(InseparableParts open, string says) => Assert.Equal(says, FitFindingWords.Inseparable(open));

    [Theory]
    [MemberData(nameof(Steps))]
    public void Next_says_what_to_do_and_what_it_brings(NextMeasurement next, string says)
    {
        // One sigma of 0.05 is exp(1.96 x 0.05) - 1 = 10.3 %, one of 0.5 over 100 %.
        FitResult result = Result() with { Next = next with { Narrows = [new("C4", CircuitQuantity.CapacitanceF, 0.5, 0.05)] } };
        Assert.Equal(says + ": C4 from unknown to 10.3 % either way", FitFindingWords.Next(result));
        Assert.Null(FitFindingWords.Next(result with { Next = null }));
    }

    [Fact]
    public void Change_names_parts_and_nodes()
    {
        Assert.Equal(
            "with a capacitor from a to c: C1, traced from a to ground",
            FitFindingWords.Change(Tracing(TracingChange.EndMoved, C1, "a", "c")));
        Assert.Equal("without C1", FitFindingWords.Change(Tracing(TracingChange.PartLeftOut, C1)));
        Assert.Equal("with C1 twice, side by side", FitFindingWords.Change(Tracing(TracingChange.PartTwice, C1)));
        TracingFinding added = Tracing(TracingChange.CapacitorAdded, null, "a", Circuit.Ground);
        Assert.Equal("with a capacitor from a to ground that was not traced", FitFindingWords.Change(added));
        TracingFinding ports = Tracing(TracingChange.PortsExchanged, null);
        Assert.Equal(("one more", "ports"), (FitFindingWords.Changed(added), FitFindingWords.Changed(ports)));
    }

    private static TracingFinding Tracing(TracingChange change, Part? part, string? from = null, string? to = null) =>
        new(change, part, from, to) { ResidualRatio = 0.1, Circuit = Traced };

    private static FitResult Result() => new()
    {
        Traced = Traced,
        Fitted = Traced,
        Sweep = FitSweep.OfMagnitudes("s", [100e6, 101e6], [-1, -2], []),
        Values = [],
        Inseparable = [],
        Traces = [],
        DelayS = (0, 0),
        RmsResidualDb = 0.01,
        IsStructured = false,
        Widened = 1,
        Tracings = [],
        Next = null,
        Remarks = [],
        IsComplete = true,
        Unexplained = 0,
    };
}
