using System.Text;
using Spurless.Sites.Designs;

namespace Spurless.CommandLine;

/// <summary>Writes designed circuits into a folder, over nothing that is there and differs.</summary>
internal static class DesignFolder
{
    /// <summary>Writes the files.</summary>
    /// <param name="folder">The folder; made where there is none.</param>
    /// <param name="reading">The design.</param>
    /// <returns>The design with the names that its files have.</returns>
    /// <exception cref="UsageException">The folder cannot be made or written to.</exception>
    public static DesignReading Write(string folder, DesignReading reading)
    {
        try
        {
            Directory.CreateDirectory(folder);
            string? needs = reading.Brief.Needs is null
                ? null
                : Put(folder, DesignBrief.NeedsFile, ".requirement.yaml", DesignedCircuitFile.Requirement(reading.Brief));
            return reading with
            {
                Files =
                [
                    .. reading.Files.Select(f =>
                    {
                        string text = needs is null ? f.Text : f.Text.Replace(
                            DesignedCircuitFile.RequirementMark + DesignBrief.NeedsFile,
                            DesignedCircuitFile.RequirementMark + needs,
                            StringComparison.Ordinal);
                        return f with { FileName = Put(folder, f.FileName, ".circuit.yaml", text), Text = text };
                    }),
                ],
            };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new UsageException($"--out: '{folder}' cannot be written to; write the name of a folder of yours");
        }
    }

    // A name that is taken by other contents gets a number behind it.
    private static string Put(string folder, string name, string ending, string text)
    {
        string free = name;
        for (int n = 2; ; n++)
        {
            string path = Path.Combine(folder, free);
            if (!File.Exists(path) && !Directory.Exists(path))
            {
                OutputFile.Write(path, stream => stream.Write(Encoding.UTF8.GetBytes(text)));
                return free;
            }

            if (File.Exists(path) && File.ReadAllText(path) == text)
            {
                return free;
            }

            free = FormattableString.Invariant($"{name[..^ending.Length]}-{n}{ending}");
        }
    }
}
