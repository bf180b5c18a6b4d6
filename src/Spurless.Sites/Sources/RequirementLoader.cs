using System.Globalization;
using Spurless.Circuits.Requirements;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Documents.Requirements;

namespace Spurless.Sites.Sources;

/// <summary>Reads a requirement and the bypass relay that it names. All that is wrong in either is reported at once.</summary>
internal static class RequirementLoader
{
    /// <summary>Loads a requirement.</summary>
    /// <param name="source">Its file.</param>
    /// <param name="findings">Takes all findings.</param>
    /// <returns>The requirement; null where there is an error in it or in the relay's file.</returns>
    public static RequirementFile? Load(SourceFile source, DiagnosticBag findings)
    {
        if (RequirementReader.Read(source.Bytes, source.Path, findings) is not { } requirement)
        {
            return null;
        }

        if (requirement.BypassFile is not { } named)
        {
            return new RequirementFile(requirement, source);
        }

        return Bypass(source, requirement, named, findings) is { } bypass
            ? new RequirementFile(requirement, source) { Bypass = bypass }
            : null;
    }

    // The relay's contacts alone: neither the filter that it names, which is about to be designed, nor its site is read.
    private static NamedBypass? Bypass(SourceFile source, Requirement requirement, BypassReference named, DiagnosticBag findings)
    {
        void Fault(string what, string remedy) => findings.Error(source.Path, named.At.Line, named.At.Column, what, remedy);
        string path = Quote.Short(named.Path);
        if (!source.Folder.Exists(named.Path))
        {
            Fault($"there is no file '{path}'", "write a path relative to this file, with '/' between folders, or { open: 0.8 pF }");
            return null;
        }

        if (source.Folder.Read(named.Path) is not { } bytes)
        {
            Fault($"'{path}' cannot be read", "check the file's name and permissions");
            return null;
        }

        SourceFile file = new(source.Folder.NameOf(named.Path), bytes, new FilesBeside(source.Folder, named.Path));
        if (file.Kind != FileKind.Bypass)
        {
            Fault($"'{path}' is no bypass relay", "name a *.bypass.yaml here, or write { open: 0.8 pF }");
            return null;
        }

        if (BypassReader.Read(file.Bytes, file.Path, file.Folder, findings) is not { } document)
        {
            return null;
        }

        if (document.ImpedanceOhm != requirement.Impedance.Ohms)
        {
            Fault(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the relay's line is of {document.ImpedanceOhm:0.###} ohm, the filter's ports are of "
                        + $"{requirement.Impedance.Ohms:0.###} ohm"),
                "write the line's impedance, or name a relay made for it");
            return null;
        }

        return new NamedBypass(document, file.Input);
    }
}
