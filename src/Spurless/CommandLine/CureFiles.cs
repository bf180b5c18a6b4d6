using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Cures;
using Spurless.Sites.Sources;

namespace Spurless.CommandLine;

/// <summary>Writes a way out into the site file or a copy of it, with the files that it needs.</summary>
internal static class CureFiles
{
    /// <summary>Writes it.</summary>
    /// <param name="source">The site file as it was read.</param>
    /// <param name="answer">The list.</param>
    /// <param name="rank">Which way of it, from 1.</param>
    /// <param name="copy">Name of a copy beside the site file; null for the site file itself.</param>
    /// <param name="findings">Takes why it was not done.</param>
    /// <exception cref="UsageException">The place cannot be written to.</exception>
    public static void Apply(SourceFile source, CureAnswer answer, int rank, string? copy, DiagnosticBag findings)
    {
        if (answer.Receivers.Count != 1)
        {
            findings.Error(
                source.Path, 0, 0, "each receiver has a list of its own, and --apply means one of them",
                "name one with --receiver: " + string.Join(", ", answer.Receivers.Select(static r => r.Before.Name)));
            return;
        }

        IReadOnlyList<Cure> cures = answer.Receivers[0].Cures;
        if (rank > cures.Count)
        {
            findings.Error(
                source.Path, 0, 0, string.Create(CultureInfo.InvariantCulture, $"there is no way {rank} in the list"),
                cures.Count == 0
                    ? "nothing is to be cured here; leave --apply away"
                    : string.Create(CultureInfo.InvariantCulture, $"write 1 to {cures.Count}"));
            return;
        }

        string folder = FolderOf(source.Path == "-" ? copy! : source.Path);
        if (copy is not null && FolderOf(copy) != folder)
        {
            findings.Error(
                copy, 0, 0, "a copy in another folder would not find the files that the site file names",
                "write a name in the site file's own folder");
            return;
        }

        Cure cure = cures[rank - 1];
        foreach ((string path, string text) in cure.Files)
        {
            string at = Path.Combine(folder, path);
            if (File.Exists(at) && File.ReadAllText(at) != text)
            {
                findings.Error(at, 0, 0, "the file is there and holds something else", "give it another name, and apply again");
            }
        }

        if (findings.HasErrors)
        {
            return;
        }

        foreach ((string path, string text) in cure.Files.OrderBy(static f => f.Key, StringComparer.Ordinal))
        {
            string at = Path.Combine(folder, path);
            Directory.CreateDirectory(Path.GetDirectoryName(at)!);
            OutputFile.Write(at, to => to.Write(Encoding.UTF8.GetBytes(text)));
        }

        OutputFile.WriteChanged(copy ?? source.Path, source, cure.Text);
    }

    private static string FolderOf(string path) => Path.GetDirectoryName(Path.GetFullPath(path)) ?? ".";
}
