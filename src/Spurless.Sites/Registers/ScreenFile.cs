using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Spurless.Sites.Registers;

/// <summary>
/// The result of a screening while it grows: whole tiles are appended in order, and a small file beside it says how many stand there, so
/// that a screening that was cut short goes on. Only when all is done does the result get its name.
/// </summary>
internal sealed class ScreenFile : IDisposable
{
    private readonly string _path;
    private readonly string _part;
    private readonly string _state;
    private readonly string _fingerprint;
    private readonly FileStream _stream;
    private readonly StreamWriter _writer;

    private ScreenFile(string path, string fingerprint)
    {
        (_path, _part, _state, _fingerprint) = (path, path + ".part", path + ".part.state", fingerprint);
        long keep = 0;
        if (File.Exists(_part)
            && File.Exists(_state)
            && File.ReadAllText(_state).Split('\n') is [var print, var tiles, var bytes, ..]
            && print == fingerprint)
        {
            Tiles = int.Parse(tiles, CultureInfo.InvariantCulture);
            keep = long.Parse(bytes, CultureInfo.InvariantCulture);
        }

        _stream = new FileStream(_part, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read);
        _stream.SetLength(Math.Min(keep, _stream.Length));
        _stream.Seek(0, SeekOrigin.End);
        _writer = new StreamWriter(_stream, new UTF8Encoding(false), 1 << 16, leaveOpen: true) { NewLine = "\n" };
        if (_stream.Length == 0)
        {
            Tiles = 0;
        }
    }

    /// <summary>Tiles that stand there.</summary>
    public int Tiles { get; private set; }

    /// <summary>Opens a result, with what an earlier run of the same question left.</summary>
    public static ScreenFile Open(string path, string question) =>
        new(path, Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(question))));

    /// <summary>Appends a tile.</summary>
    public void Append(IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            _writer.Write(line);
            _writer.Write('\n');
        }

        _writer.Flush();
        _stream.Flush(flushToDisk: false);
        Tiles++;
        File.WriteAllText(_state, string.Create(CultureInfo.InvariantCulture, $"{_fingerprint}\n{Tiles}\n{_stream.Length}\n"));
    }

    /// <summary>All lines so far.</summary>
    public IEnumerable<string> Lines()
    {
        _stream.Seek(0, SeekOrigin.Begin);
        using StreamReader reader = new(_stream, Encoding.UTF8, false, 1 << 16, leaveOpen: true);
        while (reader.ReadLine() is { } line)
        {
            yield return line;
        }
    }

    /// <summary>Gives the result its name: as it stands, or made into something else.</summary>
    public async Task FinishAsync(Func<TextWriter, IEnumerable<string>, Task>? convert)
    {
        if (convert is not null)
        {
            string other = _path + ".tmp";
            StreamWriter writer = new(other, false, new UTF8Encoding(false)) { NewLine = "\n" };
            await using (writer.ConfigureAwait(false))
            {
                await convert(writer, Lines()).ConfigureAwait(false);
            }

            Dispose();
            File.Move(other, _path, overwrite: true);
            File.Delete(_part);
        }
        else
        {
            Dispose();
            File.Move(_part, _path, overwrite: true);
        }

        File.Delete(_state);
    }

    public void Dispose()
    {
        if (_stream.CanWrite)
        {
            _writer.Dispose();
            _stream.Dispose();
        }
    }
}
