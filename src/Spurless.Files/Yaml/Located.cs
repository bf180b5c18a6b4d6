using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>A value together with the place it was read from, for findings that come up later.</summary>
/// <param name="Value">The value.</param>
/// <param name="File">The file's name as the user gave it.</param>
/// <param name="At">Where it stands.</param>
public sealed record Located<T>(T Value, string File, YamlPosition At)
{
    /// <summary>Reports an error at the value.</summary>
    public void Error(DiagnosticBag diagnostics, string what, string remedy)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        diagnostics.Error(File, At.Line, At.Column, what, remedy);
    }
}

/// <summary>A value under a key that the user named.</summary>
/// <param name="Name">The key.</param>
/// <param name="Value">The value.</param>
/// <param name="Key">The key's own place in the file.</param>
public sealed record Named<T>(string Name, T Value, YamlScalar Key);
