using System.Text;
using Spurless.Fit;
using Spurless.Sites.Documents;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Sources;

/// <summary>Tells files apart: by name, and where that says nothing, by how they begin.</summary>
public static class FileKinds
{
    /// <summary>A kind in words.</summary>
    public static string Name(FileKind kind) => kind switch
    {
        FileKind.Site => "site file",
        FileKind.Circuit => "circuit file",
        FileKind.Requirement => "requirement file",
        FileKind.Receiver => "measurements of a receiver",
        FileKind.Bypass => "bypass relay",
        FileKind.Touchstone => "Touchstone file",
        FileKind.ObservationLog => "observation log",
        FileKind.EmitterTable => "table of emitters",
        FileKind.SweepTable => "table of a sweep",
        FileKind.PathProfile => "profile of a path",
        FileKind.Elevation => "elevation file",
        FileKind.Spectrum => "sweep of a spectrum",
        FileKind.RegisterColumns => "mapping of a register's columns",
        FileKind.RegisterTable => "table of a register",
        FileKind.ReceiverTable => "table of receivers",
        FileKind.BandPlan => "band plan",
        FileKind.Recording => "recording",
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

        if (Ends(".receiver.yaml") || Ends(".receiver.yml"))
        {
            return FileKind.Receiver;
        }

        if (Ends(".bypass.yaml") || Ends(".bypass.yml"))
        {
            return FileKind.Bypass;
        }

        if (Ends(".hgt") || Ends(".hgt.zip") || Ends(".tif") || Ends(".tiff"))
        {
            return FileKind.Elevation;
        }

        if (Ends(".wav") || Ends(".sigmf-meta") || Ends(".sigmf-data"))
        {
            return FileKind.Recording;
        }

        if (IsTouchstone(name))
        {
            return FileKind.Touchstone;
        }

        if (Ends(".log.csv"))
        {
            return FileKind.ObservationLog;
        }

        if (Ends(".columns.yaml") || Ends(".columns.yml"))
        {
            return FileKind.RegisterColumns;
        }

        if (Ends(".register.csv"))
        {
            return FileKind.RegisterTable;
        }

        string head = Ends(".csv") ? Head(bytes) : "";
        if (Ends(".sweep.csv") || head.StartsWith("frequency_hz,level_dbm", StringComparison.Ordinal))
        {
            return FileKind.Spectrum;
        }

        if (head.Split(',') is var heads && heads.Contains("latitude") && heads.Contains("longitude") && heads.Contains("channel"))
        {
            return FileKind.ReceiverTable;
        }

        if (Ends(".csv"))
        {
            return MagnitudeSweepReader.IsSweep(bytes) ? FileKind.SweepTable
                : ProfileReader.IsProfile(bytes) ? FileKind.PathProfile
                : BandPlanReader.IsBandPlan(head) ? FileKind.BandPlan
                : FileKind.EmitterTable;
        }

        return ByHead(Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, 64 * 1024)]));
    }

    /// <summary>The first line that is no comment.</summary>
    private static string Head(ReadOnlySpan<byte> bytes)
    {
        foreach (ReadOnlySpan<char> line in Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, 8 * 1024)]).AsSpan().TrimStart('\ufeff')
            .EnumerateLines())
        {
            if (!line.StartsWith("#") && !line.Trim().IsEmpty)
            {
                return line.ToString();
            }
        }

        return "";
    }

    // .s1p, .s2p, and those of more ports, of which the reader says what is the matter.
    private static bool IsTouchstone(string name)
    {
        int dot = name.LastIndexOf('.');
        ReadOnlySpan<char> ending = name.AsSpan(dot + 1);
        return dot >= 0 && (ending.Equals("ts", StringComparison.OrdinalIgnoreCase)
            || (ending.Length >= 3 && ending[0] is 's' or 'S' && ending[^1] is 'p' or 'P'
                && !ending[1..^1].ContainsAnyExceptInRange('0', '9')));
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

            if (line.StartsWith("spurless_receiver:", StringComparison.Ordinal))
            {
                return FileKind.Receiver;
            }

            if (line.StartsWith("spurless_bypass:", StringComparison.Ordinal))
            {
                return FileKind.Bypass;
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
