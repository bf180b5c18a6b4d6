using System.Globalization;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Register;
using Spurless.Signals.Spectra;
using Spurless.Sites.Documents;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Checking;

/// <summary>Reads a file of any kind and says all that is wrong with it.</summary>
public static class FileCheck
{
    /// <summary>Checks a file and the files it names.</summary>
    /// <param name="source">The file.</param>
    public static CheckResult Run(SourceFile source)
    {
        ArgumentNullException.ThrowIfNull(source);
        DiagnosticBag findings = new();
        FileKind kind = source.Kind;
        string holds = kind switch
        {
            FileKind.Site => Site(source, findings),
            FileKind.Circuit => Circuit(source, findings),
            FileKind.Touchstone => Touchstone(source.Path, source.Bytes, findings),
            FileKind.Requirement => Requirement(source, findings),
            FileKind.Receiver => Measurements(source, findings),
            FileKind.Bypass => Bypass(source, findings),
            FileKind.ObservationLog => Log(source.Path, source.Bytes, findings),
            FileKind.EmitterTable => Table(source, findings),
            FileKind.SweepTable => Sweep(source.Path, source.Bytes, findings),
            FileKind.PathProfile => Profile(source.Path, source.Bytes, findings),
            FileKind.Elevation => Elevation(source.Path, source.Bytes, findings),
            FileKind.Spectrum => Spectrum(source.Path, source.Bytes, findings),
            FileKind.RegisterColumns =>
                RegisterMapping.Check(source.Bytes, source.Path, findings) is { } columns ? Count(columns, "column") : "",
            FileKind.RegisterTable => Rows(source.Path, source.Bytes, "record", findings),
            FileKind.ReceiverTable => Rows(source.Path, source.Bytes, "receiver", findings),
            FileKind.BandPlan =>
                BandPlanReader.Read(source.Bytes, source.Path, findings) is { } plan ? Count(plan.Parts.Count, "part") : "",
            FileKind.Recording => Recording(source.Path, findings, CancellationToken.None),
            _ => NoKind(source.Path, findings),
        };
        return new CheckResult(source.Path, kind, findings.InOrder(), holds);
    }

    /// <summary>Checks the file of a newcomer to a site, which may name the site's receivers and emitters.</summary>
    /// <param name="site">The site's file.</param>
    /// <param name="newcomer">The newcomer's.</param>
    public static CheckResult Newcomer(SourceFile site, SourceFile newcomer)
    {
        ArgumentNullException.ThrowIfNull(newcomer);
        DiagnosticBag findings = new();
        string holds = NewcomerReader.Read(site, newcomer, findings) is { } read
            ? $"{Count(read.Newcomer.Document.Receivers.Count, "receiver")}, {Count(read.Newcomer.Document.Emitters.Count, "emitter")}"
            : "";
        return new CheckResult(newcomer.Path, FileKind.Site, findings.InOrder(), holds);
    }

    /// <summary>Checks a file of the disk and the files it names.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="cancellationToken">Stops before it is read.</param>
    public static async Task<CheckResult> RunAsync(string path, CancellationToken cancellationToken = default)
    {
        DiagnosticBag findings = new();
        if (FileKinds.Of(path, []) == FileKind.Recording)
        {
            // Only its head is read: a recording may be larger than the memory.
            string holds = await Task.Run(() => Recording(path, findings, cancellationToken), cancellationToken)
                .WaitAsync(cancellationToken).ConfigureAwait(false);
            return new CheckResult(path, FileKind.Recording, findings.InOrder(), holds);
        }

        return await SourceFile.ReadAsync(
            path, FileKinds.Of(path, []) == FileKind.Elevation ? FileKind.Elevation : FileKind.Unknown, findings, cancellationToken)
            .ConfigureAwait(false) is { } source
            ? Run(source)
            : new CheckResult(path, FileKind.Unknown, findings.InOrder(), "");
    }

    private static string Site(SourceFile source, DiagnosticBag findings) => SourceReader.Site(source, findings) is { } site
        ? $"{Count(site.Document.Receivers.Count, "receiver")}, {Count(site.Document.Emitters.Count, "emitter")}"
        : "";

    private static string Circuit(SourceFile source, DiagnosticBag findings) =>
        SourceReader.TracedCircuit(source, findings) is { } circuit ? Count(circuit.Circuit.Parts.Count, "part") : "";

    private static string Requirement(SourceFile source, DiagnosticBag findings) =>
        SourceReader.Requirement(source, findings) is { } read ? Count(read.Requirement.Reject.Count, "rejection") : "";

    private static string Measurements(SourceFile source, DiagnosticBag findings) =>
        SourceReader.Measurements(source, findings) is { } read ? Count(read.Document.Measured.Count, "reading") : "";

    private static string Bypass(SourceFile source, DiagnosticBag findings) =>
        SourceReader.Bypass(source, findings) is { } read ? Count(read.Document.Circuit.Stages.Length, "driver stage") : "";

    private static string Table(SourceFile source, DiagnosticBag findings) =>
        SourceReader.Emitters(source, findings) is { } emitters ? Count(emitters.Count, "emitter") : "";

    private static string Touchstone(string path, byte[] bytes, DiagnosticBag findings)
    {
        using MemoryStream stream = new(bytes);
        if (TouchstoneReader.Read(stream, path, findings) is not { } data)
        {
            return "";
        }

        return $"{Count(data.Ports, "port")}, {Count(data.FrequenciesHz.Length, "point")}, {Mhz(data.FrequenciesHz[0])} to "
            + $"{Mhz(data.FrequenciesHz[^1])}";
    }

    private static string Sweep(string path, byte[] bytes, DiagnosticBag findings) =>
        MagnitudeSweepReader.Read(bytes, path, findings) is { } sweep
        ? $"{Count(sweep.FrequenciesHz.Length, "point")}, {Mhz(sweep.FrequenciesHz[0])} to {Mhz(sweep.FrequenciesHz[^1])}"
        : "";

    private static string Elevation(string path, byte[] bytes, DiagnosticBag findings)
    {
        using MemoryStream stream = new(bytes);
        string name = Path.GetFileName(path);
        bool zip = path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);
        bool read = path.EndsWith(".hgt", StringComparison.OrdinalIgnoreCase) || zip
            ? (zip ? HgtReader.TryReadZip(stream, name, out ElevationTile tile, out string problem) : HgtReader.TryRead(
                stream, name, out tile, out problem))
            : GeoTiffReader.TryRead(stream, name, out tile, out problem);
        if (!read)
        {
            Refusal refusal = Refusal.OfParser(problem, "name another file");
            findings.Error(path, 0, 0, refusal.What, refusal.Remedy);
            return "";
        }

        (double lowest, double highest, long voids) = tile.Extent();
        if (double.IsNaN(lowest))
        {
            return string.Create(CultureInfo.InvariantCulture, $"{tile.Grid.Rows} x {tile.Grid.Columns} samples, none with a height");
        }

        string missing = voids == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", {voids} without height");
        return string.Create(
            CultureInfo.InvariantCulture, $"{tile.Grid.Rows} x {tile.Grid.Columns} samples, {lowest:0} to {highest:0} m{missing}");
    }

    private static string Profile(string path, byte[] bytes, DiagnosticBag findings) =>
        ProfileReader.Read(bytes, path, findings) is { } profile
        ? string.Create(CultureInfo.InvariantCulture, $"{Count(profile.Count, "point")}, {profile.LengthM / 1000:0.###} km")
        : "";

    private static string Spectrum(string path, byte[] bytes, DiagnosticBag findings)
    {
        using StreamReader reader = new(new MemoryStream(bytes));
        return SweepReader.Read(reader, path, null, findings) is { } sweep
            ? $"{Count(sweep.RowsDbm.Count, "sweep")}, {Count(sweep.FrequenciesHz.Count, "point")}, "
                + $"{Mhz(sweep.FrequenciesHz[0])} to {Mhz(sweep.FrequenciesHz[^1])}"
            : "";
    }

    private static string Recording(string path, DiagnosticBag findings, CancellationToken cancellationToken) =>
        ListenService.Look(path, findings, cancellationToken) is { } seen
        ? string.Create(CultureInfo.InvariantCulture, $"{seen.DurationS:0.###} s, {seen.RateHz:0.###} samples a second")
        : "";

    private static string Rows(string path, byte[] bytes, string noun, DiagnosticBag findings) =>
        CsvTable.Read(bytes, path, findings) is { } table ? Count(table.Rows.Count, noun) : "";

    private static string Mhz(double hertz) => Frequency.FromHertz((long)Math.Round(hertz)).ToString();

    private static string Log(string path, byte[] bytes, DiagnosticBag findings)
    {
        ObservationLog? log = ObservationLogReader.Read(bytes, path, null, findings);
        return log is null ? "" : $"{Count(log.Rows.Count, "row")}, {Count(log.Names.Count, "name")}";
    }

    private static string NoKind(string path, DiagnosticBag findings)
    {
        findings.Error(
            path, 0, 0, "this is no kind of file the program knows",
                "name it *.site.yaml, *.circuit.yaml, *.requirement.yaml, *.receiver.yaml, *.bypass.yaml, *.s1p, "
                    + "*.s2p, *.log.csv, *.sweep.csv, *.columns.yaml, *.wav, *.sigmf-meta or *.csv, after what it holds");
        return "";
    }

    private static string Count(int count, string of) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {of}{(count == 1 ? "" : "s")}");
}
