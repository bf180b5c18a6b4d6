using System.Text.Json;
using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Documents;

/// <summary>docs/words.md knows every word that the program uses, and whose it is.</summary>
public partial class WordsTests
{
    private static readonly string[] Rows = [.. File.ReadLines(Repository.PathOf("docs", "words.md"))
        .Where(static l => l.StartsWith("| `", StringComparison.Ordinal))];

    private static readonly HashSet<string> Known =
    [
        .. Rows.SelectMany(static r => Quoted().Matches(r.Split('|')[1]).Select(static m => m.Groups[1].Value)),
    ];

    [Fact]
    public void Words_every_row_says_what_and_whose()
    {
        Assert.NotEmpty(Rows);
        Assert.All(Rows, static row =>
        {
            string[] cells = row.Split('|', StringSplitOptions.TrimEntries);
            Assert.True(cells.Length == 5 && cells[2].Length > 0, row);
            Assert.Matches(@"^(trade|ours|SI|standard)( \(.+\))?$", cells[3]);
            Assert.True(
                !cells[3].StartsWith("standard", StringComparison.Ordinal) || cells[3].Contains('(', StringComparison.Ordinal),
                $"which standard? {row}");
        });
    }

    [Fact]
    public void Words_every_command_and_option_is_listed() => AssertKnown(
        CommandList.All.SelectMany(static v => CommandList.OptionsOf(v).Append(v.Name)));

    [Fact]
    [Trait("Category", "Long")]
    public async Task Words_every_table_head_and_key_of_the_results_is_listed()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        HashSet<string> used = [];
        foreach (string line in CommandList.Lines(runOn: false).Concat(ConsoleBlocks.All.Select(static e => e.Command)).Distinct())
        {
            string[] words = BuiltProgram.Split(line);
            foreach (string format in new[] { "text", "json", "csv" })
            {
                string[] asked = WithFormat(words, format);
                Ended ended = await BuiltProgram.RunAsync(folder.Path, asked);
                if (ended.Status == 2)
                {
                    continue; // a command without this format
                }

                Assert.True(ended.Status == 0, $"{line}: {ended.Error}");
                used.UnionWith(Heads(ended.Output, format));
            }
        }

        Assert.NotEmpty(used);
        AssertKnown(used);
    }

    [Fact]
    public async Task Words_every_key_of_the_schemas_is_listed()
    {
        if (CommandList.All.All(static v => v.Name != "schema"))
        {
            return;
        }

        foreach (string kind in new[] { "site", "circuit", "requirement", "bypass", "receiver" })
        {
            (int status, string output, string error) = await CapturedTerminal.RunAsync("schema", kind);
            Assert.True(status == 0, error);
            using JsonDocument schema = JsonDocument.Parse(output);
            HashSet<string> keys = [];
            SchemaKeys(schema.RootElement, keys);
            Assert.NotEmpty(keys);
            AssertKnown(keys);
        }
    }

    private static void AssertKnown(IEnumerable<string> used)
    {
        string[] missing = [.. used.Where(static w => !Known.Contains(w)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        Assert.True(missing.Length == 0, "docs/words.md does not list: " + string.Join(", ", missing));
    }

    private static string[] WithFormat(string[] words, string format)
    {
        List<string> changed = [.. words];
        // Without what writes into files: each line is run three times over the same folder.
        foreach (string option in new[] { "--format", "--out", "--apply" })
        {
            int at = changed.IndexOf(option);
            if (at >= 0)
            {
                changed.RemoveRange(at, 2);
            }
        }

        return format == "text" ? [.. changed] : [.. changed, "--format", format];
    }

    private static IEnumerable<string> Heads(string output, string format) => format switch
    {
        "json" => JsonHeads(output),
        "csv" => output.Split('\n')[0].Split(','),
        _ => TextHeads(output.Split('\n')),
    };

    private static HashSet<string> JsonHeads(string output)
    {
        HashSet<string> keys = [];
        using JsonDocument json = JsonDocument.Parse(output);
        Keys(json.RootElement, keys);
        return keys;

        static void Keys(JsonElement element, HashSet<string> keys)
        {
            if (element.ValueKind == JsonValueKind.Object)
            {
                foreach (JsonProperty property in element.EnumerateObject())
                {
                    keys.Add(property.Name);
                    Keys(property.Value, keys);
                }
            }
            else if (element.ValueKind == JsonValueKind.Array)
            {
                foreach (JsonElement item in element.EnumerateArray())
                {
                    Keys(item, keys);
                }
            }
        }
    }

    // The head of a table stands over its rule; each group of dashes is one column.
    private static IEnumerable<string> TextHeads(string[] lines)
    {
        for (int rule = 1; rule < lines.Length; rule++)
        {
            if (!RuleLine().IsMatch(lines[rule]))
            {
                continue;
            }

            int top = rule;
            while (top > 0 && lines[top - 1].Trim().Length > 0)
            {
                top--;
            }

            foreach (Match column in Dashes().Matches(lines[rule]))
            {
                string head = string.Join(
                    ' ', lines[top..rule].Select(l => Part(l, column.Index, column.Length)).Where(static p => p.Length > 0));
                if (head.Length > 0)
                {
                    yield return head;
                }
            }
        }

        static string Part(string line, int start, int length) =>
            start >= line.Length ? "" : line.Substring(start, Math.Min(length, line.Length - start)).Trim();
    }

    private static void SchemaKeys(JsonElement element, HashSet<string> keys)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            foreach (JsonElement item in element.EnumerateArray())
            {
                SchemaKeys(item, keys);
            }
        }

        if (element.ValueKind != JsonValueKind.Object)
        {
            return;
        }

        foreach (JsonProperty property in element.EnumerateObject())
        {
            if (property.Name == "properties" && property.Value.ValueKind == JsonValueKind.Object)
            {
                keys.UnionWith(property.Value.EnumerateObject().Select(static p => p.Name));
            }

            SchemaKeys(property.Value, keys);
        }
    }

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();

    [GeneratedRegex("^ *-+( +-+)*$")]
    private static partial Regex RuleLine();

    [GeneratedRegex("-+")]
    private static partial Regex Dashes();
}
