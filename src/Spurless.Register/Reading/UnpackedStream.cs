using System.IO.Compression;

namespace Spurless.Register.Reading;

/// <summary>A file within a zip file, cut off where it grows beyond what is allowed, whatever its head claims.</summary>
internal sealed class UnpackedStream(ZipArchive zip, Stream inner, long most, string shown) : Stream
{
    private long _read;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => _read; set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        int read = inner.Read(buffer);
        _read += read;
        return _read <= most ? read : throw new UnpackedTooLargeException(shown, most);
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
            zip.Dispose();
        }

        base.Dispose(disposing);
    }
}

/// <summary>A file in a zip file unpacks to more than is allowed.</summary>
internal sealed class UnpackedTooLargeException(string file, long most) : IOException
{
    public string File => file;

    public long Most => most;
}
