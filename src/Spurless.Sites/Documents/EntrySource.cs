using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents;

/// <summary>Where a key and its value stand.</summary>
/// <param name="Key">The key's first character; for an item of a list that of the item.</param>
/// <param name="Value">The value's first character.</param>
public readonly record struct FieldPlace(YamlPosition Key, YamlPosition Value);

/// <summary>Where an entry of a document was read from, field by field, so that a later finding can be reported at the field.</summary>
public sealed class EntrySource
{
    private readonly Dictionary<string, FieldPlace> _fields = new(StringComparer.Ordinal);

    private EntrySource(string file, YamlPosition start)
    {
        File = file;
        Start = start;
    }

    /// <summary>Of an entry that was not read from a file.</summary>
    public static EntrySource None { get; } = new("", new YamlPosition(0, 0, 0));

    /// <summary>The file's name as the user gave it (the table's, for an entry from a table).</summary>
    public string File { get; }

    /// <summary>Where the entry begins.</summary>
    public YamlPosition Start { get; }

    /// <summary>
    /// Every key of the entry, nested ones with a dot and items of a list with their position from 0 in brackets: <c>antenna.gain</c>,
    /// <c>chain[0].feedline.loss</c>.
    /// </summary>
    public IReadOnlyDictionary<string, FieldPlace> Fields => _fields;

    /// <summary>The places within a node.</summary>
    public static EntrySource Of(YamlNode? node)
    {
        if (node is null)
        {
            return None;
        }

        EntrySource source = new(node.File, node.Start);
        source.Walk(node, "");
        return source;
    }

    /// <summary>Reports an error at a field's value, or at the entry's beginning where the field was not written.</summary>
    public void Error(DiagnosticBag diagnostics, string field, string what, string remedy)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        YamlPosition at = _fields.TryGetValue(field, out FieldPlace place) ? place.Value : Start;
        diagnostics.Error(File, at.Line, at.Column, what, remedy);
    }

    /// <summary>Reports an error at a field's key.</summary>
    public void ErrorAtKey(DiagnosticBag diagnostics, string field, string what, string remedy)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        YamlPosition at = _fields.TryGetValue(field, out FieldPlace place) ? place.Key : Start;
        diagnostics.Error(File, at.Line, at.Column, what, remedy);
    }

    private void Walk(YamlNode node, string path)
    {
        if (node is YamlMapping mapping)
        {
            foreach (YamlEntry entry in mapping.Entries)
            {
                string field = path.Length == 0 ? entry.Key.Text : $"{path}.{entry.Key.Text}";
                _fields.TryAdd(field, new FieldPlace(entry.Place.Start, entry.Value.Start));
                Walk(entry.Value, field);
            }
        }
        else if (node is YamlSequence sequence)
        {
            for (int i = 0; i < sequence.Items.Count; i++)
            {
                string field = FormattableString.Invariant($"{path}[{i}]");
                _fields.TryAdd(field, new FieldPlace(sequence.Items[i].Start, sequence.Items[i].Start));
                Walk(sequence.Items[i], field);
            }
        }
    }
}
