using System.Reflection;
using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>The map of the house shows the house as it is.</summary>
public partial class ArchitectureTests
{
    private const string Map = "docs/architecture.md";

    private static readonly string Text = File.ReadAllText(Repository.PathOf(Map)).ReplaceLineEndings("\n");

    [Fact]
    public void Types_and_members_that_the_map_names_exist()
    {
        Type[] types = [.. Directory.GetFiles(AppContext.BaseDirectory, "*purless*.dll").Select(Assembly.LoadFrom)
            .SelectMany(static a => a.GetTypes())];
        ILookup<string, Type> byName = types.ToLookup(static t => t.Name.Split('`')[0], StringComparer.Ordinal);
        string[] rooms = [.. types.Select(static t => t.Assembly.GetName().Name!).Distinct(), "Spurless"];
        List<string> missing = [];
        int seen = 0;
        foreach (string name in Code().Matches(Blocks().Replace(Text, "")).Select(static m => m.Groups[1].Value).Distinct())
        {
            seen++;
            string[] parts = name.Split('.');
            bool known = rooms.Contains(name) || Outside.Contains(name)
                || byName[parts[0]].Any(t => parts.Length == 1 || t.GetMember(parts[1], All).Length > 0);
            if (!known)
            {
                missing.Add(name);
            }
        }

        Assert.True(seen > 60, $"only {seen} names were found");
        Assert.True(missing.Count == 0, string.Join('\n', missing));
    }

    [Fact]
    public void Examples_of_the_map_are_the_files_that_are_compiled()
    {
        Match[] examples = [.. Example().Matches(Text).Cast<Match>()];
        Assert.Equal(6, examples.Length);
        Assert.All(examples, static e => Assert.Equal(
            File.ReadAllText(Repository.PathOf(e.Groups["file"].Value)).ReplaceLineEndings("\n").TrimEnd(),
                e.Groups["text"].Value.TrimEnd()));
    }

    private const BindingFlags All = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance;

    /// <summary>Names of the framework.</summary>
    private static readonly string[] Outside = ["IProgress", "CancellationToken"];

    [GeneratedRegex(@"`([A-Z]\w*(?:\.\w+)*)`")]
    private static partial Regex Code();

    [GeneratedRegex(@"```.*?```", RegexOptions.Singleline)]
    private static partial Regex Blocks();

    [GeneratedRegex(@"```(?:csharp|razor)\n(?://|@\*) (?<file>\S+)(?: \*@)?\n(?<text>.*?)\n```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
