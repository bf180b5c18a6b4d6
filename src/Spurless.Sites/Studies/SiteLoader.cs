using System.Security.Cryptography;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Studies;

/// <summary>Reads a site file and every circuit and sweep that it names. All that is wrong in any of them is reported at once.</summary>
public sealed class SiteLoader
{
    private readonly ISiteFiles _files;
    private readonly DiagnosticBag _diagnostics = new();
    private readonly Dictionary<string, Network> _networks = new(StringComparer.Ordinal);
    private readonly List<InputFile> _inputs = [];
    private double[] _frequenciesHz = [];

    private SiteLoader(ISiteFiles files) => _files = files;

    /// <summary>Loads a site from disk.</summary>
    /// <param name="path">The site file.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(string path, out IReadOnlyList<Diagnostic> diagnostics) =>
        new SiteLoader(new SiteFolder(path)).Load(SiteReader.Read(path), out diagnostics);

    /// <summary>Loads a site whose text is at hand.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(string text, string fileName, ISiteFiles files, out IReadOnlyList<Diagnostic> diagnostics) =>
        new SiteLoader(files).Load(SiteReader.Read(text, fileName, files), out diagnostics);

    /// <summary>Loads circuits and sweeps that a site could use; one with an error is left out.</summary>
    /// <param name="site">The site, for its frequencies.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="paths">Paths relative to the site file.</param>
    internal static IReadOnlyDictionary<string, Network> LoadNetworks(SiteDocument site, ISiteFiles files, IEnumerable<string> paths)
    {
        Dictionary<string, Network> all = new(StringComparer.Ordinal);
        foreach (string path in paths)
        {
            SiteLoader loader = new(files) { _frequenciesHz = Frequencies(site) };
            FileReference reference = new(path, site.File, default);
            if (path.EndsWith(".circuit.yaml", StringComparison.OrdinalIgnoreCase))
            {
                loader.LoadCircuit(reference);
            }
            else
            {
                loader.LoadSweep(reference);
            }

            if (!loader._diagnostics.HasErrors && loader._networks.TryGetValue(path, out Network? network))
            {
                all[path] = network;
            }
        }

        return all;
    }

    private static double[] Frequencies(SiteDocument site) =>
        [.. site.Receivers.Select(static r => (double)r.Frequency.Hertz), .. site.Emitters.Select(static e => (double)e.Frequency.Hertz)];

    /// <summary>Loads a site whose bytes are at hand.</summary>
    /// <param name="bytes">The site file's bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">All findings, the site file's first.</param>
    /// <returns>The site; null where there is an error.</returns>
    public static LoadedSite? Load(byte[] bytes, string fileName, ISiteFiles files, out IReadOnlyList<Diagnostic> diagnostics) =>
        new SiteLoader(files).Load(SiteReader.Read(bytes, fileName, files), out diagnostics);

    private LoadedSite? Load(SiteReading reading, out IReadOnlyList<Diagnostic> diagnostics)
    {
        _diagnostics.AddRange(reading.Diagnostics);
        foreach (SiteInput input in reading.Inputs)
        {
            AddInput(input.Name, input.Content.Span);
        }

        if (reading.Document is { } site)
        {
            _frequenciesHz = Frequencies(site);
            foreach (ReceiverEntry receiver in site.Receivers)
            {
                LoadChain(receiver);
            }

            foreach (FileReference filter in site.Emitters.Select(static e => e.OutputFilter).OfType<FileReference>())
            {
                LoadSweep(filter);
            }
        }

        diagnostics = _diagnostics.InOrder();
        return reading.Document is null || _diagnostics.HasErrors
            ? null
            : new LoadedSite(reading.Document, _networks, _inputs, [.. diagnostics.Where(static d => d.Severity == Severity.Warning)]);
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
            }
        }

        if (receiver.Selectivity?.TwoPort is { } front)
        {
            LoadSweep(front);
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
        if (CircuitReader.Read(stream, name, Opener(reference.Path), _diagnostics) is not { } document || !document.RequireKnown(_diagnostics))
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

    /// <summary>Whether the circuit has a solution at every frequency of the site; a lossless resonance exactly on one may have none.</summary>
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

    private void LoadSweep(FileReference reference)
    {
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
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' is a one-port sweep", "name a two-port sweep (.s2p) here");
            return;
        }

        MeasuredTwoPort measured = MeasuredTwoPort.From(data);
        _networks[reference.Path] = new Network(
            Path.GetFileName(reference.Path), measured, measured.Passivity.Remark is { } remark ? [$"{reference.Path}: {remark}"] : []);
    }

    private byte[]? Bytes(FileReference reference)
    {
        byte[]? bytes = _files.Read(reference.Path);
        if (bytes is not null)
        {
            AddInput(_files.NameOf(reference.Path), bytes);
        }
        else
        {
            _diagnostics.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' cannot be read", "check the file's name and permissions");
        }

        return bytes;
    }

    /// <summary>Sweeps that a circuit names are sought beside the circuit.</summary>
    private FileOpener Opener(string circuitPath) => (string path, out string problem) =>
    {
        string beside = Path.Combine(Path.GetDirectoryName(circuitPath) ?? "", path);
        byte[]? bytes = _files.Read(beside);
        problem = bytes is null ? $"'{path}' cannot be read; check the file's name, which is relative to the circuit file" : "";
        if (bytes is not null)
        {
            AddInput(_files.NameOf(beside), bytes);
        }

        return bytes is null ? null : new MemoryStream(bytes);
    };

    private void AddInput(string name, ReadOnlySpan<byte> bytes)
    {
        if (!_inputs.Exists(i => i.Name == name))
        {
            _inputs.Add(new InputFile(name, Convert.ToHexStringLower(SHA256.HashData(bytes))));
        }
    }
}
