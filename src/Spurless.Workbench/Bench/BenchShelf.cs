using System.Collections.Concurrent;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Bench;

/// <summary>A circuit file of an open folder, on the bench.</summary>
/// <param name="File">Its name, text and version.</param>
/// <param name="Bench">The bench; null where the file has an error.</param>
/// <param name="Findings">All that is wrong with it and with the files it names.</param>
public sealed record ShelvedBench(FolderText File, CircuitBench? Bench, IReadOnlyList<Diagnostic> Findings);

/// <summary>
/// The circuits, sweeps and needs of an open folder, each kept until anything in the folder changes. Safe for use by several threads.
/// </summary>
public sealed class BenchShelf
{
    private readonly OpenFolder _folder;
    private readonly KeptUntilChanged<ShelvedBench> _benches;
    private readonly ConcurrentDictionary<string, (int Revision, MeasuredTwoPort? Sweep)> _sweeps = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, (int Revision, bool IsTable)> _tables = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<(string Site, int Receiver), (int Revision, Task<SiteNeeds?> Needs)> _needs = new();

    private readonly ConcurrentDictionary<string, ShelvedBench> _good = new(StringComparer.Ordinal);

    /// <param name="folder">The folder.</param>
    public BenchShelf(OpenFolder folder) => (_folder, _benches) = (folder, new KeptUntilChanged<ShelvedBench>(folder));

    /// <summary>Names of the folder's circuits.</summary>
    public IReadOnlyList<string> Circuits => [.. _folder.FilesOf(FileKind.Circuit).Select(static f => f.Name)];

    /// <summary>Names of the folder's two-port sweeps.</summary>
    public IReadOnlyList<string> Sweeps =>
        [
            .. _folder.FilesOf(FileKind.Touchstone)
                .Select(static f => f.Name)
                .Where(static n => n.EndsWith(".s2p", StringComparison.OrdinalIgnoreCase)),
        ];

    /// <summary>Names of all of the folder's sweeps: of one port and of two, then tables of magnitudes.</summary>
    public IReadOnlyList<string> AllSweeps =>
        [
            .. _folder.FilesOf(FileKind.Touchstone).Select(static f => f.Name),
            .. _folder.FilesOf(FileKind.EmitterTable).Select(static f => f.Name).Where(IsTable),
        ];

    /// <summary>Names of the folder's sites.</summary>
    public IReadOnlyList<string> Sites => [.. _folder.FilesOf(FileKind.Site).Select(static f => f.Name)];

    /// <summary>A circuit file as it stands on disk.</summary>
    /// <param name="name">Its name within the folder.</param>
    /// <returns>The bench; null where there is no such file.</returns>
    public ShelvedBench? Of(string name) => _benches.Of(name, () => Read(name));

    private ShelvedBench? Read(string name)
    {
        if (_folder.Session.Read(name) is not { } file)
        {
            _good.TryRemove(name, out _);
            return null;
        }

        CircuitBench? bench = CircuitBench.Open(
            file.Text, name, new FilesBeside(_folder.Paths, name), out IReadOnlyList<Diagnostic> findings);
        ShelvedBench shelved = new(file, bench, findings);
        if (bench is not null)
        {
            _good[name] = shelved;
        }

        return shelved;
    }

    /// <summary>A circuit file as a form to fill in; null where there is no such file.</summary>
    /// <param name="name">Its name within the folder.</param>
    public CircuitForm? FormOf(string name) => Of(name) is { } shelved ? CircuitForm.Of(shelved.File, shelved.Findings,
        new FilesBeside(_folder.Paths, name)) : null;

    /// <summary>A circuit file as it last was without an error; null where it had one ever since it was first asked for.</summary>
    /// <param name="name">Its name within the folder.</param>
    public ShelvedBench? LastGood(string name) => _good.GetValueOrDefault(name);

    /// <summary>A sweep of the folder; null where it cannot be read or is no two-port.</summary>
    public MeasuredTwoPort? Sweep(string name)
    {
        int revision = _folder.Revision;
        if (_sweeps.TryGetValue(name, out (int Revision, MeasuredTwoPort? Sweep) kept) && kept.Revision == revision)
        {
            return kept.Sweep;
        }

        MeasuredTwoPort? sweep = null;
        if (FileKinds.Of(name, []) == FileKind.Touchstone
            && _folder.Paths.TryResolve(name, out string path)
            && SiteFolder.ReadFile(path) is { } bytes)
        {
            DiagnosticBag findings = new();
            using MemoryStream stream = new(bytes);
            sweep = TouchstoneReader.Read(stream, name, findings) is { } data
                && !findings.HasErrors
                && MeasuredTwoPort.From(data) is { Ports: 2 } two
                ? two
                : null;
        }

        _sweeps[name] = (revision, sweep);
        return sweep;
    }

    /// <summary>A circuit or a two-port sweep of the folder, to lay beside another; null where it has none that can be drawn.</summary>
    /// <param name="name">Its name within the folder.</param>
    public (string Name, CircuitTwoPort? Circuit, MeasuredTwoPort? Sweep)? Beside(string name) =>
        Sweep(name) is { } sweep ? (name, null, sweep)
        : FileKinds.Of(name, []) == FileKind.Circuit && Of(name)?.Bench?.With(Desk.DeskSettings.None).Network is { } network
            ? (name, network, null)
            : null;

    private bool IsTable(string name)
    {
        int revision = _folder.Revision;
        if (!_tables.TryGetValue(name, out (int Revision, bool IsTable) kept) || kept.Revision != revision)
        {
            kept = (revision, _folder.Paths.TryResolve(name, out string path)
                && SiteFolder.ReadFile(path) is { } bytes
                && MagnitudeSweepReader.IsSweep(bytes));
            _tables[name] = kept;
        }

        return kept.IsTable;
    }

    /// <summary>A circuit and a sweep of the folder, ready for a fit.</summary>
    /// <param name="circuit">The circuit file's name.</param>
    /// <param name="sweep">The sweep's name: Touchstone, one or two ports, or a table of magnitudes.</param>
    /// <param name="findings">All that is wrong with either.</param>
    /// <returns>The circuit's bench and the sweep in its impedance; null where there is an error.</returns>
    public (CircuitBench Bench, FitSweep Sweep)? ForFit(string circuit, string sweep, out IReadOnlyList<Diagnostic> findings)
    {
        DiagnosticBag bag = new();
        bag.AddRange(Of(circuit)?.Findings ?? []);
        if (Of(circuit)?.Bench is { } bench && _folder.Paths.TryResolve(sweep, out string path) && SiteFolder.ReadFile(path) is { } bytes)
        {
            FitSweep? read = SourceReader.Sweep(
                new SourceFile(sweep, bytes, new FilesBeside(_folder.Paths, sweep)), bench.Circuit.ImpedanceOhm, bag);
            findings = bag.InOrder();
            return read is null || bag.HasErrors ? null : (bench, read);
        }

        bag.Error(sweep, 0, 0, "there is no such sweep in the folder", "choose another");
        findings = bag.InOrder();
        return null;
    }

    /// <summary>
    /// What a receiver of a site of the folder needs of a filter; computed beside the caller. Null where the site has an error.
    /// </summary>
    /// <param name="site">The site file's name within the folder.</param>
    /// <param name="receiver">Index of the receiver; held within those there are.</param>
    public Task<SiteNeeds?> NeedsAsync(string site, int receiver)
    {
        int revision = _folder.Revision;
        if (_needs.TryGetValue((site, receiver), out (int Revision, Task<SiteNeeds?> Needs) kept) && kept.Revision == revision)
        {
            return kept.Needs;
        }

        Task<SiteNeeds?> needs = Task.Run(() => _folder.Site(site)?.Site is { } loaded
            ? SiteNeeds.Of(loaded, Math.Clamp(receiver, 0, loaded.Document.Receivers.Count - 1), new StudyOptions { Top = 2000 })
            : null);
        _needs[(site, receiver)] = (revision, needs);
        return needs;
    }
}
