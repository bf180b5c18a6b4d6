using Spurless.Circuits.Parts;
using Spurless.Design.Questions;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Fit;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Designs;

/// <summary>Reads what <c>design --tune</c> is given.</summary>
public static class TuneFiles
{
    private const int MostHeadLines = 20;

    /// <summary>
    /// The path of the requirement that a designed circuit file names, from where the program runs; null where it names none.
    /// </summary>
    public static string? RequirementOf(string circuitPath)
    {
        ArgumentNullException.ThrowIfNull(circuitPath);
        try
        {
            return RequirementIn(File.ReadLines(circuitPath).Take(MostHeadLines)) is { } named
                ? Path.Combine(Path.GetDirectoryName(circuitPath) ?? "", named)
                : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>The requirement that the lines of a designed circuit file name, as it stands there; null where they name none.</summary>
    public static string? RequirementIn(IEnumerable<string> lines) => lines
        .Take(MostHeadLines)
        .FirstOrDefault(static l => l.StartsWith(DesignedCircuitFile.RequirementMark, StringComparison.Ordinal))
        ?[DesignedCircuitFile.RequirementMark.Length..].Trim();

    /// <summary>Names of the parts whose comment in the file says that they can be turned.</summary>
    public static IReadOnlyList<string> Turnable(CircuitFile drawn)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        return [.. Marked(drawn.Source.Text, drawn.Circuit)];
    }

    /// <summary>The question; null where there is an error among the findings.</summary>
    /// <param name="requirement">The requirement that the filter shall meet.</param>
    /// <param name="circuitPath">The circuit as drawn.</param>
    /// <param name="sweepPath">The sweep of what was built.</param>
    /// <param name="turn">Names of the parts that can be turned; null for those whose comment in the file says so.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    public static TuneQuestion? Load(
        DesignQuestion requirement, string circuitPath, string sweepPath, IReadOnlyList<string>? turn, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(requirement);
        SourceFile? drawn = SourceFile.Read(circuitPath, FileKind.Circuit, diagnostics);
        SourceFile? built = SourceFile.Read(sweepPath, FileKind.Touchstone, diagnostics);
        return Load(requirement, drawn, built, turn, diagnostics);
    }

    /// <summary>The question of files that were read; null where there is an error among the findings.</summary>
    /// <param name="requirement">The requirement that the filter shall meet.</param>
    /// <param name="drawn">The circuit as drawn; null where it could not be read.</param>
    /// <param name="built">The sweep of what was built; null where it could not be read.</param>
    /// <param name="turn">Names of the parts that can be turned; null for those whose comment in the file says so.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    public static TuneQuestion? Load(
        DesignQuestion requirement, SourceFile? drawn, SourceFile? built, IReadOnlyList<string>? turn, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(requirement);
        ArgumentNullException.ThrowIfNull(diagnostics);
        CircuitFile? traced = drawn is null ? null : SourceReader.TracedCircuit(drawn, diagnostics);
        FitSweep? sweep = built is null
            ? null
            : SourceReader.Sweep(built, traced?.Circuit.ImpedanceOhm ?? SourceReader.UsualImpedanceOhm, diagnostics);
        if (traced is null || sweep is null || diagnostics.HasErrors)
        {
            return null;
        }

        Circuit circuit = traced.Circuit;
        string[] names = [.. turn ?? Turnable(traced)];
        string[] can = [.. circuit.Parts.Where(static p => p is not (Resistor or Transformer or TwoPortBlock)).Select(static p => p.Name)];
        string example = string.Join(',', can.Take(2));

        // At the first part: there the comment would stand. No other place is wrong about it.
        YamlPosition parts = traced.Document.PlaceOf(can.Length > 0 ? can[0] : circuit.Parts is [{ } any, ..] ? any.Name : "");
        foreach (string unknown in names.Where(n => !can.Contains(n)))
        {
            bool there = circuit.Parts.Any(p => p.Name == unknown);
            YamlPosition at = there ? traced.Document.PlaceOf(unknown) : parts;
            diagnostics.Error(
                traced.Source.Path,
                at.Line,
                at.Column,
                there ? $"'{unknown}' has no value that turns" : $"there is no part '{unknown}' to turn",
                $"name some of: {string.Join(", ", can)}");
        }

        if (names.Length == 0)
        {
            diagnostics.Error(
                traced.Source.Path,
                parts.Line,
                parts.Column,
                "no part says that it can be turned",
                can.Length == 0
                    ? "tune a circuit with a capacitor, a coil or a line"
                    : $"name them: --turn {example}, or end the line of each with the comment '# {DesignedCircuitFile.TrimmerMark}'");
        }

        if (Math.Abs(circuit.ImpedanceOhm - requirement.ImpedanceOhm) > 1e-9 * circuit.ImpedanceOhm)
        {
            YamlPosition ports = traced.Document.PlaceOf("");
            diagnostics.Error(
                traced.Source.Path,
                ports.Line,
                ports.Column,
                FormattableString.Invariant(
                    $"the ports have {circuit.ImpedanceOhm:0.##} ohm, those of the requirement {requirement.ImpedanceOhm:0.##}"),
                "write one impedance in both");
        }

        return diagnostics.HasErrors ? null : new(circuit, sweep, names, requirement);
    }

    // A part is adjusted whose line's comment begins with the mark.
    private static IEnumerable<string> Marked(string text, Circuit circuit)
    {
        foreach (string line in text.Split('\n'))
        {
            int hash = line.IndexOf('#', StringComparison.Ordinal), colon = line.IndexOf(':', StringComparison.Ordinal);
            if (colon > 0
                && hash > colon
                && line[(hash + 1)..].TrimStart().StartsWith(DesignedCircuitFile.TrimmerMark, StringComparison.Ordinal)
                && line[..colon].Trim() is { } name && circuit.Parts.Any(p => p.Name == name))
            {
                yield return name;
            }
        }
    }
}
