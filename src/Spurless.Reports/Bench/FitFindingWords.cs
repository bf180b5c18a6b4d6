using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Words;
using Spurless.Fit;

namespace Spurless.Reports.Bench;

/// <summary>
/// What a fit found beside values, in sentences without a capital and a full stop: what the sweep leaves open, what to measure next, other
/// tracings, remarks.
/// </summary>
public static class FitFindingWords
{
    /// <summary>Parts that the sweep cannot tell apart: what is open, and what holds it.</summary>
    public static string Inseparable(InseparableParts open)
    {
        ArgumentNullException.ThrowIfNull(open);
        string all = NameList.Of(open.Parts);
        return open.Kind switch
        {
            InseparableKind.SideBySide or InseparableKind.InSeries =>
                $"{all} {(open.Kind == InseparableKind.SideBySide ? "stand side by side" : "follow each other with nothing between")}: "
                    + "they are seen together only, and one may be larger where the other is smaller",
            InseparableKind.ImpedanceLevel =>
                $"the impedance level of node {open.Node} cannot be seen from the ports: {all} change together without any change of the "
                    + $"sweep; {(open.HeldBy.IsEmpty ? "nothing stated holds it, so measure one of them"
                        : $"what was stated of {NameList.Of(open.HeldBy)} holds it")}",
            InseparableKind.Ratio => $"{all} are seen by their ratio only: both may be larger or smaller together",
            InseparableKind.Together => $"{all} are seen together only: one may be larger where the other is smaller",
            _ => $"{all} can change together with no change that the sweep shows",
        };
    }

    /// <summary>The one thing to measure next, and what it would bring; null where all is known well.</summary>
    public static string? Next(FitResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (result.Next is not { } next)
        {
            return null;
        }

        string name = result.Sweep.IsMagnitude ? $"|{next.Parameter}|" : $"{next.Parameter}";
        string what = (next.Kind, next.Parameter) switch
        {
            (MeasurementKind.PartAlone, _) => $"lift {next.Of} and measure it alone, to 2 %",
            (MeasurementKind.Length, _) => $"measure the length of {next.Of}, to 2 %",
            (MeasurementKind.ShortedNode, _) => $"short node {next.Of}"
                + $"{(next.AcrossNode.IsEmpty ? "" : $" ({string.Join(", ", next.AcrossNode)})")} to ground and sweep once more",
            (_, SweepParameter.S21) => $"sweep the transmission too ({name})",
            (_, SweepParameter.S22) => $"sweep the return loss of the other port too ({name})",
            _ => $"sweep the return loss too ({name})",
        };
        IEnumerable<string> brings = next.Narrows.Select(static n => $"{n.Part} from {Within(n.SigmaBefore)} to {Within(n.SigmaAfter)}");
        return $"{what}: {string.Join(", ", brings)} either way";
    }

    /// <summary>Another tracing, as it goes on behind 'the sweep fits far better'.</summary>
    public static string Change(TracingFinding t)
    {
        ArgumentNullException.ThrowIfNull(t);
        return t switch
        {
            { Change: TracingChange.PortsExchanged } =>
                "with the ports the other way round: the sweep's port 1 is the circuit's output",
            { Change: TracingChange.PartTwice } => $"with {t.Part?.Name} twice, side by side",
            { Change: TracingChange.EndMoved, Part: TwoTerminalPart part } =>
                $"with {Kind(part)} from {Node(t.From)} to {Node(t.To)}: {part.Name}, traced from {Node(part.From)} to {Node(part.To)}",
            { Change: TracingChange.CapacitorAdded } => $"with a capacitor from {Node(t.From)} to {Node(t.To)} that was not traced",
            _ => $"without {t.Part?.Name}",
        };
    }

    /// <summary>What another tracing changes, in a name: that of a part, <c>ports</c> or <c>one more</c>.</summary>
    public static string Changed(TracingFinding t)
    {
        ArgumentNullException.ThrowIfNull(t);
        return t.Part?.Name ?? (t.Change == TracingChange.PortsExchanged ? "ports" : "one more");
    }

    /// <summary>What must be said beside the values.</summary>
    public static IEnumerable<string> Remarks(FitResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Remarks.Select(Remark);
    }

    /// <summary>The alarm of the instrument; nothing where it is as expected.</summary>
    public static IEnumerable<string> Alarms(FitResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Remarks.Where(static r => r is FitRemark.InstrumentOff or FitRemark.TooMuchLeftOver).Select(Remark);
    }

    /// <summary>A remark.</summary>
    public static string Remark(FitRemark remark) => remark switch
    {
        FitRemark.InstrumentOff off => "this sweep is not of this circuit as traced, or the calibration is worse than "
            + $"'{off.Calibration.ToString().ToLowerInvariant()}': the instrument would have to be off, "
            + NameList.Of([.. off.Alarms.Select(static a =>
                string.Create(CultureInfo.InvariantCulture, $"the {Error(a.Error)} by {a.Sigmas:0.0} sigmas"))]),
        FitRemark.TooMuchLeftOver { Alarm: var much } off => string.Create(
            CultureInfo.InvariantCulture,
            $"this sweep is not of this circuit as traced, or the calibration is worse than "
                + $"'{off.Calibration.ToString().ToLowerInvariant()}': {much.LeftOverDb:0} dB with a shape of its own are left over in "
                + $"{much.Parameter}, as much as such an instrument's errors ({much.InstrumentDb:0} dB) before any was taken off"),
        FitRemark.PointsLeftOut left => string.Create(
            CultureInfo.InvariantCulture,
            $"{left.LeftOut} of {left.Of} points of {left.Parameter}, all below {Math.Ceiling(left.HighestDb ?? 0):0} dB, lie in the "
                + $"instrument's floor or its leakage and are left out"),
        FitRemark.NothingExplained none => string.Create(
            CultureInfo.InvariantCulture,
            $"the circuit does not explain this sweep: {100 * none.Unexplained:0} % of its frequency response is left over, so the values "
                + $"say nothing; is it the sweep of this circuit?"),
        FitRemark.ErrorOfModel error => string.Create(
            CultureInfo.InvariantCulture,
            $"what is left over is {error.OverNoiseDb:0.0} dB more than the sweep's noise and has a shape of its own: the tracing, the "
                + $"parts' losses or the instrument are not quite as assumed; it counts as an error of the model, and each point weighs "
                + $"{error.Widened:0.#} times less"),
        FitRemark.OtherSets { Sets: 1 } => "another set of values explains the sweep as well; the intervals span both",
        FitRemark.OtherSets others => string.Create(
            CultureInfo.InvariantCulture, $"{others.Sets} other sets of values explain the sweep as well; the intervals span all"),
        FitRemark.OnEndOfRange { Parts: { } parts } => $"{string.Join(", ", parts)} {(parts.Length == 1 ? "stands" : "stand")} on an end "
            + $"of the range and {(parts.Length == 1 ? "is" : "are")} not known: the true value may lie beyond",
        FitRemark.FarFromEstimate far =>
            $"{far.Part} came out more than three sigmas from its estimate: look at its drawing or its measures again",
        FitRemark.EstimatesLean lean => string.Create(
            CultureInfo.InvariantCulture,
            $"the estimates all lean one way: {NameList.Of(lean.Parts)} came out {lean.LeastPercent:0} to {lean.MostPercent:0} % "
                + $"{(lean.More ? "more" : "less")} than stated, more than chance explains; look for one cause (the measure they share, or "
                + $"an impedance that is not the stated one)"),
        _ => throw new ArgumentOutOfRangeException(nameof(remark)),
    };

    private static string Within(double sigma)
    {
        double percent = 100 * (Math.Exp(1.96 * Math.Min(sigma, 3)) - 1);
        return percent > 100 ? "unknown" : string.Create(CultureInfo.InvariantCulture, $"{percent:0.#} %");
    }

    private static string Error(InstrumentError error) => error.Figure switch
    {
        InstrumentFigure.Gain => $"gain of {error.Parameter}",
        InstrumentFigure.ReferencePlane => $"reference plane of port {error.Port}",
        InstrumentFigure.Directivity => $"directivity at port {error.Port}",
        InstrumentFigure.SourceMatch => $"source match of port {error.Port}",
        _ => $"load match of port {error.Port}",
    };

    private static string Kind(Part part) =>
        part switch { Capacitor => "a capacitor", Inductor => "a coil", Resistor => "a resistor", Stub => "a stub", _ => "a part" };

    private static string Node(string? node) => node == Circuit.Ground ? "ground" : $"{node}";
}
