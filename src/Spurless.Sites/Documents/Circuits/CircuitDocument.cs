using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>A circuit file as read: the circuit, and where its parts stand.</summary>
public sealed class CircuitDocument
{
    private readonly IReadOnlyDictionary<string, YamlPosition> _places;
    private readonly YamlPosition _ports;

    internal CircuitDocument(string file, Circuit circuit, IReadOnlyDictionary<string, YamlPosition> places, YamlPosition ports)
    {
        File = file;
        Circuit = circuit;
        _places = places;
        _ports = ports;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string File { get; }

    /// <summary>The circuit.</summary>
    public Circuit Circuit { get; }

    /// <summary>Where a part stands in the file; where the ports stand for any other name.</summary>
    public YamlPosition PlaceOf(string part) => _places.TryGetValue(part, out YamlPosition place) ? place : _ports;

    /// <summary>Reports a fault of the circuit at the first of its parts.</summary>
    public void Report(CircuitFault fault, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(fault);
        ArgumentNullException.ThrowIfNull(diagnostics);
        YamlPosition place = fault.Parts.Count > 0 ? PlaceOf(fault.Parts[0]) : _ports;
        diagnostics.Error(File, place.Line, place.Column, fault.What, fault.Remedy);
    }

    /// <summary>Reports every unknown value as an error, for computations that need all of them.</summary>
    /// <returns>Whether all values are known.</returns>
    public bool RequireKnown(DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        bool known = true;
        foreach (Part part in Circuit.Parts.Where(static p => p.HasUnknown))
        {
            known = false;
            YamlPosition place = PlaceOf(part.Name);
            diagnostics.Error(
                File, place.Line, place.Column, $"a value of {part.Name} is unknown", "give it a value, or let 'fit' find it from a sweep");
        }

        return known;
    }
}
