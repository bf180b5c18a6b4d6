using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Sources;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Bench;

/// <summary>A circuit with values in force, and the network that it is.</summary>
/// <param name="Circuit">The circuit.</param>
/// <param name="Network">The network; null where a value is unknown or it cannot be solved.</param>
/// <param name="Solver">Its solver, for what needs the parts; null as the network is.</param>
/// <param name="Problem">Why there is no network; null where there is one.</param>
public sealed record TunedCircuit(Circuit Circuit, CircuitTwoPort? Network, CircuitSolver? Solver, string? Problem);

/// <summary>
/// A circuit file on the bench: which of its values can be moved, what the circuit is with some moved, and the file as that would be
/// written. Nothing is written here. Safe for use by several threads.
/// </summary>
public sealed class CircuitBench
{
    private readonly Dictionary<string, (DeskItem Item, PartField Field)> _fields;

    private readonly FileOpener _open;

    private CircuitBench(string text, CircuitDocument document, FileOpener open)
    {
        (Text, Document, _open) = (text, document, open);
        Items = DeskParts.Of(document.File, document.Circuit);
        _fields = Items.ToDictionary(static i => i.Id, static i => (i, (PartField)i.Target), StringComparer.Ordinal);
    }

    /// <summary>The file's text.</summary>
    public string Text { get; }

    /// <summary>The file as read.</summary>
    public CircuitDocument Document { get; }

    /// <summary>The circuit as its file has it.</summary>
    public Circuit Circuit => Document.Circuit;

    /// <summary>What can be moved, in the order of the parts; the name of an item is that of its part.</summary>
    public IReadOnlyList<DeskItem> Items { get; }

    /// <summary>Names of parts with a value that is unknown.</summary>
    public IReadOnlyList<string> Unknown => [.. Circuit.Parts.Where(static p => p.HasUnknown).Select(static p => p.Name)];

    /// <summary>Puts a circuit file on the bench.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="file">Its name.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">All findings.</param>
    /// <returns>The bench; null where there is an error.</returns>
    public static CircuitBench? Open(string text, string file, ISiteFiles files, out IReadOnlyList<Diagnostic> diagnostics)
    {
        ArgumentNullException.ThrowIfNull(files);
        DiagnosticBag bag = new();
        FileOpener open = SourceReader.SweepsBeside(files);
        CircuitDocument? document = CircuitReader.Read(text, file, open, bag);
        diagnostics = bag.InOrder();
        return document is null || bag.HasErrors ? null : new CircuitBench(text, document, open);
    }

    /// <summary>The circuit with values moved.</summary>
    /// <param name="settings">What was moved; what this circuit does not know is left out.</param>
    public TunedCircuit With(DeskSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Circuit circuit = Circuit;
        if (!settings.IsEmpty)
        {
            Dictionary<string, Part> changed = [];
            foreach (string id in settings.Ids)
            {
                if (_fields.TryGetValue(id, out (DeskItem Item, PartField Field) f)
                    && f.Field.Change(f.Field.Entry, f.Item.Written(settings.Of(f.Item))) is { } part)
                {
                    changed[part.Name] = part;
                }
            }

            circuit = circuit with { Parts = [.. circuit.Parts.Select(p => changed.GetValueOrDefault(p.Name, p))] };
        }

        if (circuit.Parts.Any(static p => p.HasUnknown))
        {
            return new TunedCircuit(
                circuit, null, null, $"unknown: {string.Join(", ", Unknown)}; write a value, or let a fit find it from a sweep");
        }

        if (CircuitSolver.TryCreate(circuit, out IReadOnlyList<CircuitFault> faults) is not { } solver)
        {
            return new TunedCircuit(circuit, null, null, $"{faults[0].What}; {faults[0].Remedy}");
        }

        return new TunedCircuit(circuit, new CircuitTwoPort(solver), solver, null);
    }

    /// <summary>A text of the file with the settings written into it; comments and everything else stay.</summary>
    /// <param name="text">The text as it stands now: other values in it may have changed since it was put on the bench.</param>
    /// <param name="settings">What was moved.</param>
    /// <param name="problem">Why it cannot be written; null where it can.</param>
    /// <returns>The new text; null where it cannot be written.</returns>
    public string? Keep(string text, DeskSettings settings, out string? problem)
    {
        ArgumentNullException.ThrowIfNull(settings);
        problem = null;
        string? now = text;
        foreach (string id in settings.Ids)
        {
            if (_fields.TryGetValue(id, out (DeskItem Item, PartField Field) f))
            {
                now =
                    DeskEdit.Set(
                        f.Field.Keys.Aggregate(YamlPath.Root, static (path, key) => path.Key(key)),
                        YamlValue.Of(f.Item.Written(settings.Of(f.Item))))
                        .Apply(now, out problem);
                if (now is null)
                {
                    return null;
                }
            }
        }

        return now;
    }

    /// <summary>A text of the file with a value in place of one that was unknown; the range in which it was sought goes.</summary>
    /// <param name="text">The text as it stands now.</param>
    /// <param name="part">The part.</param>
    /// <param name="key">The key of its value.</param>
    /// <param name="value">The value as typed.</param>
    /// <param name="problem">Why it cannot be written; null where it can.</param>
    /// <returns>The new text; null where it cannot be written.</returns>
    public string? Found(string text, string part, string key, string value, out string? problem)
    {
        YamlPath path = YamlPath.Root.Key("parts").Key(part);
        string? now = DeskEdit.Set(path.Key(key), YamlValue.Of(value.Trim())).Apply(text, out problem);
        if (now is not null && Folders.FieldText.NodeOf(Folders.FieldText.Parse(now)!, $"parts.{part}.range") is not null)
        {
            now = DeskEdit.Remove(path.Key("range")).Apply(now, out problem);
        }

        if (now is null)
        {
            return null;
        }

        // What was typed is held against the format before it is written.
        DiagnosticBag bag = new();
        CircuitReader.Read(now, Document.File, _open, bag);
        if (bag.HasErrors)
        {
            Diagnostic first = bag.InOrder()[0];
            problem = $"{part}: {first.What}; {first.Remedy}";
            return null;
        }

        return now;
    }
}
