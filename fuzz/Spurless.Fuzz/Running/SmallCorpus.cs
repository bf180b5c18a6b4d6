using System.Security.Cryptography;
using Spurless.Fuzz.Coverage;
using Spurless.Fuzz.Readers;

namespace Spurless.Fuzz.Running;

/// <summary>
/// Chooses of the inputs that were kept the few to commit: small ones, shortest first, each with a path that those before it do not take.
/// </summary>
internal static class SmallCorpus
{
    private const int LargestInput = 1200;
    private const int LargestWhole = 24_000;

    /// <summary>Writes them into a folder of the reader's name, in place of what was there.</summary>
    public static void Write(IFuzzedReader reader, IEnumerable<byte[]> kept, string folder)
    {
        string into = Path.Combine(folder, reader.Name);
        if (Directory.Exists(into))
        {
            Directory.Delete(into, recursive: true);
        }

        using TraceMap map = new();
        foreach (byte[] example in reader.Examples)
        {
            _ = Takes(reader, map, example);
        }

        int size = 0;
        foreach (byte[] input in kept.Where(static k => k.Length is > 0 and <= LargestInput).OrderBy(static k => k.Length))
        {
            if (size + input.Length <= LargestWhole && Takes(reader, map, input))
            {
                Directory.CreateDirectory(into);
                File.WriteAllBytes(Path.Combine(into, Convert.ToHexStringLower(SHA256.HashData(input))[..12]), input);
                size += input.Length;
            }
        }
    }

    private static bool Takes(IFuzzedReader reader, TraceMap map, byte[] input)
    {
        map.Clear();
        try
        {
            reader.Read(input);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return false; // found, not kept
        }

        return map.Take();
    }
}
