using System.Globalization;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Fit;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Checking;

/// <summary>Reads a file of any kind and says all that is wrong with it.</summary>
public static class FileCheck
{
    /// <summary>Checks a file and the files it names.</summary>
    /// <param name="path">Its path.</param>
    public static CheckResult Run(string path)
    {
        DiagnosticBag findings = new();
        if (UserFile.Read(path, TouchstoneReader.LargestFile, findings) is not { } bytes)
        {
            return new CheckResult(path, FileKind.Unknown, findings.InOrder(), "");
        }

        return Run(path, bytes, new SiteFolder(path));
    }

    /// <summary>Checks a file whose bytes are at hand.</summary>
    /// <param name="path">Its name, for messages.</param>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="files">The files beside it.</param>
    public static CheckResult Run(string path, byte[] bytes, ISiteFiles files)
    {
        DiagnosticBag findings = new();
        FileKind kind = FileKinds.Of(path, bytes);
        string holds = kind switch
        {
            FileKind.Site => Site(path, bytes, files, findings),
            FileKind.Circuit => Circuit(path, bytes, files, findings),
            FileKind.Touchstone => Touchstone(path, bytes, findings),
            FileKind.Requirement => Requirement(path, bytes, findings),
            FileKind.ObservationLog => Log(path, bytes, findings),
            FileKind.EmitterTable => Table(path, bytes, findings),
            FileKind.SweepTable => Sweep(path, bytes, findings),
            _ => NoKind(path, findings),
        };
        return new CheckResult(path, kind, findings.InOrder(), holds);
    }

    private static string Site(string path, byte[] bytes, ISiteFiles files, DiagnosticBag findings)
    {
        LoadedSite? site = SiteLoader.Load(bytes, path, files, out IReadOnlyList<Diagnostic> all);
        findings.AddRange(all);
        return site is null ? "" : $"{Count(site.Document.Receivers.Count, "receiver")}, {Count(site.Document.Emitters.Count, "emitter")}";
    }

    private static string Circuit(string path, byte[] bytes, ISiteFiles files, DiagnosticBag findings)
    {
        using MemoryStream stream = new(bytes);
        CircuitDocument? circuit = CircuitReader.Read(stream, path, FolderOpener.Beside(files), findings);
        return circuit is null ? "" : Count(circuit.Circuit.Parts.Count, "part");
    }

    private static string Touchstone(string path, byte[] bytes, DiagnosticBag findings)
    {
        using MemoryStream stream = new(bytes);
        if (TouchstoneReader.Read(stream, path, findings) is not { } data)
        {
            return "";
        }

        return $"{Count(data.Ports, "port")}, {Count(data.FrequenciesHz.Length, "point")}, {Mhz(data.FrequenciesHz[0])} to {Mhz(data.FrequenciesHz[^1])}";
    }

    private static string Sweep(string path, byte[] bytes, DiagnosticBag findings) => MagnitudeSweepReader.Read(bytes, path, findings) is { } sweep
        ? $"{Count(sweep.FrequenciesHz.Length, "point")}, {Mhz(sweep.FrequenciesHz[0])} to {Mhz(sweep.FrequenciesHz[^1])}"
        : "";

    private static string Mhz(double hertz) => Frequency.FromHertz((long)Math.Round(hertz)).ToString();

    private static string Requirement(string path, byte[] bytes, DiagnosticBag findings) =>
        RequirementReader.Read(bytes, path, findings) is { } requirement ? Count(requirement.Reject.Count, "rejection") : "";

    private static string Log(string path, byte[] bytes, DiagnosticBag findings)
    {
        ObservationLog? log = ObservationLogReader.Read(bytes, path, null, findings);
        return log is null ? "" : $"{Count(log.Rows.Count, "row")}, {Count(log.Names.Count, "name")}";
    }

    private static string Table(string path, byte[] bytes, DiagnosticBag findings)
    {
        if (CsvTable.Read(bytes, path, findings) is not { } table)
        {
            return "";
        }

        int emitters = CsvRecords.Of(table, findings).Count(row => EmitterShapes.Emitter.TryRead(row, findings, out _));
        return findings.HasErrors ? "" : Count(emitters, "emitter");
    }

    private static string NoKind(string path, DiagnosticBag findings)
    {
        findings.Error(
            path, 0, 0, "this is no kind of file the program knows", "name it *.site.yaml, *.circuit.yaml, *.requirement.yaml, *.s1p, *.s2p, *.log.csv or *.csv, after what it holds");
        return "";
    }

    private static string Count(int count, string of) => string.Create(CultureInfo.InvariantCulture, $"{count} {of}{(count == 1 ? "" : "s")}");
}
