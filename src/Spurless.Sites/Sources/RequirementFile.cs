using Spurless.Circuits.Requirements;
using Spurless.Files.Yaml;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Sources;

/// <summary>A requirement file as read.</summary>
/// <param name="Requirement">What it asks for.</param>
/// <param name="Source">The file.</param>
public sealed record RequirementFile(Requirement Requirement, SourceFile Source)
{
    /// <summary>The file's entry in a result's list of files.</summary>
    public InputFile Input => Source.Input;

    /// <summary>The bypass relay that it names; null for none.</summary>
    public NamedBypass? Bypass { get; init; }

    /// <summary>Capacitance in farads of the open contacts that go round the filter; null for none.</summary>
    public double? BypassOpenF => Bypass?.Document.ContactOpenF ?? Requirement.BypassOpen?.Farads;

    /// <summary>All files that were read for it.</summary>
    public IReadOnlyList<InputFile> Inputs => Bypass is { } bypass ? [Input, bypass.Input] : [Input];

    /// <summary>Where a key of the file's top stands; the first line where it was not written, or not on a line of its own.</summary>
    /// <param name="key">The key, such as <c>pass</c>.</param>
    public YamlPosition PlaceOf(string key)
    {
        string[] lines = Source.Text.Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith(key + ":", StringComparison.Ordinal));
        return new YamlPosition(at < 0 ? 1 : at + 1, 1, 0);
    }
}

/// <summary>A bypass relay by itself, without what it names.</summary>
/// <param name="Document">What its file says.</param>
/// <param name="Input">The file.</param>
public sealed record NamedBypass(BypassDocument Document, InputFile Input);
