namespace Spurless.CommandLine;

/// <summary>
/// Standard input as a file of its own, for what must be able to go back in it or may be larger than memory. Gone with it.
/// </summary>
internal sealed class SpooledInput : IDisposable
{
    private readonly string _folder;

    private SpooledInput(string folder, string path) => (_folder, Path) = (folder, path);

    /// <summary>The file; its ending says whether a zip file came in.</summary>
    public string Path { get; }

    /// <summary>Reads a stream to its end, octet by octet as it is.</summary>
    public static SpooledInput Of(Stream input)
    {
        string folder = Directory.CreateTempSubdirectory("spurless-").FullName;
        Span<byte> head = stackalloc byte[4];
        int got = input.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        bool zipped = got == 4 && head.SequenceEqual("PK\u0003\u0004"u8);
        string path = System.IO.Path.Combine(folder, zipped ? "standard-input.zip" : "standard-input.csv");
        using FileStream file = new(path, FileMode.CreateNew, FileAccess.Write);
        file.Write(head[..got]);
        input.CopyTo(file);
        return new SpooledInput(folder, path);
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
