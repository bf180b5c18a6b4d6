using System.Text.Json;
using System.Xml.Linq;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>THIRD-PARTY-NOTICES.md names every package that the program is built with, and every one chosen for its tests.</summary>
public class NoticesTests
{
    private static readonly HashSet<string> Named = [.. SourceText.Lines("THIRD-PARTY-NOTICES.md")
        .Where(static l => l.StartsWith("| ", StringComparison.Ordinal))
        .Select(static l => l.Split('|')[1].Trim().Split(' ')[0])];

    /// <summary>Packages of the compiler, not of the program: they leave nothing in what is built.</summary>
    private static readonly HashSet<string> BuildOnly = ["Microsoft.CodeAnalysis.BannedApiAnalyzers"];

    [Fact]
    public void Notices_name_every_package_of_the_program()
    {
        HashSet<string> used = [];
        foreach (string file in SourceText.Files("packages.lock.json").Where(static f => f.StartsWith("src/", StringComparison.Ordinal)))
        {
            using JsonDocument held = JsonDocument.Parse(File.ReadAllText(Repository.PathOf(file)));
            foreach (
                JsonProperty package in held.RootElement.GetProperty("dependencies").EnumerateObject().SelectMany(
                    static f => f.Value.EnumerateObject()))
            {
                if (package.Value.GetProperty("type").GetString() != "Project" && !BuildOnly.Contains(package.Name))
                {
                    used.Add(package.Name);
                }
            }
        }

        Assert.Contains("YamlDotNet", used);
        Assert.Equal("", string.Join(", ", used.Except(Named, StringComparer.OrdinalIgnoreCase)));
    }

    [Fact]
    public void Notices_name_every_package_that_was_chosen()
    {
        string[] chosen =
        [
            .. XDocument.Load(
                Repository.PathOf(
                    "Directory.Packages.props")).Descendants("PackageVersion").Select(static e => e.Attribute("Include")!.Value),
        ];
        Assert.NotEmpty(chosen);
        Assert.Equal("", string.Join(", ", chosen.Except(Named)));
    }
}
