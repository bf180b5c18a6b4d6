using System.Security.Cryptography;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Fit;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Checking;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Networks;

/// <summary>A traced circuit and a sweep, read for a fit.</summary>
public sealed class FitFiles
{
    private FitFiles(CircuitDocument document, string text, FitSweep sweep, IReadOnlyList<InputFile> inputs)
    {
        Document = document;
        Text = text;
        Sweep = sweep;
        Inputs = inputs;
    }

    /// <summary>The circuit as read.</summary>
    public CircuitDocument Document { get; }

    /// <summary>The circuit file's text.</summary>
    public string Text { get; }

    /// <summary>The sweep in the circuit's impedance.</summary>
    public FitSweep Sweep { get; }

    /// <summary>Both files, each with its SHA-256.</summary>
    public IReadOnlyList<InputFile> Inputs { get; }

    /// <summary>Reads both.</summary>
    /// <param name="circuitPath">A circuit file.</param>
    /// <param name="sweepPath">A .s1p, a .s2p, or a table of magnitudes.</param>
    /// <param name="diagnostics">Takes all findings of both.</param>
    /// <returns>Both; null where there is an error.</returns>
    public static FitFiles? Load(string circuitPath, string sweepPath, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        byte[]? circuit = UserFile.Read(circuitPath, TextDecoder.MaximumBytes, diagnostics);
        byte[]? sweep = UserFile.Read(sweepPath, TouchstoneReader.LargestFile, diagnostics);
        CircuitDocument? document = null;
        if (circuit is not null)
        {
            if (FileKinds.Of(circuitPath, circuit) == FileKind.Circuit)
            {
                using MemoryStream stream = new(circuit);
                document = CircuitReader.Read(stream, circuitPath, FolderOpener.Beside(circuitPath), diagnostics);
            }
            else
            {
                diagnostics.Error(circuitPath, 0, 0, "this is no circuit file", "name the *.circuit.yaml first, then the sweep");
            }
        }

        FitSweep? read = sweep is null ? null : ReadSweep(sweepPath, sweep, document?.Circuit.ImpedanceOhm ?? 50, diagnostics);
        return document is null || read is null || diagnostics.HasErrors || TextDecoder.Decode(circuit, circuitPath, diagnostics) is not { } text
            ? null
            : new FitFiles(document, text, read, [new InputFile(circuitPath, Hash(circuit!)), new InputFile(sweepPath, Hash(sweep!))]);
    }

    private static FitSweep? ReadSweep(string path, byte[] bytes, double impedanceOhm, DiagnosticBag diagnostics)
    {
        switch (FileKinds.Of(path, bytes))
        {
            case FileKind.Touchstone:
                {
                    using MemoryStream stream = new(bytes);
                    try
                    {
                        return TouchstoneReader.Read(stream, path, diagnostics) is { } data ? FitSweep.From(data, impedanceOhm) : null;
                    }
                    catch (ArithmeticException e)
                    {
                        diagnostics.Error(path, 0, 0, e.Message, "give the sweep in the circuit's port impedance");
                        return null;
                    }
                }

            case FileKind.Site or FileKind.Circuit or FileKind.Requirement:
                diagnostics.Error(path, 0, 0, "this is no sweep", "name a *.s1p, a *.s2p, or a table with the head frequency_hz,s21_db");
                return null;
            default:
                return MagnitudeSweepReader.Read(bytes, path, diagnostics);
        }
    }

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
