using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents;

/// <summary>Gathers the kinds of key that stand in a document. Names that the user chose are no keys.</summary>
internal sealed class PresentKeys
{
    private static readonly HashSet<string> _named = new(StringComparer.Ordinal)
    {
        "emitters.level", "emitters.coupling", "emitters.coupling_to",
    };

    private readonly List<string> _all = [];
    private readonly HashSet<string> _seen = new(StringComparer.Ordinal);

    public IReadOnlyList<string> All => _all;

    public void Add(YamlNode node, string path)
    {
        if (node is YamlMapping mapping && !_named.Contains(path))
        {
            foreach (YamlEntry entry in mapping.Entries)
            {
                string key = path.Length == 0 ? entry.Key.Text : $"{path}.{entry.Key.Text}";
                if (_seen.Add(key))
                {
                    _all.Add(key);
                }

                Add(entry.Value, key);
            }
        }
        else if (node is YamlSequence sequence)
        {
            foreach (YamlNode item in sequence.Items)
            {
                Add(item, path);
            }
        }
    }
}
