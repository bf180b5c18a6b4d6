using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Documents;

namespace Spurless.Workbench.Folders;

/// <summary>The fields of a site file as they stand in its text, with what was found at each: for tables that one types into.</summary>
public sealed class SiteFields
{
    private readonly Lazy<Dictionary<(int Line, int Column), string>> _byValue;
    private readonly Lazy<Dictionary<(int Line, int Column), string>> _byKey;
    private readonly ILookup<string, Diagnostic> _at;

    private SiteFields(FolderSite site, YamlMapping? root)
    {
        Root = root;
        Lazy<EntrySource> places = new(() => EntrySource.Of(root));
        _byValue = new(() => Longest(places.Value, static p => p.Value));
        _byKey = new(() => Longest(places.Value, static p => p.Key));
        Elsewhere = [.. site.Findings.Where(f => f.File != site.File.Name)];
        _at = site.Findings.Where(f => f.File == site.File.Name).ToLookup(FieldOf);
    }

    /// <summary>The document; null where its form has errors, so that there are no tables.</summary>
    public YamlMapping? Root { get; }

    /// <summary>What was found in the files that it names.</summary>
    public IReadOnlyList<Diagnostic> Elsewhere { get; }

    /// <summary>What was found at no field.</summary>
    public IEnumerable<Diagnostic> AtNoField => _at[""];

    /// <summary>The fields of a site.</summary>
    public static SiteFields Of(FolderSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return new SiteFields(site, FieldText.Parse(site.File.Text));
    }

    /// <summary>Number of items in a list; 0 where it is not written.</summary>
    public int Count(string list) => Root is not null && FieldText.NodeOf(Root, list) is YamlSequence items ? items.Items.Count : 0;

    /// <summary>A field's value as one would type it; null where it is not written.</summary>
    public string? Value(string field) => Root is null ? null : FieldText.ValueOf(Root, field);

    /// <summary>The keys written in a mapping, in their order.</summary>
    public IReadOnlyList<string> Keys(string mapping) =>
        Root is not null && FieldText.NodeOf(Root, mapping) is YamlMapping keys ? [.. keys.Entries.Select(static e => e.Key.Text)] : [];

    /// <summary>What was found at a field itself.</summary>
    public IEnumerable<Diagnostic> At(string field) => _at[field];

    /// <summary>What was found at a field or anywhere within it.</summary>
    public IEnumerable<(string Field, Diagnostic Finding)> Within(string field) => _at
        .Where(
            g =>
                g.Key == field
                    || g.Key.StartsWith(field + ".", StringComparison.Ordinal)
                    || g.Key.StartsWith(field + "[", StringComparison.Ordinal))
        .SelectMany(static g => g.Select(f => (g.Key, f)));

    /// <summary>
    /// The field that a finding is about; the entry where it is about something missing in one; empty where it is about the file.
    /// </summary>
    public string FieldOf(Diagnostic finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        (int, int) at = (finding.Line, finding.Column);
        string? value = _byValue.Value.GetValueOrDefault(at);
        string? key = _byKey.Value.GetValueOrDefault(at);
        // An entry begins where its first key does: a finding there is about the entry, since every finding about a key alone is about an
        // unknown one.
        return value ?? key ?? "";
    }

    // The longest name of what stands at each place, once for all findings.
    private static Dictionary<(int Line, int Column), string> Longest(EntrySource places, Func<FieldPlace, YamlPosition> place)
    {
        Dictionary<(int, int), string> longest = new(places.Fields.Count);
        foreach ((string field, FieldPlace at) in places.Fields)
        {
            YamlPosition where = place(at);
            if (!longest.TryGetValue((where.Line, where.Column), out string? kept) || field.Length > kept.Length)
            {
                longest[(where.Line, where.Column)] = field;
            }
        }

        return longest;
    }
}
