using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>What documents, comments and tests refer to can be opened by whoever has this repository and nothing else.</summary>
public partial class PlacesTests
{
    private static readonly string[] Texts = [".md", ".cs", ".razor", ".css", ".js", ".yaml", ".yml", ".csproj", ".props", ".sh"];

    [Fact]
    public void Links_of_documents_lead_to_a_file()
    {
        List<string> broken = [];
        int seen = 0;
        foreach (string file in SourceText.Files(".md"))
        {
            string folder = Path.GetDirectoryName(Repository.PathOf(file))!;
            foreach (
                string target in SourceText.Lines(file).SelectMany(static l => Link().Matches(l)).Select(static m => m.Groups[1].Value))
            {
                seen++;
                string path = Path.GetFullPath(Path.Combine(folder, target));
                if (!File.Exists(path) && !Directory.Exists(path))
                {
                    broken.Add($"{file}: {target}");
                }
            }
        }

        Assert.True(seen > 20, $"only {seen} links were found");
        Assert.True(broken.Count == 0, string.Join('\n', broken));
    }

    [Fact]
    public void Documents_that_sources_cite_exist()
    {
        List<string> broken = [];
        int seen = 0;
        foreach ((string where, Match match) in Matches(CitedDocument()))
        {
            seen++;
            if (!File.Exists(Repository.PathOf(match.Value)))
            {
                broken.Add($"{where}: {match.Value}");
            }
        }

        Assert.True(seen > 50, $"only {seen} citations were found");
        Assert.True(broken.Count == 0, string.Join('\n', broken));
    }

    [Fact]
    public void Sections_of_the_check_values_that_tests_cite_exist()
    {
        HashSet<string> sections = [.. SourceText.Lines("docs/checks.md")
            .Select(static l => Heading().Match(l)).Where(static m => m.Success).Select(static m => m.Groups[1].Value)];
        List<string> broken = [];
        int seen = 0;
        foreach ((string where, Match match) in Matches(CitedSection()))
        {
            seen++;
            if (!sections.Contains(match.Groups[1].Value))
            {
                broken.Add($"{where}: {match.Value}");
            }
        }

        Assert.True(seen > 30, $"only {seen} citations were found");
        Assert.True(broken.Count == 0, string.Join('\n', broken));
    }

    /// <summary>Neither a file beside the repository nor a folder of whoever wrote it.</summary>
    [Fact]
    public void No_text_names_a_place_outside()
    {
        string[] named = [.. Matches(Outside()).Select(static m => $"{m.Where}: {m.Match.Value}")];
        Assert.True(named.Length == 0, string.Join('\n', named));
    }

    private static IEnumerable<(string Where, Match Match)> Matches(Regex pattern) =>
        from file in SourceText.Files(Texts)
        where !file.EndsWith("House/PlacesTests.cs", StringComparison.Ordinal)
        from line in SourceText.Lines(file).Select(static (text, index) => (Text: text, Number: index + 1))
        from match in pattern.Matches(line.Text)
        select ($"{file}:{line.Number}", match);

    [GeneratedRegex(@"\]\((?!https?:|mailto:|#)([^)#\s]+)(?:#[^)]*)?\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"docs/[a-z0-9/-]+\.md")]
    private static partial Regex CitedDocument();

    [GeneratedRegex(@"docs/checks\.md\)?,? (?:section )?(\d+(?:\.\d+)?)")]
    private static partial Regex CitedSection();

    [GeneratedRegex(@"^#+ (\d+(?:\.\d+)?)")]
    private static partial Regex Heading();

    [GeneratedRegex(
        @"\.\./shared\b|(?<![\w.])/work/|/home/\w+/|\b(?:physics|formats|demo|look2?|checks-signals)\.md\b|(?<![\w/(\[])checks\.md\b")]
    private static partial Regex Outside();
}
