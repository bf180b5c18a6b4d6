using System.Security.Cryptography;
using Spurless.Circuits.Requirements;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Checking;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Networks;

/// <summary>A requirement file as read, with its checksum.</summary>
/// <param name="Requirement">What it asks for.</param>
/// <param name="Input">Name and SHA-256.</param>
public sealed record RequirementFile(Requirement Requirement, InputFile Input)
{
    /// <summary>Reads a requirement file.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The requirement; null where there is an error.</returns>
    public static RequirementFile? Load(string path, DiagnosticBag diagnostics)
    {
        if (UserFile.Read(path, TextDecoder.MaximumBytes, diagnostics) is not { } bytes)
        {
            return null;
        }

        if (FileKinds.Of(path, bytes) != FileKind.Requirement)
        {
            diagnostics.Error(path, 0, 0, "this is no requirement file", "name a *.requirement.yaml; 'spurless new requirement' writes one to fill in");
            return null;
        }

        return RequirementReader.Read(bytes, path, diagnostics) is { } requirement
            ? new RequirementFile(requirement, new InputFile(path, Convert.ToHexStringLower(SHA256.HashData(bytes))))
            : null;
    }
}
