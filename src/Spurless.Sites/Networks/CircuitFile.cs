using System.Security.Cryptography;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Checking;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Networks;

/// <summary>A circuit file with all values known, ready for what needs its parts and not its response alone.</summary>
public sealed class CircuitFile
{
    private readonly CircuitDocument _document;

    private CircuitFile(CircuitDocument document, IReadOnlyList<InputFile> inputs)
    {
        _document = document;
        Inputs = inputs;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string File => _document.File;

    /// <summary>The circuit.</summary>
    public Circuit Circuit => _document.Circuit;

    /// <summary>The file and the sweeps it names, each with its SHA-256.</summary>
    public IReadOnlyList<InputFile> Inputs { get; }

    /// <summary>Reads a circuit file.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The circuit; null where there is an error, such as a value that is unknown.</returns>
    public static CircuitFile? Load(string path, DiagnosticBag diagnostics)
    {
        if (UserFile.Read(path, TextDecoder.MaximumBytes, diagnostics) is not { } bytes)
        {
            return null;
        }

        FileKind kind = FileKinds.Of(path, bytes);
        if (kind != FileKind.Circuit)
        {
            diagnostics.Error(path, 0, 0, kind == FileKind.Touchstone ? "a measured sweep tells nothing of its parts" : "this is no circuit file", "name a *.circuit.yaml");
            return null;
        }

        List<InputFile> inputs = [new(path, Hash(bytes))];
        FileOpener beside = FolderOpener.Beside(path);
        Stream? Open(string name, out string problem)
        {
            Stream? found = beside(name, out problem);
            if (found is MemoryStream memory)
            {
                inputs.Add(new(name, Hash(memory.ToArray())));
            }

            return found;
        }

        using MemoryStream stream = new(bytes);
        return CircuitReader.Read(stream, path, Open, diagnostics) is { } document && document.RequireKnown(diagnostics) ? new CircuitFile(document, inputs) : null;
    }

    /// <summary>A solver for the circuit, or for a changed form of it with the same parts.</summary>
    /// <param name="diagnostics">Takes its faults.</param>
    /// <param name="changed">The changed form; null for the circuit itself.</param>
    public CircuitSolver? Solver(DiagnosticBag diagnostics, Circuit? changed = null)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        CircuitSolver? solver = CircuitSolver.TryCreate(changed ?? Circuit, out IReadOnlyList<CircuitFault> faults);
        foreach (CircuitFault fault in faults)
        {
            _document.Report(fault, diagnostics);
        }

        return solver;
    }

    /// <summary>Reports a fault of the computation at the part that it concerns.</summary>
    public void Report(CircuitFault fault, DiagnosticBag diagnostics) => _document.Report(fault, diagnostics);

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
