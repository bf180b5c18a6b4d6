using Spurless.Circuits.Requirements;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents.Requirements;

/// <summary>Reads a requirement file (<c>*.requirement.yaml</c>). All that is wrong is reported at once; no input makes it throw.</summary>
public static class RequirementReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The requirement, or null where there is any error.</returns>
    public static Requirement? Read(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(bytes, fileName, diagnostics) is { } text ? Read(text, fileName, diagnostics) : null;

    /// <summary>Reads a text.</summary>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte}, string, DiagnosticBag)"/>
    public static Requirement? Read(string text, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        Requirement? requirement = null;
        bool read = YamlReader.Read(text, fileName, own) is { } root && RequirementShapes.Requirement.TryRead(root, own, out requirement);
        diagnostics.AddRange(own.InOrder());
        return read && !own.HasErrors ? requirement : null;
    }
}
