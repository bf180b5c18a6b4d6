using System.Collections.Immutable;
using System.Globalization;

namespace Spurless.Files.Yaml.Editing;

/// <summary>The way from a document's root to one of its nodes: keys and list positions.</summary>
/// <param name="Steps">Each a key (string) or a position in a list from 0 (int).</param>
public sealed record YamlPath(ImmutableArray<object> Steps)
{
    /// <summary>The document itself.</summary>
    public static YamlPath Root { get; } = new([]);

    /// <summary>The value of a key of the mapping at this path.</summary>
    public YamlPath Key(string key) => new(Steps.Add(key));

    /// <summary>An item of the list at this path, from 0.</summary>
    public YamlPath Item(int index) => new(Steps.Add(index));

    /// <summary>The path one step shorter; the root's is the root.</summary>
    public YamlPath Parent => Steps.IsEmpty ? this : new(Steps.RemoveAt(Steps.Length - 1));

    /// <summary>For messages: <c>emitters[2].antenna.gain</c>.</summary>
    public override string ToString() => Steps.IsEmpty
        ? "the document"
        : string.Concat(
            Steps.Select(static (s, i) => s is int n ? "[" + n.ToString(CultureInfo.InvariantCulture) + "]" : (i > 0 ? "." : "") + s));

    internal YamlNode? Find(YamlNode root)
    {
        YamlNode? at = root;
        foreach (object step in Steps)
        {
            at = (at, step) switch
            {
                (YamlMapping m, string key) => m.Value(key),
                (YamlSequence s, int i) when i >= 0 && i < s.Items.Count => s.Items[i],
                _ => null,
            };
        }

        return at;
    }
}
