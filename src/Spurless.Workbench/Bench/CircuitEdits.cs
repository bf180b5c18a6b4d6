using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Bench;

/// <summary>
/// What one does to a circuit file while building: each takes the text as it stands and gives the new one, or says why not ('what; what to
/// do instead'). Comments
/// and everything that is not meant stay.
/// </summary>
public static class CircuitEdits
{
    private static readonly YamlPath _parts = YamlPath.Root.Key("parts");

    /// <summary>Adds a part at the end.</summary>
    /// <param name="text">The file.</param>
    /// <param name="name">Its name.</param>
    /// <param name="form">Its kind.</param>
    /// <param name="from">Its first node; not used by a coupling.</param>
    /// <param name="to">Its second node.</param>
    /// <param name="values">Keys with what was typed; blank ones are left out.</param>
    public static (string? Text, string? Problem) Add(string text, string name, PartForm form, string from, string to,
        IReadOnlyList<(PartKey Key, string Typed)> values)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(values);
        if (Refused(text, name) is { } why)
        {
            return (null, why);
        }

        // What the part is stands first, then its nodes, then the rest, as in the examples of the documentation.
        (PartKey Key, string Typed)[] typed = [.. values.Where(static v => !string.IsNullOrWhiteSpace(v.Typed))];
        List<(string Key, YamlValue Value)> keys = [.. Keys(typed.Where(v => form.Needed.Contains(v.Key)))];
        if (form.HasNodes)
        {
            keys.Insert(Math.Min(1, keys.Count), ("between", YamlValue.List(YamlValue.Of(from.Trim()), YamlValue.Of(to.Trim()))));
        }

        keys.AddRange(Keys(typed.Where(v => !form.Needed.Contains(v.Key))));
        return keys.Count == (form.HasNodes ? 1 : 0)
            ? (null, $"{name} has no value yet; type one such as {form.Needed[0].Example}")
            : Insert(text, name, YamlValue.Map([.. keys]));
    }

    /// <summary>Writes a value of a part, or takes it away where nothing was typed.</summary>
    public static (string? Text, string? Problem) Set(string text, string part, PartKey key, string? typed)
    {
        ArgumentNullException.ThrowIfNull(key);
        return Write(text, [.. CircuitForm.WayTo(part, key)], string.IsNullOrWhiteSpace(typed) ? null : ValueOf(key, typed));
    }

    /// <summary>Writes a value of the circuit itself, such as <c>ports</c>, <c>in</c>.</summary>
    public static (string? Text, string? Problem) Set(string text, IReadOnlyList<string> keys, string? typed) =>
        Write(text, keys, string.IsNullOrWhiteSpace(typed) ? null : YamlValue.Of(typed.Trim()));

    /// <summary>Connects a part elsewhere.</summary>
    public static (string? Text, string? Problem) Connect(string text, string part, string from, string to) =>
        Write(text, ["parts", part, "between"], YamlValue.List(YamlValue.Of(from.Trim()), YamlValue.Of(to.Trim())));

    /// <summary>
    /// Makes a wound coil of an inductor, or winds a coil anew; what else was said of it stays, but for a range in which its value was
    /// sought.
    /// </summary>
    /// <param name="text">The file.</param>
    /// <param name="part">The inductor or coil.</param>
    /// <param name="winding">Its winding: keys within <c>coil</c> with values.</param>
    public static (string? Text, string? Problem) Wind(string text, string part, IReadOnlyList<(string Key, string Value)> winding)
    {
        ArgumentNullException.ThrowIfNull(winding);
        YamlPath at = _parts.Key(part);
        if (FieldText.Parse(text) is not { } root || FieldText.Find(root, at) is not YamlMapping keys)
        {
            return (null, $"there is no {part} in the file; look at it as it stands now");
        }

        string? now = text;
        string? problem;
        if (keys.Find("coil") is null && !YamlEditor.TryRenameKey(text, at.Key("inductor"), "coil", out now, out problem))
        {
            return (null, problem);
        }

        YamlValue value = YamlValue.Map([.. winding.Select(static w => (w.Key, YamlValue.Of(w.Value)))]);
        if (!YamlEditor.TrySet(now, at.Key("coil"), value, out now, out problem))
        {
            return (null, problem);
        }

        return keys.Find("range") is null ? (now, null) : YamlEditor.TryRemove(now, at.Key("range"), out string? without, out problem)
            ? (without, null) : (null, problem);
    }

    /// <summary>Gives a part another name; couplings that name it follow.</summary>
    public static (string? Text, string? Problem) Rename(string text, string part, string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        if (Refused(text, name.Trim()) is { } why)
        {
            return (null, why);
        }

        if (!YamlEditor.TryRenameKey(text, _parts.Key(part), name.Trim(), out string? edited, out string? problem))
        {
            return (null, problem);
        }

        foreach ((string coupling, int place) in Couplings(edited, part))
        {
            if (!YamlEditor.TrySet(edited, _parts.Key(coupling).Key("of").Item(place), name.Trim(), out edited, out problem))
            {
                return (null, problem);
            }
        }

        return (edited, null);
    }

    /// <summary>Makes a second one of a part, with the same value and between the same nodes.</summary>
    public static (string? Text, string? Problem) Copy(string text, string part, string name)
    {
        if (Refused(text, name) is { } why)
        {
            return (null, why);
        }

        return FieldText.Parse(text) is { } root && FieldText.Find(root, _parts.Key(part)) is { } node
            ? Insert(text, name, YamlValue.Of(node))
            : (null, $"there is no {part} in the file any more; look at it as it stands now");
    }

    /// <summary>Takes a part away, and the couplings that name it.</summary>
    public static (string? Text, string? Problem) Remove(string text, string part)
    {
        string? now = text;
        foreach (string name in Couplings(text, part).Select(static c => c.Coupling).Distinct().Append(part))
        {
            if (!YamlEditor.TryRemove(now, _parts.Key(name), out now, out string? problem))
            {
                return (null, problem);
            }
        }

        return (now, null);
    }

    /// <summary>Names of the couplings that name a part.</summary>
    public static IReadOnlyList<string> CouplingsOf(string text, string part) => [.. Couplings(text, part).Select(static c => c.Coupling)
        .Distinct()];

    private static string? Refused(string text, string name)
    {
        if (name.Length == 0 || name.Any(char.IsControl))
        {
            return "a part needs a name; type one such as C1";
        }

        return FieldText.Parse(text) is not { } root ? "the file has errors of form; correct them in its text first"
            : FieldText.Find(root, _parts.Key(name)) is not null ? $"there is a part '{name}' already; give this one another name"
            : null;
    }

    private static (string? Text, string? Problem) Write(string text, IReadOnlyList<string> keys, YamlValue? value)
    {
        if (FieldText.Parse(text) is not { } root)
        {
            return (null, "the file has errors of form; correct them in its text first");
        }

        YamlPath path = keys.Aggregate(YamlPath.Root, static (at, key) => at.Key(key));
        bool there = FieldText.Find(root, path) is not null;
        if (value is null)
        {
            return !there ? (text, null) : YamlEditor.TryRemove(text, path, out string? without, out string? why) ? (without, null)
                : (null, why);
        }

        if (there)
        {
            return YamlEditor.TrySet(text, path, value, out string? set, out string? not) ? (set, null) : (null, not);
        }

        // The deepest mapping that is there takes the rest of the way.
        while (path.Steps.Length > 1 && FieldText.Find(root, path.Parent) is not YamlMapping)
        {
            value = YamlValue.Map(((string)path.Steps[^1], value));
            path = path.Parent;
        }

        return YamlEditor.TryInsertKey(text, path.Parent, (string)path.Steps[^1], value, out string? edited, out string? problem)
            ? (edited, null) : (null, problem);
    }

    private static (string? Text, string? Problem) Insert(string text, string name, YamlValue part)
    {
        YamlMapping? root = FieldText.Parse(text);
        string? now = text;
        if (root?.Value("parts") is YamlScalar { IsMissing: true })
        {
            if (!YamlEditor.TrySet(text, _parts, YamlValue.Map(), out now, out string? not))
            {
                return (null, not);
            }
        }

        bool first = (FieldText.Parse(now)?.Value("parts") as YamlMapping)?.Entries.Count is 0 or null;
        string? edited;
        string? problem;
        _ = root?.Value("parts") is null
            ? YamlEditor.TryInsertKey(now, YamlPath.Root, "parts", YamlValue.Map((name, part)), out edited, out problem)
            : YamlEditor.TryInsertKey(now, _parts, name, part, out edited, out problem);
        string mark = edited?.StartsWith('\uFEFF') == true ? "\uFEFF" : "";
        string body = edited?[mark.Length..] ?? "";
        if (edited is null || !first || FieldText.Parse(body)?.Value("parts") is not YamlMapping { IsFlow: true } map)
        {
            return (edited, problem);
        }

        // The first one goes on a line of its own, so that the next ones do.
        string inner = body[map.Entries[0].Key.Start.Index..map.Entries[0].Value.End.Index];
        string end = body.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        string lined = mark + body[..map.Start.Index].TrimEnd(' ') + end + "  " + inner + body[map.End.Index..];
        return FieldText.Parse(lined)?.Value("parts") is YamlMapping { IsFlow: false, Entries.Count: 1 } ? (lined, null) : (edited, null);
    }

    private static IEnumerable<(string Key, YamlValue Value)> Keys(IEnumerable<(PartKey Key, string Typed)> typed) => typed
        .GroupBy(static v => v.Key.Path.Split('.')[0])
        .Select(static g => (g.Key, g.First().Key.Path.Contains('.', StringComparison.Ordinal)
            ? YamlValue.Map([.. g.Select(static v => (v.Key.Path[(v.Key.Path.IndexOf('.', StringComparison.Ordinal)
                + 1)..], ValueOf(v.Key, v.Typed)))])
            : ValueOf(g.First().Key, g.First().Typed)));

    private static YamlValue ValueOf(PartKey key, string typed) => key.IsList && !typed.TrimStart().StartsWith('[')
        ? YamlValue.List([.. typed.Split(',', StringSplitOptions.TrimEntries).Select(static t => YamlValue.Of(t))])
        : FieldText.ValueFrom(typed.Trim());

    private static IEnumerable<(string Coupling, int Place)> Couplings(string text, string part) =>
        FieldText.Parse(text)?.Value("parts") is not YamlMapping parts ? [] :
        [
            .. parts.Entries.SelectMany(e => (e.Value as YamlMapping)?.Value("of") is YamlSequence of
                ? of.Items.Select((item, i) => (Item: item, Place: i)).Where(i => i.Item is YamlScalar { Text: var t } && t == part)
                    .Select(i => (e.Key.Text, i.Place))
                : []),
        ];
}
