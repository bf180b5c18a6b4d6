namespace Spurless.Bench.Recordings;

/// <summary>A head, then one block over and over: an hour of recording without the memory for it.</summary>
internal sealed class RepeatedStream(byte[] head, byte[] block, long times) : Stream
{
    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => false;

    public override long Length => head.Length + block.Length * times;

    public override long Position { get; set; }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        int done = 0;
        while (done < buffer.Length && Position < Length)
        {
            ReadOnlySpan<byte> from = Position < head.Length
                ? head.AsSpan((int)Position)
                : block.AsSpan((int)((Position - head.Length) % block.Length));
            int count = Math.Min(from.Length, buffer.Length - done);
            from[..count].CopyTo(buffer[done..]);
            done += count;
            Position += count;
        }

        return done;
    }

    public override long Seek(long offset, SeekOrigin origin) => Position = origin switch
    {
        SeekOrigin.Begin => offset,
        SeekOrigin.Current => Position + offset,
        _ => Length + offset,
    };

    public override void Flush()
    {
    }

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
