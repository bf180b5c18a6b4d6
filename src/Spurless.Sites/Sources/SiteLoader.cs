using Spurless.Circuits.Measured;
using Spurless.Circuits.Relays;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Sources;

/// <summary>Reads a site file and every circuit and sweep that it names. All that is wrong in any of them is reported at once.</summary>
public sealed class SiteLoader
{
    private const string CircuitName = ".circuit.yaml";

    private readonly ISiteFiles _files;
    private readonly DiagnosticBag _diagnostics = new();
    private readonly Dictionary<string, Network> _networks = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ObservationLog> _logs = new(StringComparer.Ordinal);
    private readonly List<InputFile> _inputs = [];
    private double[] _frequenciesHz = [];
    private double[] _alsoHz = [];
    private SiteTerrain? _terrain;

    private SiteLoader(ISiteFiles files) => _files = files;

    /// <summary>Loads a site.</summary>
    /// <param name="source">The site file.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(SourceFile source, out IReadOnlyList<Diagnostic> diagnostics)
    {
        ArgumentNullException.ThrowIfNull(source);
        return new SiteLoader(source.Folder).Load(SiteReader.Read(source.Bytes, source.Path, source.Folder), out diagnostics);
    }

    /// <summary>Loads what a site that was read names, for it to be joined with another.</summary>
    /// <param name="reading">The site as read.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="joined">The other site, at whose frequencies circuits must have a solution too; null for none.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    internal static LoadedSite? LoadToJoin(
        SiteReading reading, ISiteFiles files, SiteDocument? joined, out IReadOnlyList<Diagnostic> diagnostics) =>
        new SiteLoader(files) { _alsoHz = joined is null ? [] : Frequencies(joined) }.Load(reading, out diagnostics);

    /// <summary>Loads a site from disk.</summary>
    /// <param name="path">The site file.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(string path, out IReadOnlyList<Diagnostic> diagnostics)
    {
        DiagnosticBag findings = new();
        if (SourceFile.Read(path, FileKind.Site, findings) is { } source)
        {
            return Load(source, out diagnostics);
        }

        diagnostics = findings.InOrder();
        return null;
    }

    /// <summary>Loads a site whose text is at hand.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(string text, string fileName, ISiteFiles files, out IReadOnlyList<Diagnostic> diagnostics) =>
        Load(SourceFile.OfText(fileName, text, files), out diagnostics);

    /// <summary>Loads circuits and sweeps that a site could use; one with an error is left out.</summary>
    /// <param name="site">The site, for its frequencies.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="paths">Paths relative to the site file.</param>
    public static IReadOnlyDictionary<string, Network> LoadNetworks(SiteDocument site, ISiteFiles files, IEnumerable<string> paths)
    {
        Dictionary<string, Network> all = new(StringComparer.Ordinal);
        foreach (string path in paths)
        {
            SiteLoader loader = new(files) { _frequenciesHz = Frequencies(site) };
            FileReference reference = new(path, site.File, default);
            loader.LoadNetwork(reference);

            if (!loader._diagnostics.HasErrors && loader._networks.TryGetValue(path, out Network? network))
            {
                all[path] = network;
            }
        }

        return all;
    }

    /// <summary>Loads one circuit or sweep that a document names.</summary>
    /// <param name="reference">Its name.</param>
    /// <param name="files">The files beside the document.</param>
    /// <param name="frequenciesHz">Frequencies at which a circuit must have a solution.</param>
    /// <param name="findings">Takes all findings.</param>
    /// <param name="inputs">Takes the files that were read.</param>
    internal static Network? LoadNetwork(
        FileReference reference, ISiteFiles files, double[] frequenciesHz, DiagnosticBag findings, List<InputFile> inputs)
    {
        SiteLoader loader = new(files) { _frequenciesHz = frequenciesHz };
        loader.LoadNetwork(reference);
        findings.AddRange(loader._diagnostics.InOrder());
        inputs.AddRange(loader._inputs.Where(i => inputs.All(known => known.Name != i.Name)));
        return loader._networks.GetValueOrDefault(reference.Path);
    }

    private static double[] Frequencies(SiteDocument site) =>
        [.. site.Receivers.Select(static r => (double)r.Frequency.Hertz), .. site.Emitters.Select(static e => (double)e.Frequency.Hertz)];

    private LoadedSite? Load(SiteReading reading, out IReadOnlyList<Diagnostic> diagnostics)
    {
        _diagnostics.AddRange(reading.Diagnostics);
        foreach (SiteInput input in reading.Inputs)
        {
            AddInput(new InputFile(input.Name, SourceFile.HashOf(input.Content.Span)));
        }

        if (reading.Document is { } site)
        {
            _frequenciesHz = [.. Frequencies(site), .. _alsoHz];
            _terrain = SiteTerrain.Of(site, _files, _diagnostics);
            foreach (ReceiverEntry receiver in site.Receivers)
            {
                LoadChain(receiver);
            }

            foreach (FileReference filter in site.Emitters.SelectMany(static e => (FileReference?[])[e.OutputFilter,
                e.Antenna?.Response?.TwoPort]).OfType<FileReference>())
            {
                LoadSweep(filter);
            }

            foreach (EvidenceEntry evidence in site.Evidence)
            {
                LoadEvidence(evidence, site);
            }

            LogOverlaps.Report(site, _logs, _diagnostics);
        }

        diagnostics = _diagnostics.InOrder();
        return reading.Document is null || _diagnostics.HasErrors
            ? null
            : new LoadedSite(reading.Document, _networks, _inputs, [.. diagnostics.Where(static d => d.Severity == Severity.Warning)])
            {
                Terrain = _terrain,
                Logs = _logs,
            };
    }

    private void LoadChain(ReceiverEntry receiver)
    {
        for (int i = 0; i < receiver.Chain.Count; i++)
        {
            switch (receiver.Chain[i])
            {
                case CircuitStage circuit:
                    LoadCircuit(circuit.Circuit);
                    break;
                case TwoPortStage twoPort:
                    LoadSweep(twoPort.TwoPort);
                    break;
                case BypassStage bypass:
                    LoadBypass(bypass.Bypass);
                    break;
            }
        }

        if (receiver.Antenna?.Response?.TwoPort is { } antenna)
        {
            LoadSweep(antenna);
        }

        if (receiver.Selectivity?.TwoPort is { } front)
        {
            LoadSweep(front);
        }
    }

    private void LoadEvidence(EvidenceEntry evidence, SiteDocument site)
    {
        switch (evidence)
        {
            case FilterTest filter:
                LoadNetwork(filter.Inserted);
                break;
            case LogEvidence { Log: var reference } when !_logs.ContainsKey(reference.Path) && Bytes(reference) is { } bytes:
                if (ObservationLogReader.Read(bytes, _files.NameOf(reference.Path), site, _diagnostics) is { } log)
                {
                    _logs[reference.Path] = log;
                }

                break;
        }
    }

    private void LoadNetwork(FileReference reference)
    {
        if (reference.Path.EndsWith(CircuitName, StringComparison.OrdinalIgnoreCase))
        {
            LoadCircuit(reference);
        }
        else
        {
            LoadSweep(reference);
        }
    }

    private void LoadCircuit(FileReference reference)
    {
        if (_networks.ContainsKey(reference.Path) || Bytes(reference) is not { } bytes)
        {
            return;
        }

        string name = _files.NameOf(reference.Path);
        using MemoryStream stream = new(bytes);
        SweepOpener beside = new(_files, reference.Path);
        CircuitDocument? document = CircuitReader.Read(stream, name, beside.Open, _diagnostics);
        foreach (InputFile sweep in beside.Inputs)
        {
            AddInput(sweep);
        }

        if (document is null || !document.RequireKnown(_diagnostics))
        {
            return;
        }

        if (CircuitSolver.TryCreate(document.Circuit, out IReadOnlyList<CircuitFault> faults) is not { } solver)
        {
            foreach (CircuitFault fault in faults)
            {
                document.Report(fault, _diagnostics);
            }

            return;
        }

        CircuitTwoPort twoPort = new(solver);
        if (Solves(twoPort, document))
        {
            _networks[reference.Path] = new Network(document.Circuit.Name, twoPort, [])
            {
                LeakageUnstated = document.Circuit.LeakageDb is null,
                Circuit = document.Circuit,
            };
        }
    }

    /// <summary>
    /// Whether the circuit has a solution at every frequency of the site; a lossless resonance exactly on one may have none.
    /// </summary>
    private bool Solves(CircuitTwoPort twoPort, CircuitDocument document)
    {
        try
        {
            foreach (double frequency in _frequenciesHz.Where(f => f >= twoPort.LowestHz && f <= twoPort.HighestHz))
            {
                _ = twoPort.At(frequency);
            }

            return true;
        }
        catch (CircuitException fault)
        {
            document.Report(fault.Fault, _diagnostics);
            return false;
        }
    }

    // The relay at rest: the filter that it names, with its contacts. The site that it names is not read, it may be this one.
    private void LoadBypass(FileReference reference)
    {
        if (_networks.ContainsKey(reference.Path) || Bytes(reference) is not { } bytes)
        {
            return;
        }

        SourceFile file = new(_files.NameOf(reference.Path), bytes, new FilesBeside(_files, reference.Path));
        if (file.Kind != FileKind.Bypass)
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' is no bypass relay",
                "name a *.bypass.yaml here");
            return;
        }

        if (BypassLoader.Load(file, withSite: false, _frequenciesHz, _diagnostics) is not { } bypass)
        {
            return;
        }

        foreach (InputFile input in bypass.Inputs)
        {
            AddInput(input);
        }

        if (bypass.Filter is not { } filter)
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' names no filter, so nothing stands in line",
                "add 'filter: my-filter.circuit.yaml' to it");
            return;
        }

        _networks[reference.Path] = new Network(
            bypass.Document.Name, new BypassedFilter(filter.TwoPort, bypass.Document.ContactOpenF, bypass.Document.ContactLossDb),
            filter.Remarks)
        {
            LeakageUnstated = filter.LeakageUnstated,
        };
    }

    private void LoadSweep(FileReference reference)
    {
        if (reference.Path.EndsWith(CircuitName, StringComparison.OrdinalIgnoreCase))
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' is a circuit, and a sweep is due here",
                    "name a two-port sweep (.s2p) here");
            return;
        }

        if (_networks.ContainsKey(reference.Path) || Bytes(reference) is not { } bytes)
        {
            return;
        }

        string name = _files.NameOf(reference.Path);
        using MemoryStream stream = new(bytes);
        if (TouchstoneReader.Read(stream, name, _diagnostics) is not { } data)
        {
            return;
        }

        if (data.Ports != 2)
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' is a one-port sweep",
                    "name a two-port sweep (.s2p) here");
            return;
        }

        MeasuredTwoPort measured = MeasuredTwoPort.From(data);
        _networks[reference.Path] = new Network(
            Path.GetFileName(reference.Path),
            measured,
            [.. measured.Remarks.Select(remark => new ReceiverAssumption.OfSweep(reference.Path, remark))]);
    }

    private byte[]? Bytes(FileReference reference)
    {
        byte[]? bytes = _files.Read(reference.Path);
        if (bytes is not null)
        {
            AddInput(new InputFile(_files.NameOf(reference.Path), SourceFile.HashOf(bytes)));
        }
        else
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' cannot be read",
                    "check the file's name and permissions");
        }

        return bytes;
    }

    private void AddInput(InputFile input)
    {
        if (!_inputs.Exists(i => i.Name == input.Name))
        {
            _inputs.Add(input);
        }
    }
}
