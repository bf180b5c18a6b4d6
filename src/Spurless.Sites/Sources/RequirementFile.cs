using Spurless.Circuits.Requirements;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Sources;

/// <summary>A requirement file as read.</summary>
/// <param name="Requirement">What it asks for.</param>
/// <param name="Source">The file.</param>
public sealed record RequirementFile(Requirement Requirement, SourceFile Source)
{
    /// <summary>The file's entry in a result's list of files.</summary>
    public InputFile Input => Source.Input;

    /// <summary>Where a key of the file's top stands; the first line where it was not written, or not on a line of its own.</summary>
    /// <param name="key">The key, such as <c>pass</c>.</param>
    public YamlPosition PlaceOf(string key)
    {
        string[] lines = Source.Text.Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith(key + ":", StringComparison.Ordinal));
        return new YamlPosition(at < 0 ? 1 : at + 1, 1, 0);
    }
}
