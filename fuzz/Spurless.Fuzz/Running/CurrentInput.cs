using System.IO.MemoryMappedFiles;

namespace Spurless.Fuzz.Running;

/// <summary>The input that is being read, in a file that outlives the process: what ends it is found there.</summary>
internal sealed class CurrentInput : IDisposable
{
    private const int Size = 1 << 20;
    private readonly MemoryMappedFile _file;
    private readonly MemoryMappedViewAccessor _view;

    public CurrentInput(string path)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        _file = MemoryMappedFile.CreateFromFile(path, FileMode.Create, null, Size);
        _view = _file.CreateViewAccessor();
    }

    /// <summary>Tells what is read next.</summary>
    public void Is(byte[] input)
    {
        int length = Math.Min(input.Length, Size - sizeof(int));
        _view.Write(0, length);
        _view.WriteArray(sizeof(int), input, 0, length);
    }

    /// <summary>What a process was reading when it ended.</summary>
    public static byte[] Of(string path)
    {
        byte[] all = File.Exists(path) ? File.ReadAllBytes(path) : [];
        return all.Length < sizeof(int) ? [] : all.AsSpan(sizeof(int), BitConverter.ToInt32(all)).ToArray();
    }

    /// <summary>Takes such a file away, if it came to be.</summary>
    public static void Forget(string path)
    {
        if (File.Exists(path))
        {
            File.Delete(path);
        }
    }

    public void Dispose()
    {
        _view.Dispose();
        _file.Dispose();
    }
}
