using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents.Bypasses;

/// <summary>
/// Reads the file of a bypass relay (<c>*.bypass.yaml</c>). All that is wrong is reported at once; no input makes it throw.
/// </summary>
public static class BypassReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The relay, or null where there is any error.</returns>
    public static BypassDocument? Read(ReadOnlySpan<byte> bytes, string fileName, ISiteFiles files, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(bytes, fileName, diagnostics) is { } text ? Read(text, fileName, files, diagnostics) : null;

    /// <summary>Reads a text.</summary>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte}, string, ISiteFiles, DiagnosticBag)"/>
    public static BypassDocument? Read(string text, string fileName, ISiteFiles files, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        BypassDocument? bypass = null;
        if (YamlReader.Read(text, fileName, own) is { } root && BypassShapes.Bypass.TryRead(root, own, out bypass) && bypass is not null)
        {
            BypassChecks.Run(bypass, files, own);
        }

        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : bypass;
    }
}
