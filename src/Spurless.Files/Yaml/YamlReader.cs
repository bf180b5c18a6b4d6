using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>
/// Reads YAML into a tree that knows where everything stands. What this program's files never need is refused: anchors, aliases, tags,
/// several documents, nesting over <see cref="MaximumDepth"/> levels, keys that are not plain text.
/// A syntax error ends the reading; what stood before it is returned, marked as not complete, so that its findings are reported too.
/// No input makes it throw.
/// </summary>
public static class YamlReader
{
    /// <summary>The deepest nesting that is read.</summary>
    public const int MaximumDepth = 64;

    /// <summary>Reads a text.</summary>
    /// <param name="text">The text; a byte-order mark at its head is skipped.</param>
    /// <param name="fileName">The file's name as the user gave it, for messages.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The document's keys with their values; null where there is nothing of that kind.</returns>
    public static YamlMapping? Read(string text, string fileName, DiagnosticBag diagnostics)
    {
        YamlNode? node = ReadNode(text, fileName, diagnostics);
        if (node is YamlMapping mapping)
        {
            return mapping;
        }

        if (node is not null)
        {
            node.Error(diagnostics, $"the file holds {node.Kind}", "write keys with values, one a line, as in 'site: Hill'");
        }

        return null;
    }

    /// <summary>Reads the bytes of a file.</summary>
    /// <inheritdoc cref="Read(string, string, DiagnosticBag)"/>
    public static YamlMapping? Read(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(bytes, fileName, diagnostics) is { } text ? Read(text, fileName, diagnostics) : null;

    /// <summary>Reads a stream to its end.</summary>
    /// <inheritdoc cref="Read(string, string, DiagnosticBag)"/>
    public static YamlMapping? Read(Stream stream, string fileName, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(stream, fileName, diagnostics) is { } text ? Read(text, fileName, diagnostics) : null;

    /// <summary>Reads a text whose outermost thing may be of any kind, such as the cell of a table.</summary>
    /// <inheritdoc cref="Read(string, string, DiagnosticBag)"/>
    public static YamlNode? ReadNode(string text, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (text.StartsWith('\uFEFF'))
        {
            text = text[1..];
        }

        if (!TextDecoder.Check(text, fileName, diagnostics))
        {
            return null;
        }

        return new YamlTreeBuilder(text, fileName, diagnostics).Build();
    }
}
