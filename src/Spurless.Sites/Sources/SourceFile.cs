using System.Security.Cryptography;
using System.Text;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Documents;
using Spurless.Sites.Storage;

namespace Spurless.Sites.Sources;

/// <summary>A file as it was read once: everything made of it is made of these very bytes.</summary>
public sealed class SourceFile
{
    private const long LargestElevation = 500_000_000;
    private const long LargestProfile = 20_000_000;
    private string? _sha256;

    /// <summary>How long a pipe or device is waited for.</summary>
    public static TimeSpan PipePatience { get; } = TimeSpan.FromSeconds(30);

    /// <summary>A file whose bytes are at hand.</summary>
    /// <param name="path">Its name as the user gave it.</param>
    /// <param name="bytes">Its bytes; not changed by anybody from here on.</param>
    /// <param name="folder">The files beside it.</param>
    public SourceFile(string path, byte[] bytes, ISiteFiles folder) => (Path, Bytes, Folder) = (path, bytes, folder);

    /// <summary>Its path as the user gave it, as it stands in messages and results.</summary>
    public string Path { get; }

    /// <summary>Its bytes.</summary>
    public byte[] Bytes { get; }

    /// <summary>The files beside it, which it may name.</summary>
    public ISiteFiles Folder { get; }

    /// <summary>What kind of file it is, by its name, else by how it begins.</summary>
    public FileKind Kind => FileKinds.Of(Path, Bytes);

    /// <summary>SHA-256 of the bytes in lower-case hexadecimal.</summary>
    public string Sha256 => _sha256 ??= HashOf(Bytes);

    /// <summary>Its bytes as text: for files that were read as text without a finding.</summary>
    public string Text => TextDecoder.Decode(Bytes, Path, new DiagnosticBag()) ?? "";

    /// <summary>Its entry in a result's list of files.</summary>
    public InputFile Input => new(Path, Sha256);

    /// <summary>A file whose text is at hand, in UTF-8.</summary>
    /// <param name="path">Its name as the user gave it.</param>
    /// <param name="text">Its text.</param>
    /// <param name="folder">The files beside it.</param>
    public static SourceFile OfText(string path, string text, ISiteFiles folder) => new(path, Encoding.UTF8.GetBytes(text), folder);

    /// <summary>
    /// Reads a whole file from disk. That it is not there, cannot be read, is too large or is no file but a pipe is a finding, not an
    /// exception.
    /// </summary>
    /// <param name="path">Its path; files that it names are sought beside it.</param>
    /// <param name="wanted">What it is read as: decides how large it may be; <see cref="FileKind.Unknown"/> for any kind.</param>
    /// <param name="findings">Takes the finding.</param>
    /// <returns>The file; null where there is a finding.</returns>
    public static SourceFile? Read(string path, FileKind wanted, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (File.Exists(path) && !FileFacts.IsFile(path))
        {
            findings.Error(path, 0, 0, "this is a pipe or a device", "name a file");
            return null;
        }

        return ReadAny(path, wanted, findings);
    }

    private static SourceFile? ReadAny(string path, FileKind wanted, DiagnosticBag findings)
    {
        bool site = wanted == FileKind.Site;
        void Fault(string what, string remedy) => findings.Error(path, 0, 0, what, remedy);
        try
        {
            if (Directory.Exists(path))
            {
                Fault("this is a folder", site ? "give the site file in it" : "name a file in it");
                return null;
            }

            long largest = Largest(wanted);
            if (ReadUpTo(path, largest) is { } bytes)
            {
                return OfItsKind(new SourceFile(path, bytes, new SiteFolder(path)), wanted, findings);
            }

            Fault(FormattableString.Invariant($"the file is larger than {largest / 1_000_000} MB"),
                "no file of this program is; name another");
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            Fault("there is no such file", site ? "check the name, or make one with 'new site'"
                : "check the name, and the folder you are in");
        }
        catch (UnauthorizedAccessException)
        {
            Fault("the file cannot be read", "see to its permissions");
        }
        catch (Exception e) when (e is IOException or ArgumentException or NotSupportedException)
        {
            Fault("this cannot be opened as a file", "check the name");
        }

        return null;
    }

    // Another kind of file read as a site would have each of its keys called unknown, and nothing would say what it is.
    private static SourceFile? OfItsKind(SourceFile file, FileKind wanted, DiagnosticBag findings)
    {
        if (wanted != FileKind.Site || file.Kind is FileKind.Site or FileKind.Unknown)
        {
            return file;
        }

        findings.Error(
            file.Path, 0, 0, $"this is no site file ({FileKinds.Name(file.Kind)})",
            "name a *.site.yaml; 'spurless new site' writes one to fill in");
        return null;
    }

    /// <summary>Reads a whole stream, such as standard input.</summary>
    /// <param name="stream">Read to its end.</param>
    /// <param name="name">What it is called in messages and results; files that it names are sought in the folder one is in.</param>
    /// <param name="wanted">What it is read as: decides how large it may be.</param>
    /// <param name="findings">Takes the finding.</param>
    /// <returns>The file; null where there is a finding.</returns>
    public static SourceFile? Read(Stream stream, string name, FileKind wanted, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(findings);
        long largest = Largest(wanted);
        if (ReadUpTo(stream, largest) is { } bytes)
        {
            return OfItsKind(new SourceFile(name, bytes, new SiteFolder(name)), wanted, findings);
        }

        findings.Error(name, 0, 0, FormattableString.Invariant($"what comes in is larger than {largest / 1_000_000} MB"),
            "no file of this program is; name another");
        return null;
    }

    /// <summary>
    /// The same beside the caller: systems read files by calls that block, so a thread of the pool waits. A pipe or a device that gives
    /// nothing, or does not come to its end, is waited for so long.
    /// </summary>
    /// <param name="path">The file's path.</param>
    /// <param name="wanted">What it should hold.</param>
    /// <param name="findings">Takes why it cannot be read.</param>
    /// <param name="cancellationToken">Stops the waiting; the system's call ends with the program.</param>
    public static Task<SourceFile?> ReadAsync(
        string path, FileKind wanted, DiagnosticBag findings, CancellationToken cancellationToken = default) =>
        ReadAsync(path, wanted, findings, PipePatience, cancellationToken);

    /// <summary>The same with another patience.</summary>
    internal static async Task<SourceFile?> ReadAsync(
        string path, FileKind wanted, DiagnosticBag findings, TimeSpan patience, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (!File.Exists(path) || FileFacts.IsFile(path))
        {
            return await Task.Run(() => ReadAny(path, wanted, findings), cancellationToken)
                .WaitAsync(cancellationToken).ConfigureAwait(false);
        }

        DiagnosticBag own = new(); // what a reading says that nobody waits for any more reaches nobody
        try
        {
            SourceFile? source = await Task.Run(() => ReadAny(path, wanted, own), cancellationToken)
                .WaitAsync(patience, cancellationToken).ConfigureAwait(false);
            findings.AddRange(own.InOrder());
            return source;
        }
        catch (TimeoutException)
        {
            findings.Error(
                path,
                0,
                0,
                string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"this is a pipe or a device, and did not come to its end within {patience.TotalSeconds:0.###} s"),
                "name a file, or write - and send it to standard input");
            return null;
        }
    }

    internal static string HashOf(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    private static long Largest(FileKind wanted) => wanted switch
    {
        FileKind.Unknown or FileKind.Touchstone => TouchstoneReader.LargestFile,
        FileKind.Elevation => LargestElevation,
        FileKind.PathProfile => LargestProfile,
        _ => TextDecoder.MaximumBytes,
    };

    // A pipe has no length beforehand, and a file may grow.
    private static byte[]? ReadUpTo(string path, long largest)
    {
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        return ReadUpTo(stream, largest);
    }

    private static byte[]? ReadUpTo(Stream stream, long largest)
    {
        using MemoryStream memory = new();
        byte[] block = new byte[65536];
        for (int read; (read = stream.Read(block)) > 0;)
        {
            memory.Write(block, 0, read);
            if (memory.Length > largest)
            {
                return null;
            }
        }

        return memory.ToArray();
    }
}
