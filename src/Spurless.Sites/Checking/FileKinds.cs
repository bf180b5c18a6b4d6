using System.Text;
using Spurless.Circuits.Fit;

namespace Spurless.Sites.Checking;

/// <summary>Tells files apart: by name, and where that says nothing, by how they begin.</summary>
public static class FileKinds
{
    /// <summary>A kind in words.</summary>
    public static string Name(FileKind kind) => kind switch
    {
        FileKind.Site => "site file",
        FileKind.Circuit => "circuit file",
        FileKind.Requirement => "requirement file",
        FileKind.Touchstone => "Touchstone file",
        FileKind.ObservationLog => "observation log",
        FileKind.EmitterTable => "table of emitters",
        FileKind.SweepTable => "table of a sweep",
        _ => "unknown kind of file",
    };

    /// <summary>The kind of a file.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="bytes">How it begins.</param>
    public static FileKind Of(string name, ReadOnlySpan<byte> bytes)
    {
        bool Ends(string ending) => name.EndsWith(ending, StringComparison.OrdinalIgnoreCase);
        if (Ends(".site.yaml") || Ends(".site.yml"))
        {
            return FileKind.Site;
        }

        if (Ends(".circuit.yaml") || Ends(".circuit.yml"))
        {
            return FileKind.Circuit;
        }

        if (Ends(".requirement.yaml") || Ends(".requirement.yml"))
        {
            return FileKind.Requirement;
        }

        if (IsTouchstone(name))
        {
            return FileKind.Touchstone;
        }

        if (Ends(".log.csv"))
        {
            return FileKind.ObservationLog;
        }

        if (Ends(".csv"))
        {
            return MagnitudeSweepReader.IsSweep(bytes) ? FileKind.SweepTable : FileKind.EmitterTable;
        }

        return ByHead(Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, 64 * 1024)]));
    }

    // .s1p, .s2p, and those of more ports, of which the reader says what is the matter.
    private static bool IsTouchstone(string name)
    {
        int dot = name.LastIndexOf('.');
        ReadOnlySpan<char> ending = name.AsSpan(dot + 1);
        return dot >= 0 && (ending.Equals("ts", StringComparison.OrdinalIgnoreCase)
            || (ending.Length >= 3 && ending[0] is 's' or 'S' && ending[^1] is 'p' or 'P' && !ending[1..^1].ContainsAnyExceptInRange('0', '9')));
    }

    private static FileKind ByHead(string text)
    {
        foreach (ReadOnlySpan<char> line in text.AsSpan().TrimStart('\ufeff').EnumerateLines())
        {
            if (line.StartsWith("spurless:", StringComparison.Ordinal))
            {
                return FileKind.Site;
            }

            if (line.StartsWith("spurless_circuit:", StringComparison.Ordinal))
            {
                return FileKind.Circuit;
            }

            if (line.StartsWith("spurless_requirement:", StringComparison.Ordinal))
            {
                return FileKind.Requirement;
            }

            ReadOnlySpan<char> clean = line.Trim();
            if (clean.StartsWith("[Version]", StringComparison.OrdinalIgnoreCase) || (clean.StartsWith('#') && IsOptionLine(clean[1..])))
            {
                return FileKind.Touchstone;
            }
        }

        return FileKind.Unknown;
    }

    // '# MHz S MA R 50' in any order: what sets a Touchstone option line apart from a comment is R with a number, and a unit or a form.
    private static bool IsOptionLine(ReadOnlySpan<char> line)
    {
        string[] words = line.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        int reference = Array.FindIndex(words, static w => w.Equals("R", StringComparison.OrdinalIgnoreCase));
        return reference >= 0
            && reference + 1 < words.Length
            && double.TryParse(words[reference + 1], System.Globalization.CultureInfo.InvariantCulture, out _)
            && words.Any(static w => w.ToUpperInvariant() is "HZ" or "KHZ" or "MHZ" or "GHZ" or "MA" or "DB" or "RI");
    }
}
