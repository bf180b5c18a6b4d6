using System.Globalization;
using Spurless.Files.Diagnostics;

namespace Spurless.Circuits.Touchstone;

/// <summary>
/// Reads Touchstone files of one and two ports, versions 1.0, 1.1, 2.0 and 2.1.
/// </summary>
/// <remarks>
/// Source: Touchstone File Format Specification 1.1 (2003) and 2.0 (2009), IBIS Open Forum; 2.1 and the rule of four pairs a line from
/// memory. Nothing is repaired in silence: what the format forbids is an error with its place, what it leaves open and is read all the same
/// is a warning.
/// </remarks>
public static class TouchstoneReader
{
    /// <summary>What is said of files with more ports than two, or with mixed-mode data.</summary>
    public const string ManyPorts = "N-port data: this program uses 1- and 2-ports";

    /// <summary>The largest file read, in bytes.</summary>
    public const int LargestFile = 64 * 1024 * 1024;

    /// <summary>Reads a file.</summary>
    /// <param name="stream">The file's bytes from the start; comments may hold any.</param>
    /// <param name="fileName">Name for messages; its extension (<c>.s1p</c>, <c>.s2p</c>, any case) gives the number of ports of a version
    /// 1 file.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The data, or null where there is an error.</returns>
    public static TouchstoneData? Read(Stream stream, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(diagnostics);
        Findings findings = new(diagnostics, fileName);
        byte[]? bytes = ReadBytes(stream, findings);
        if (bytes is null)
        {
            return null;
        }

        TouchstoneHeader header = new(findings);
        TouchstoneRows rows = new(findings, header, PortsOfName(fileName));
        ReadLines(bytes, header, rows, findings);
        if (rows.Refused)
        {
            return null;
        }

        TouchstoneData? data = rows.Finish(fileName);
        return findings.Errors > 0 ? null : data;
    }

    private static byte[]? ReadBytes(Stream stream, Findings findings)
    {
        using MemoryStream copy = new();
        byte[] buffer = new byte[65536];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            copy.Write(buffer, 0, read);
            if (copy.Length > LargestFile)
            {
                findings.Error(0, 0, "the file is larger than 64 MiB", "save the sweep with fewer points");
                return null;
            }
        }

        byte[] bytes = copy.ToArray();
        if (bytes is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            findings.Error(1, 1, "the file is written in UTF-16", "save it as plain text (ASCII or UTF-8)");
            return null;
        }

        return bytes;
    }

    private static void ReadLines(byte[] bytes, TouchstoneHeader header, TouchstoneRows rows, Findings findings)
    {
        bool information = false;
        bool ended = false;
        foreach (SourceLine line in TouchstoneLines.Split(bytes))
        {
            if (findings.IsFull || rows.Refused)
            {
                return;
            }

            NoteComment(line, findings);
            string text = line.Text.Trim();
            if (text.Length == 0)
            {
                continue;
            }

            if (ended)
            {
                findings.WarnOnce("end", line.Number, 1, "text after [End] is not read", "put [End] in the last line");
            }
            else if (information)
            {
                information = !text.StartsWith("[end information]", StringComparison.OrdinalIgnoreCase);
            }
            else if (text[0] == '#')
            {
                header.ReadOptionLine(line, rows.Begun);
            }
            else if (text[0] == '[')
            {
                string? keyword = header.ReadKeyword(line);
                rows.Keyword(keyword, line);
                information = keyword == "begin information";
                ended = keyword == "end";
            }
            else if (header.WantsReferences)
            {
                header.AddReferences(line.Number, line.Tokens());
            }
            else
            {
                rows.Add(line);
            }
        }
    }

    /// <summary>
    /// Some programs write each point's port impedance as a comment; whoever relies on that must know that it is not read.
    /// </summary>
    private static void NoteComment(in SourceLine line, Findings findings)
    {
        if (line.Comment is string comment
            && comment.Contains("port impedance", StringComparison.OrdinalIgnoreCase)
            && comment.Any(char.IsAsciiDigit))
        {
            findings.WarnOnce(
                "impedance",
                line.Number,
                line.Text.Length + 1,
                "a comment speaks of port impedances; comments are not read, the data are taken in the reference of the option line",
                "if that is wrong, renormalise to 50 ohm where the data were made");
        }
    }

    private static int? PortsOfName(string fileName)
    {
        string extension = Path.GetExtension(fileName);
        return extension.Length > 3
            && extension[1] is 's' or 'S' && extension[^1] is 'p' or 'P'
            && int.TryParse(extension.AsSpan(2, extension.Length - 3), NumberStyles.None, CultureInfo.InvariantCulture, out int ports)
            && ports > 0
            ? ports
            : null;
    }
}
