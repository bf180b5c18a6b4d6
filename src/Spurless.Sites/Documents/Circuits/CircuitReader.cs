using System.Text.Json.Nodes;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>Reads circuit files (<c>*.circuit.yaml</c>), and says in JSON Schema what may stand in them.</summary>
public static class CircuitReader
{
    private static readonly Shape<PortsDraft> _ports = Shapes.Mapping("{ in: a, out: b, impedance: 50 ohm }", ReadPorts);

    /// <summary>Reads a file.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="fileName">Its name for messages.</param>
    /// <param name="open">Opens the sweeps it names.</param>
    /// <param name="diagnostics">Takes all findings, those of the sweeps included.</param>
    /// <returns>The circuit, every structural check passed; null where there is an error.</returns>
    public static CircuitDocument? Read(string text, string fileName, FileOpener open, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        CircuitDocument? document = Read(YamlReader.Read(text, fileName, own), fileName, open, own);
        diagnostics.AddRange(own.InOrder());
        return document;
    }

    /// <summary>Reads a file from its bytes.</summary>
    /// <inheritdoc cref="Read(string, string, FileOpener, DiagnosticBag)"/>
    public static CircuitDocument? Read(Stream stream, string fileName, FileOpener open, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        CircuitDocument? document = Read(YamlReader.Read(stream, fileName, own), fileName, open, own);
        diagnostics.AddRange(own.InOrder());
        return document;
    }

    /// <summary>
    /// What can be read of a file that may still have mistakes, for drawing while it is being built: nothing about it was checked.
    /// </summary>
    /// <param name="text">Its text.</param>
    /// <param name="fileName">Its name for messages.</param>
    /// <param name="open">Opens the sweeps it names.</param>
    /// <returns>The parts that can be read; null where the form of the file is broken or its ports are missing.</returns>
    public static Circuit? Sketch(string text, string fileName, FileOpener open)
    {
        DiagnosticBag bag = new();
        YamlMapping? mapping = YamlReader.Read(text, fileName, bag);
        if (mapping is null || bag.HasErrors)
        {
            return null;
        }

        Dictionary<string, ITwoPort?> sweeps = new(StringComparer.Ordinal);
        Draft draft = ReadAll(new MappingReader(mapping, bag), new PartShape(path => Sweep(path, open, sweeps, bag)));
        return draft.Ports is { In: not null, Out: not null } ? CircuitOf(draft, fileName, []) : null;
    }

    /// <summary>The JSON Schema (2020-12) of circuit files, made from what the reader asks for.</summary>
    public static JsonObject Schema()
    {
        MappingReader reader = MappingReader.Describing();
        ReadAll(reader, new PartShape(null));
        JsonObject schema = reader.Describe();
        schema.Insert(0, "$schema", "https://json-schema.org/draft/2020-12/schema");
        schema.Insert(1, "title", "Spurless circuit file, version 1");
        return schema;
    }

    private static CircuitDocument? Read(YamlMapping? mapping, string fileName, FileOpener open, DiagnosticBag diagnostics)
    {
        if (mapping is null)
        {
            return null;
        }

        MappingReader reader = new(mapping, diagnostics);
        Dictionary<string, ITwoPort?> sweeps = new(StringComparer.Ordinal);
        Draft draft = ReadAll(reader, new PartShape(path => Sweep(path, open, sweeps, diagnostics)));
        reader.Finish();
        if (draft.Parts is { Count: 0 })
        {
            mapping.Find("parts")?.Value.Error(
                diagnostics, "there are no parts", "write at least one, as in L1: { inductor: 24 nH, between: [a, gnd] }");
        }

        if (diagnostics.HasErrors || draft.Ports is null)
        {
            return null;
        }

        Dictionary<string, YamlPosition> places = new(StringComparer.Ordinal);
        Circuit circuit = CircuitOf(draft, fileName, places);
        CircuitDocument document = new(fileName, circuit, places, mapping.Find("ports")?.Key.Start ?? mapping.Start);
        foreach (CircuitFault fault in CircuitCheck.Faults(circuit))
        {
            document.Report(fault, diagnostics);
        }

        return diagnostics.HasErrors ? null : document;
    }

    private static Circuit CircuitOf(Draft draft, string fileName, Dictionary<string, YamlPosition> places)
    {
        List<Part> parts = [];
        foreach (Named<PartDraft> named in draft.Parts ?? [])
        {
            if (places.TryAdd(named.Name, named.Key.Start) && named.Value.Part is { } part)
            {
                parts.Add(part with { Name = named.Name });
            }
        }

        return new Circuit
        {
            Name = draft.Name ?? System.IO.Path.GetFileName(fileName),
            PortIn = draft.Ports!.In,
            PortOut = draft.Ports.Out,
            ImpedanceOhm = draft.Ports.ImpedanceOhm,
            Parts = parts,
            LeakageDb = draft.LeakageDb,
        };
    }

    private static Draft ReadAll(MappingReader reader, PartShape part)
    {
        reader.Required("spurless_circuit", Shapes.Integer("1, the version of the format", 1, 1), "version of the format");
        string? name = reader.Optional("name", Shapes.TextOf("the circuit's name"), "what it is");
        PortsDraft? ports = reader.Required("ports", _ports, "the two ports");
        var parts = reader.Required("parts", Shapes.MapOf("a part's name", part), "the parts by name");
        double? leakage = reader.Maybe("leakage", Shapes.Value<Decibels>("decibels such as 80 dB", Decibels.TryParse)
            .Check(
                static d => d.Value > 0 ? null : new Refusal(
                    "a leakage that is not above 0 dB", "write how far below the signal it is, such as 80 dB")).Select(static d => d.Value),
            "what goes round the circuit, below the signal: caps its rejection");
        return new Draft(name, ports, parts, leakage);
    }

    private static PortsDraft ReadPorts(MappingReader reader) => new(
        reader.Required("in", Shapes.TextOf("a node's name"), "node of port 1"),
        reader.Required("out", Shapes.TextOf("a node's name"), "node of port 2"),
        reader.Maybe("impedance", ValueKind.Resistance.Known, "impedance of both ports; 50 ohm where it does not stand") ?? 50);

    private static ITwoPort? Sweep(Located<string> path, FileOpener open, Dictionary<string, ITwoPort?> sweeps, DiagnosticBag diagnostics)
    {
        if (sweeps.TryGetValue(path.Value, out ITwoPort? known))
        {
            return known;
        }

        sweeps[path.Value] = null;
        using Stream? stream = open(path.Value, out Refusal? refusal);
        if (stream is null)
        {
            path.Error(diagnostics, refusal!.What, refusal.Remedy);
            return null;
        }

        DiagnosticBag own = new();
        TouchstoneData? data = TouchstoneReader.Read(stream, path.Value, own);
        diagnostics.AddRange(own.InOrder());
        if (data is null)
        {
            path.Error(diagnostics, $"the sweep '{path.Value}' cannot be used", "see the findings about that file");
            return null;
        }

        if (data.Ports != 2)
        {
            path.Error(diagnostics, $"'{path.Value}' has one port", "write a sweep of two ports, such as measured.s2p");
            return null;
        }

        return sweeps[path.Value] = MeasuredTwoPort.From(data);
    }

    private sealed record PortsDraft(string In, string Out, double ImpedanceOhm);

    private sealed record Draft(string? Name, PortsDraft? Ports, IReadOnlyList<Named<PartDraft>>? Parts, double? LeakageDb);
}
