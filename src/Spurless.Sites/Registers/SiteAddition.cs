using System.Diagnostics.CodeAnalysis;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Registers;

/// <summary>An emitter to be written into a site file.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Entry">Its keys with values, the name first.</param>
/// <param name="Origin">Where it comes from, for a comment beside its name.</param>
public sealed record SiteAddition(string Name, YamlValue Entry, AdditionOrigin Origin);

/// <summary>Writes emitters into a site file's text, each once. Everything else stays as it stands, comments too.</summary>
public static class SiteAdditions
{
    /// <summary>Writes them.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="file">Its name as the user gave it.</param>
    /// <param name="site">The site as read from that text.</param>
    /// <param name="additions">The emitters, in order; those whose name the site has are left out.</param>
    /// <param name="comment">Makes the comment beside an emitter's name.</param>
    /// <param name="edited">The new text; the old one where there was nothing to add.</param>
    /// <param name="added">Names of those that were added.</param>
    /// <param name="diagnostics">Takes why it could not be done.</param>
    /// <returns>Whether it was done.</returns>
    public static bool TryAdd(
        string text,
        string file,
        SiteDocument site,
        IReadOnlyList<SiteAddition> additions,
        Func<AdditionOrigin, string> comment,
        [NotNullWhen(true)] out string? edited,
        out IReadOnlyList<string> added,
        DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(additions);
        ArgumentNullException.ThrowIfNull(comment);
        ArgumentNullException.ThrowIfNull(diagnostics);
        HashSet<string> names = new(
            site.Emitters.Select(static e => e.Name).Concat(site.Receivers.Select(static r => r.Name)), StringComparer.Ordinal);
        List<SiteAddition> wanted = [.. additions.Where(a => names.Add(a.Name))];
        edited = text;
        added = [];
        if (site.Emitters.Count + wanted.Count > SiteReader.MaximumEmitters)
        {
            diagnostics.Error(
                file,
                0,
                0,
                FormattableString.Invariant(
                    $"{site.Emitters.Count} and {wanted.Count} emitters are more than a site may have, {SiteReader.MaximumEmitters}"),
                "look within a smaller distance, or take fewer of them");
            return false;
        }

        foreach (SiteAddition addition in wanted)
        {
            DiagnosticBag none = new();
            int count = YamlReader.Read(edited, file, none)?.Value("emitters") is YamlSequence list ? list.Items.Count : -1;
            bool done = count >= 0
                ? YamlEditor.TryInsertItem(
                    edited, YamlPath.Root.Key("emitters"), count, addition.Entry, out string? next, out string? problem)
                : YamlEditor.TryInsertKey(edited, YamlPath.Root, "emitters", YamlValue.List(addition.Entry), out next, out problem);
            if (!done || next is null)
            {
                diagnostics.Error(file, 0, 0, $"'{addition.Name}' could not be written into it ({problem})", "write it by hand");
                return false;
            }

            edited = Commented(next, file, Math.Max(0, count), comment(addition.Origin));
        }

        added = [.. wanted.Select(static w => w.Name)];
        return true;
    }

    /// <summary>
    /// Puts a comment behind the line of the item's name, where nothing else stands there; the content must stay the same.
    /// </summary>
    private static string Commented(string text, string file, int item, string comment)
    {
        DiagnosticBag none = new();
        if (YamlReader.Read(text, file, none)?.Value("emitters") is not YamlSequence list || list.Items[item] is not YamlMapping mapping
            || mapping.IsFlow || mapping.Value("name") is not { } name)
        {
            return text;
        }

        int end = text.IndexOf('\n', name.End.Index);
        end = end < 0 ? text.Length : end > 0 && text[end - 1] == '\r' ? end - 1 : end;
        if (text.AsSpan(name.End.Index, end - name.End.Index).Trim().Length > 0)
        {
            return text;
        }

        string commented = text.Insert(end, "    # " + comment.ReplaceLineEndings(" "));
        DiagnosticBag after = new();
        return YamlReader.Read(commented, file, after)?.Value("emitters") is YamlSequence again
            && !after.HasErrors
            && again.Items.Count == list.Items.Count
            && again.Items[item] is YamlMapping same && same.Value("name") is YamlScalar { } kept && kept.Text == ((YamlScalar)name).Text
            ? commented
            : text;
    }
}
