using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents.Receivers;

/// <summary>
/// Reads a receiver's measurements (<c>*.receiver.yaml</c>). All that is wrong is reported at once; no input makes it throw.
/// </summary>
public static class MeasurementReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The measurements, or null where there is any error.</returns>
    public static ReceiverMeasurements? Read(ReadOnlySpan<byte> bytes, string fileName, ISiteFiles files, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(bytes, fileName, diagnostics) is { } text ? Read(text, fileName, files, diagnostics) : null;

    /// <summary>Reads a text.</summary>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte}, string, ISiteFiles, DiagnosticBag)"/>
    public static ReceiverMeasurements? Read(string text, string fileName, ISiteFiles files, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        ReceiverMeasurements? measurements = null;
        if (YamlReader.Read(text, fileName, own) is { } root && MeasurementShapes.Measurements.TryRead(root, own, out measurements))
        {
            MeasurementChecks.Run(measurements, files, own);
        }

        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : measurements;
    }
}
