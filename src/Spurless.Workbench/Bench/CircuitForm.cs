using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Bench;

/// <summary>A part of a circuit file as it stands in its text.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Form">What kind it is; null where nothing says so.</param>
/// <param name="From">Its first node; empty where none is written.</param>
/// <param name="To">Its second node.</param>
/// <param name="Findings">What was found at it.</param>
public sealed record FormPart(string Name, PartForm? Form, string From, string To, IReadOnlyList<Diagnostic> Findings);

/// <summary>
/// A circuit file as a form that one fills in: its parts as typed, whatever mistakes it still has, and what was found at each. A circuit
/// that is being built has
/// mistakes until its last part is in; nothing typed is lost for that.
/// </summary>
public sealed class CircuitForm
{
    private readonly YamlMapping? _root;

    private CircuitForm(FolderText file, YamlMapping? root, IReadOnlyList<Diagnostic> findings)
    {
        (File, _root, Findings) = (file, root, findings);
        YamlEntry[] entries = root?.Value("parts") is YamlMapping parts ? [.. parts.Entries] : [];
        Parts = [.. entries.Select((e, i) => PartOf(e, i + 1 < entries.Length ? entries[i + 1].Key.Start.Line : int.MaxValue))];
        HashSet<Diagnostic> told = [.. Parts.SelectMany(static p => p.Findings)];
        Elsewhere = [.. findings.Where(f => !told.Contains(f))];
        PortIn = Value("ports", "in") ?? "";
        PortOut = Value("ports", "out") ?? "";
        Nodes =
        [
            .. new[] { PortIn }.Concat(Parts.SelectMany(static p => new[] { p.From, p.To })).Append(PortOut).Where(static n =>
                n.Length > 0 && n != Circuit.Ground).Distinct(StringComparer.Ordinal),
        ];
    }

    /// <summary>The file.</summary>
    public FolderText File { get; }

    /// <summary>Whether the file can be filled in; false where its form is broken.</summary>
    public bool IsForm => _root is not null;

    /// <summary>All that was found in it.</summary>
    public IReadOnlyList<Diagnostic> Findings { get; }

    /// <summary>What was found at no part.</summary>
    public IReadOnlyList<Diagnostic> Elsewhere { get; }

    /// <summary>The parts in the file's order.</summary>
    public IReadOnlyList<FormPart> Parts { get; }

    /// <summary>Node of port 1.</summary>
    public string PortIn { get; }

    /// <summary>Node of port 2.</summary>
    public string PortOut { get; }

    /// <summary>The nodes that are in use but for ground, the input first.</summary>
    public IReadOnlyList<string> Nodes { get; }

    /// <summary>What can be drawn of it; null where nothing can.</summary>
    public Circuit? Drawn { get; private init; }

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its name and text.</param>
    /// <param name="findings">What was found in it.</param>
    /// <param name="files">The files beside it.</param>
    public static CircuitForm Of(FolderText file, IReadOnlyList<Diagnostic> findings, Sites.Documents.ISiteFiles files)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(files);
        return new CircuitForm(file, FieldText.Parse(file.Text), findings)
        {
            Drawn = CircuitReader.Sketch(file.Text, file.Name,
            SourceReader.SweepsBeside(files))
        };
    }

    /// <summary>A value as one would type it; null where it is not written.</summary>
    /// <param name="keys">The way to it.</param>
    public string? Value(params string[] keys) => _root is null ? null : Typed(_root, keys);

    /// <summary>A value of a part as one would type it; null where it is not written.</summary>
    public string? Value(string part, PartKey key) => Value([.. WayTo(part, key)]);

    /// <summary>A name that no part has yet: <c>C4</c>.</summary>
    /// <param name="letter">What it begins with.</param>
    public string FreeName(string letter)
    {
        for (int i = 1; ; i++)
        {
            string name = letter + i.ToString(CultureInfo.InvariantCulture);
            if (Parts.All(p => p.Name != name))
            {
                return name;
            }
        }
    }

    /// <summary>A node that is not in use yet: <c>b</c>.</summary>
    public string FreeNode => Enumerable.Range('a', 26).Select(static c => ((char)c).ToString()).FirstOrDefault(n => !Nodes.Contains(n))
        ?? "n" + (Nodes.Count + 1).ToString(CultureInfo.InvariantCulture);

    internal static IEnumerable<string> WayTo(string part, PartKey key) => ["parts", part, .. key.Path.Split('.')];

    /// <summary>A value of a document as one would type it, a list without its brackets; null where it is not written.</summary>
    internal static string? Typed(YamlMapping root, IEnumerable<string> keys) =>
        FieldText.Find(root, keys.Aggregate(YamlPath.Root, static (path, key) => path.Key(key))) switch
        {
            null => null,
            YamlSequence list => string.Join(", ", list.Items.Select(FieldText.TextOf)),
            var node => FieldText.TextOf(node),
        };

    private FormPart PartOf(YamlEntry entry, int until)
    {
        string[] nodes = (entry.Value as YamlMapping)?.Value("between") is YamlSequence between
            ? [.. between.Items.Select(FieldText.TextOf)] : [];
        return new FormPart(
            entry.Key.Text,
            PartForm.All.FirstOrDefault(f => (entry.Value as YamlMapping)?.Find(f.Key) is not null),
            nodes.ElementAtOrDefault(0) ?? "",
            nodes.ElementAtOrDefault(1) ?? "",
            [.. Findings.Where(f => f.File == File.Name && f.Line >= entry.Key.Start.Line && f.Line < until
                && f.Line <= Math.Max(entry.Key.Start.Line, entry.Value.End.Line))]);
    }
}
