using System.Security.Cryptography;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Checking;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Networks;

/// <summary>A circuit file or a measured one- or two-port, ready to be computed.</summary>
public sealed class NetworkFile
{
    private readonly CircuitDocument? _circuit;

    private NetworkFile(string file, string name, ITwoPort network, CircuitDocument? circuit, byte[] bytes)
    {
        File = file;
        Name = name;
        Network = network;
        _circuit = circuit;
        Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string File { get; }

    /// <summary>The circuit's name, or the file's.</summary>
    public string Name { get; }

    /// <summary>The network itself.</summary>
    public ITwoPort Network { get; }

    /// <summary>The circuit, or null for a measured network.</summary>
    public Circuit? Circuit => _circuit?.Circuit;

    /// <summary>The file's SHA-256 in lower-case hexadecimal.</summary>
    public string Sha256 { get; }

    /// <summary>Insertion loss at a frequency in hertz, in dB; null for a one-port and outside a sweep.</summary>
    public double? LossDb(double frequencyHz) =>
        Network is MeasuredTwoPort { Ports: 1 } || frequencyHz < Network.LowestHz || frequencyHz > Network.HighestHz
            ? null
            : Network.At(frequencyHz).InsertionLossDb;

    /// <summary>What the network takes from a carrier: between matched ends, and least and most with the mismatch that a site's first receiver states.</summary>
    /// <param name="frequencyHz">The carrier's frequency in hertz.</param>
    /// <param name="site">The site; its receiver's and antenna's mismatch hold, 0.5 where none is stated.</param>
    /// <returns>The rejection, relative to a through between matched ends; null for a one-port and outside a sweep.</returns>
    /// <remarks><c>1/|(1 - S11 Ga)(1 - S22 Gr) - S12 S21 Ga Gr|^2</c> over all phases (docs/method/filter-in-line.md).</remarks>
    public FilterRejection? RejectionAt(double frequencyHz, SiteDocument site)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (LossDb(frequencyHz) is not { } loss)
        {
            return null;
        }

        ReceiverEntry? receiver = site.Receivers.Count > 0 ? site.Receivers[0] : null;
        (double low, double high) = MismatchBand.Db(
            Network.At(frequencyHz), receiver?.Antenna?.Mismatch ?? ReceiverSetup.DefaultMismatch, receiver?.Mismatch ?? ReceiverSetup.DefaultMismatch);
        return new FilterRejection(loss, loss - high, loss - low);
    }

    /// <summary>Reads a file of either kind.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The network; null where there is an error.</returns>
    public static NetworkFile? Load(string path, DiagnosticBag diagnostics)
    {
        if (UserFile.Read(path, TouchstoneReader.LargestFile, diagnostics) is not { } bytes)
        {
            return null;
        }

        return Load(path, bytes, new SiteFolder(path), diagnostics);
    }

    /// <summary>Reads a file of either kind whose bytes are at hand.</summary>
    /// <param name="path">Its name, for messages.</param>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The network; null where there is an error.</returns>
    public static NetworkFile? Load(string path, byte[] bytes, ISiteFiles files, DiagnosticBag diagnostics)
    {
        using MemoryStream stream = new(bytes);
        switch (FileKinds.Of(path, bytes))
        {
            case FileKind.Touchstone:
                return TouchstoneReader.Read(stream, path, diagnostics) is { } data
                    ? new NetworkFile(path, Path.GetFileName(path), MeasuredTwoPort.From(data), null, bytes)
                    : null;
            case FileKind.Circuit:
                return CircuitReader.Read(stream, path, FolderOpener.Beside(files), diagnostics) is { } circuit && circuit.RequireKnown(diagnostics)
                    ? Solvable(path, circuit, bytes, diagnostics)
                    : null;
            default:
                diagnostics.Error(path, 0, 0, "this is neither a circuit nor a Touchstone file", "name a *.circuit.yaml, a *.s1p or a *.s2p");
                return null;
        }
    }

    /// <summary>The response at frequencies.</summary>
    /// <param name="frequenciesHz">In hertz; null for those that show the network best.</param>
    /// <param name="diagnostics">Takes what cannot be computed.</param>
    /// <param name="cancellationToken">Stops the computation.</param>
    /// <returns>The response; null where there is an error.</returns>
    public ResponseResult? Response(double[]? frequenciesHz, DiagnosticBag diagnostics, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        try
        {
            double[] frequencies = frequenciesHz ?? ResponseCalculator.DefaultFrequencies(Network);
            if (ResponseCalculator.Problem(Network, Name, frequencies) is { } problem)
            {
                int cut = problem.IndexOf("; ", StringComparison.Ordinal);
                diagnostics.Error(File, 0, 0, cut < 0 ? problem : problem[..cut], cut < 0 ? "ask for other frequencies" : problem[(cut + 2)..]);
                return null;
            }

            return ResponseCalculator.Compute(Network, Name, frequencies, cancellationToken);
        }
        catch (CircuitException e) when (_circuit is not null)
        {
            _circuit.Report(e.Fault, diagnostics);
            return null;
        }
    }

    private static NetworkFile? Solvable(string path, CircuitDocument circuit, byte[] bytes, DiagnosticBag diagnostics)
    {
        if (CircuitSolver.TryCreate(circuit.Circuit, out IReadOnlyList<CircuitFault> faults) is not { } solver)
        {
            foreach (CircuitFault fault in faults)
            {
                circuit.Report(fault, diagnostics);
            }

            return null;
        }

        try
        {
            return new NetworkFile(path, circuit.Circuit.Name, new CircuitTwoPort(solver), circuit, bytes);
        }
        catch (CircuitException e)
        {
            circuit.Report(e.Fault, diagnostics);
            return null;
        }
    }
}
