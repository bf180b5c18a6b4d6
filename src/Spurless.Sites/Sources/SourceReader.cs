using Spurless.Circuits.Measured;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Sources;

/// <summary>
/// Reads a file as what it is asked for: site, circuit, network, sweep, requirement or table. Commands and pages both read through here.
/// What is wrong is a finding; where there is an error the result is null.
/// </summary>
public static class SourceReader
{
    /// <summary>Impedance in which a sweep is read where there is no circuit that states one, in ohms.</summary>
    public const double UsualImpedanceOhm = 50;

    /// <summary>A site with every circuit and sweep that it names.</summary>
    public static LoadedSite? Site(SourceFile source, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        LoadedSite? site = SiteLoader.Load(source, out IReadOnlyList<Diagnostic> all);
        findings.AddRange(all);
        return site;
    }

    /// <summary>A site by itself: the circuits and sweeps that it names are looked for, but not read.</summary>
    public static SiteDocument? SiteAlone(SourceFile source, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        SiteReading reading = SiteReader.Read(source.Bytes, source.Path, source.Folder);
        findings.AddRange(reading.Diagnostics);
        return findings.HasErrors ? null : reading.Document;
    }

    /// <summary>A circuit that may hold unknown values.</summary>
    public static CircuitFile? TracedCircuit(SourceFile source, DiagnosticBag findings) =>
        ReadCircuit(source, "this is no circuit file", "name the *.circuit.yaml first, then the sweep", findings);

    /// <summary>A circuit with all its values known that can be solved.</summary>
    public static CircuitFile? Circuit(SourceFile source, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        string what = source.Kind == FileKind.Touchstone ? "a measured sweep tells nothing of its parts" : "this is no circuit file";
        if (ReadCircuit(source, what, "name a *.circuit.yaml", findings) is not { } circuit || !circuit.Document.RequireKnown(findings))
        {
            return null;
        }

        if (CircuitSolver.TryCreate(circuit.Circuit, out IReadOnlyList<CircuitFault> faults) is not null)
        {
            return circuit;
        }

        circuit.Report(faults, findings);
        return null;
    }

    /// <summary>A circuit with all its values known that can be solved, or a measured one- or two-port.</summary>
    public static NetworkFile? Network(SourceFile source, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        switch (source.Kind)
        {
            case FileKind.Touchstone:
                using (MemoryStream stream = new(source.Bytes))
                {
                    return TouchstoneReader.Read(stream, source.Path, findings) is { } data
                        ? new NetworkFile(Path.GetFileName(source.Path), MeasuredTwoPort.From(data), null, source)
                        : null;
                }

            case FileKind.Circuit:
                return Circuit(source, findings) is { } circuit ? Solved(circuit, findings) : null;
            default:
                findings.Error(source.Path, 0, 0, "this is neither a circuit nor a Touchstone file",
                    "name a *.circuit.yaml, a *.s1p or a *.s2p");
                return null;
        }
    }

    /// <summary>A sweep for a fit: Touchstone of one or two ports, or a table of magnitudes.</summary>
    /// <param name="source">The file.</param>
    /// <param name="impedanceOhm">Port impedance of the circuit that is fitted, in ohms.</param>
    /// <param name="findings">Takes all findings.</param>
    public static FitSweep? Sweep(SourceFile source, double impedanceOhm, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        switch (source.Kind)
        {
            case FileKind.Touchstone:
                using (MemoryStream stream = new(source.Bytes))
                {
                    try
                    {
                        return TouchstoneReader.Read(stream, source.Path, findings) is { } data ? FitSweep.From(data, impedanceOhm) : null;
                    }
                    catch (ArithmeticException e)
                    {
                        findings.Error(source.Path, 0, 0, e.Message, "give the sweep in the circuit's port impedance");
                        return null;
                    }
                }

            case FileKind.Site or FileKind.Circuit or FileKind.Requirement or FileKind.Receiver or FileKind.Bypass:
                findings.Error(source.Path, 0, 0, "this is no sweep",
                    "name a *.s1p, a *.s2p, or a table with the head frequency_hz,s21_db");
                return null;
            default:
                return MagnitudeSweepReader.Read(source.Bytes, source.Path, findings);
        }
    }

    /// <summary>What a filter must do, with the bypass relay that it names.</summary>
    public static RequirementFile? Requirement(SourceFile source, DiagnosticBag findings)
    {
        if (!Is(source, FileKind.Requirement, "requirement file", "requirement", findings))
        {
            return null;
        }

        return RequirementLoader.Load(source, findings);
    }

    /// <summary>A receiver's own measurements, with the sweep and the sites that they name.</summary>
    public static LoadedMeasurements? Measurements(SourceFile source, DiagnosticBag findings)
    {
        if (!Is(source, FileKind.Receiver, "file of a receiver's measurements", "receiver", findings))
        {
            return null;
        }

        return MeasurementLoader.Load(source, findings);
    }

    /// <summary>A bypass relay, with the filter and the site that it names.</summary>
    public static LoadedBypass? Bypass(SourceFile source, DiagnosticBag findings)
    {
        if (!Is(source, FileKind.Bypass, "file of a bypass relay", "bypass", findings))
        {
            return null;
        }

        return BypassLoader.Load(source, withSite: true, [], findings);
    }

    /// <summary>A table of emitters.</summary>
    public static IReadOnlyList<EmitterEntry>? Emitters(SourceFile source, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        if (CsvTable.Read(source.Bytes, source.Path, findings) is not { } table)
        {
            return null;
        }

        List<EmitterEntry> emitters = [];
        foreach (Files.Yaml.YamlMapping row in CsvRecords.Of(table, findings))
        {
            if (EmitterShapes.Emitter.TryRead(row, findings, out EmitterEntry? emitter))
            {
                emitters.Add(emitter);
            }
        }

        return findings.HasErrors ? null : emitters;
    }

    /// <summary>Opens the sweeps that a circuit names.</summary>
    /// <param name="files">The files beside the circuit.</param>
    public static FileOpener SweepsBeside(ISiteFiles files) => new SweepOpener(files).Open;

    private static CircuitFile? ReadCircuit(SourceFile source, string otherwise, string remedy, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        if (source.Kind != FileKind.Circuit)
        {
            findings.Error(source.Path, 0, 0, otherwise, remedy);
            return null;
        }

        SweepOpener beside = new(source.Folder);
        using MemoryStream stream = new(source.Bytes);
        return CircuitReader.Read(stream, source.Path, beside.Open, findings) is { } document
            ? new CircuitFile(document, source, [source.Input, .. beside.Inputs])
            : null;
    }

    private static NetworkFile? Solved(CircuitFile circuit, DiagnosticBag findings)
    {
        try
        {
            return new NetworkFile(
                circuit.Circuit.Name, new CircuitTwoPort(CircuitSolver.Create(circuit.Circuit)), circuit, circuit.Source);
        }
        catch (CircuitException e)
        {
            circuit.Report([e.Fault], findings);
            return null;
        }
    }

    // A file of one kind that 'new' writes.
    private static bool Is(SourceFile source, FileKind kind, string what, string word, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        if (source.Kind == kind)
        {
            return true;
        }

        findings.Error(source.Path, 0, 0, $"this is no {what}", $"name a *.{word}.yaml; 'spurless new {word}' writes one to fill in");
        return false;
    }
}
