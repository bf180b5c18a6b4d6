using System.Globalization;
using System.Text;
using Spurless.Register.Layouts;

namespace Spurless.Register.Importing;

/// <summary>The file of rejected rows: where each stood, why it was rejected, and its text.</summary>
internal sealed class RejectFile : IDisposable
{
    private readonly string _path;
    private StreamWriter? _writer;
    private long _keep;

    /// <summary>For a file; what an earlier run wrote beyond what it had committed is cut off.</summary>
    public RejectFile(string path, long keepBytes) => (_path, _keep) = (path, keepBytes);

    public void Add(string file, long line, RejectReason reason, string text)
    {
        if (_writer is null)
        {
            Open();
        }

        _writer!.Write(Quoted(file));
        _writer.Write(string.Create(CultureInfo.InvariantCulture, $",{line},{reason.Word()},"));
        _writer.WriteLine(Quoted(text));
    }

    /// <summary>Writes out what there is; gives the file's length.</summary>
    public long Commit()
    {
        if (_writer is null)
        {
            return _keep;
        }

        _writer.Flush();
        return _keep = _writer.BaseStream.Length;
    }

    /// <summary>Clears away what an earlier import left where this one rejects nothing.</summary>
    public void Finish()
    {
        if (_writer is null && _keep == 0 && File.Exists(_path))
        {
            File.Delete(_path);
        }
    }

    public void Dispose() => _writer?.Dispose();

    private static string Quoted(string text) => "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";

    private void Open()
    {
        FileStream stream = new(_path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read);
        stream.SetLength(Math.Min(_keep, stream.Length));
        stream.Seek(0, SeekOrigin.End);
        _writer = new StreamWriter(stream, new UTF8Encoding(false), 1 << 16) { NewLine = "\n" };
        if (stream.Length == 0)
        {
            _writer.WriteLine("file,line,reason,text");
        }
    }
}
