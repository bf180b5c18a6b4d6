using System.Globalization;

namespace Spurless.Circuits.Solving;

/// <summary>What a solver finds wrong with a run; apart from its loops, which must not allocate.</summary>
internal static class SolverFaults
{
    /// <summary>A value that a run needs is unknown.</summary>
    public static CircuitFault Unknown(string part) =>
        new(CircuitFaultKind.UnknownValue, [part], $"the value of {part} is unknown", "give it a value, or find it with fit");

    /// <summary>A frequency that is none.</summary>
    public static CircuitFault NotAboveZero(double frequencyHz) => new(
        CircuitFaultKind.FrequencyOutOfRange,
        [],
        $"the frequency {Text(frequencyHz)} Hz is not above 0",
        "ask for frequencies above 0 Hz");

    /// <summary>A frequency for which a two-port block has no data.</summary>
    public static CircuitFault OutOfRange(CircuitSolver solver, double frequencyHz)
    {
        string[] blocks =
        [
            .. solver.Netlist.Elements
                .Where(e => e.Source is { } t && (frequencyHz < t.LowestHz || frequencyHz > t.HighestHz))
                .Select(e => solver.Circuit.Parts[e.Part].Name),
        ];
        return new(
            CircuitFaultKind.FrequencyOutOfRange,
            blocks,
            $"{string.Join(", ", blocks)} has no data at {Text(frequencyHz)} Hz: "
                + $"all blocks together span {Text(solver.LowestHz)} Hz to {Text(solver.HighestHz)} Hz",
            "ask within that span, or give data that reach further");
    }

    /// <summary>A network that has no one solution.</summary>
    /// <param name="netlist">The network.</param>
    /// <param name="frequencyHz">Where, in hertz.</param>
    /// <param name="unknown">The unknown that is not determined; below 0 where none can be named.</param>
    /// <param name="w">The run's memory.</param>
    public static CircuitFault Singular(Netlist netlist, double frequencyHz, int unknown, SolverWorkspace w)
    {
        IReadOnlyList<string> parts = unknown < 0 ? [] : w.Pivoted.PartsAt(unknown);
        string where = unknown >= 0 && unknown < netlist.NodeNames.Length ? $" at node '{netlist.NodeNames[unknown]}'" : "";
        string who = parts.Count == 0 ? "" : $" ({string.Join(", ", parts)})";
        return new(
            CircuitFaultKind.Singular,
            parts,
            $"the network has no one solution at {Text(frequencyHz)} Hz: a lossless resonance or a loop of ideal parts{where}{who}",
            "give these parts a loss (q or esr), or look for a loop of transformers and zero values");
    }

    private static string Text(double value) => value.ToString("G12", CultureInfo.InvariantCulture);
}
