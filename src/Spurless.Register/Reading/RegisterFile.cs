using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Spurless.Files.Diagnostics;

namespace Spurless.Register.Reading;

/// <summary>One file to read: on the disk, or within a zip file.</summary>
internal sealed class RegisterFile
{
    private readonly string _path;
    private readonly string? _entry;

    private RegisterFile(string path, string? entry, long bytes, long packed, DateTime written)
    {
        (_path, _entry, Bytes, Packed, Written) = (path, entry, bytes, packed, written);
        Shown = entry is null ? path : path + "/" + entry;
    }

    /// <summary>The name without its folders.</summary>
    public string Name => Path.GetFileName(_entry ?? _path);

    /// <summary>The name as messages show it.</summary>
    public string Shown { get; }

    /// <summary>Its length in bytes, as the folder or the zip file says.</summary>
    public long Bytes { get; }

    private long Packed { get; }

    private DateTime Written { get; }

    /// <summary>All files that the user's names mean: a file, a folder with what it holds, a zip file with what it holds.</summary>
    public static IReadOnlyList<RegisterFile> All(IReadOnlyList<string> names, ImportLimits limits, DiagnosticBag diagnostics)
    {
        List<RegisterFile> all = [];
        foreach (string name in names)
        {
            if (Directory.Exists(name))
            {
                foreach (string path in Directory.EnumerateFiles(name, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
                {
                    Add(path, all, limits, diagnostics);
                }
            }
            else if (File.Exists(name))
            {
                Add(name, all, limits, diagnostics);
            }
            else
            {
                diagnostics.Error(name, 0, 0, "there is no such file or folder",
                    "give the register's files, a folder or a zip file with them");
            }
        }

        return all;
    }

    /// <summary>Opens it. What comes out of a zip file is cut off, with an exception, where it grows beyond all measure.</summary>
    public Stream Open(ImportLimits limits)
    {
        FileStream file = new(_path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        if (_entry is null)
        {
            return file;
        }

        ZipArchive zip = new(file, ZipArchiveMode.Read, leaveOpen: false);
        return new UnpackedStream(zip, zip.GetEntry(_entry)!.Open(), limits.MostUnpacked(Packed), Shown);
    }

    /// <summary>Its first bytes.</summary>
    public byte[] Head(ImportLimits limits, int bytes = 8192)
    {
        using Stream stream = Open(limits);
        byte[] head = new byte[bytes];
        return head[..stream.ReadAtLeast(head, bytes, throwOnEndOfStream: false)];
    }

    /// <summary>What tells this file from a later one of the same name: its length, when it was written, its first bytes.</summary>
    public void AddTo(IncrementalHash hash, ImportLimits limits)
    {
        hash.AppendData(Encoding.UTF8.GetBytes(FormattableString.Invariant($"{Shown}|{Bytes}|{Written.Ticks}|")));
        hash.AppendData(Head(limits, 65_536));
    }

    private static void Add(string path, List<RegisterFile> all, ImportLimits limits, DiagnosticBag diagnostics)
    {
        FileInfo info = new(path);
        if (!IsZip(path))
        {
            all.Add(new RegisterFile(path, null, info.Length, info.Length, info.LastWriteTimeUtc));
            return;
        }

        try
        {
            using ZipArchive zip = ZipFile.OpenRead(path);
            if (zip.Entries.Count > limits.MostEntries)
            {
                diagnostics.Error(path, 0, 0,
                    FormattableString.Invariant($"the zip file holds {zip.Entries.Count} files, more than {limits.MostEntries}"),
                    "unpack it and give the files that are wanted");
                return;
            }

            foreach (ZipArchiveEntry entry in zip.Entries.Where(static e => e.Name.Length > 0))
            {
                all.Add(new RegisterFile(path, entry.FullName, entry.Length, entry.CompressedLength, entry.LastWriteTime.UtcDateTime));
            }
        }
        catch (InvalidDataException)
        {
            diagnostics.Error(path, 0, 0, "the zip file is damaged or cut short", "fetch it again");
        }
    }

    private static bool IsZip(string path)
    {
        Span<byte> head = stackalloc byte[4];
        using FileStream file = File.OpenRead(path);
        return file.ReadAtLeast(head, 4, throwOnEndOfStream: false) == 4 && head.SequenceEqual("PK\u0003\u0004"u8);
    }
}
