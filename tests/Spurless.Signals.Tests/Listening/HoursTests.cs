using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>No other test runs beside these: they look at the memory of the whole process.</summary>
[CollectionDefinition(nameof(HoursTests), DisableParallelization = true)]
public sealed class HoursAlone;

/// <summary>Recordings of hours, streamed from a head and a part that repeats: what is held does not grow with them.</summary>
[Collection(nameof(HoursTests))]
public sealed class HoursTests
{
    private const long MostHeap = 300_000_000;

    /// <summary>Two hours of audio at 8 kHz, a page of four seconds every five minutes: all are found, in under 300 MB.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void Audio_ofTwoHours_isHeardInBoundedMemory()
    {
        const double Rate = 8_000;
        int[] page = PagingSignal.Bits([(1_000_003, 3, "INVENTED")]);
        Sound sound = new(Rate, 300);
        sound.Add(20, PagingSignal.Wave(page, 1_200, Rate), 0.3).Noise(0.001, 5);
        byte[] wav = RecordingFiles.Wav(Rate, 16, sound.Samples);
        const int Times = 24;
        byte[] head = wav[..44];
        BitConverter.TryWriteBytes(head.AsSpan(40), (uint)((wav.Length - 44L) * Times));
        Recording recording = WavReader.Open(
            new RepeatingStream(head, wav[44..], Times), "made.wav", WavUse.Audio, null, new DiagnosticBag())!;
        Heard heard = Bounded(() => AudioListener.Listen(recording));
        Assert.Equal(7_200, heard.DurationS, 1e-6);
        Assert.Equal(Times, heard.Transmissions.Count);
        Assert.All(heard.Transmissions, static t => Assert.Contains(SignalKind.Pocsag, t.Kinds.Select(static k => k.Kind)));
    }

    /// <summary>An hour of a band of 48 kHz, a voice of three seconds a minute in it: all are found, in under 300 MB.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void Band_ofAnHour_isHeardInBoundedMemory()
    {
        const double Rate = 48_000;
        Band band = new(Rate, 60);
        double[] voice = Channels.Band(SpeechSignal.Make(3, 24_000, 3), 24_000, 300, 3_000);
        band.Fm(20, 10_000, 2_500, [.. voice.Select(static v => Math.Clamp(1.5 * v, -1, 1))], 24_000, 0.2).Noise(1e-9, 9);
        (byte[] meta, byte[] data) = RecordingFiles.SigMf(band, "ci8", 145e6);
        const int Times = 60;
        Recording recording = SigMfReader.Open(
            meta, "made.sigmf-meta", _ => new RepeatingStream([], data, Times), "made.sigmf-data", null, new DiagnosticBag())!;
        Heard heard = Bounded(() => BandListener.Listen(recording));
        Assert.Equal(3_600, heard.DurationS, 1e-6);
        Assert.Equal(Times, heard.Transmissions.Count);
    }

    private static Heard Bounded(Func<Heard> listen)
    {
        long before = GC.GetTotalMemory(forceFullCollection: true);
        long most = 0;
        using Timer timer = new(_ => Interlocked.Exchange(ref most, Math.Max(most, GC.GetTotalMemory(false) - before)), null, 0, 20);
        Heard heard = listen();
        Assert.InRange(Interlocked.Read(ref most), 1, MostHeap);
        return heard;
    }

    /// <summary>A head, then one part over and over.</summary>
    private sealed class RepeatingStream(byte[] head, byte[] part, long times) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => true;

        public override bool CanWrite => false;

        public override long Length => head.Length + part.Length * times;

        public override long Position { get; set; }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            if (buffer.Length == 0 || Position >= Length)
            {
                return 0;
            }

            ReadOnlySpan<byte> from = Position < head.Length ? head.AsSpan((int)Position)
                : part.AsSpan((int)((Position - head.Length) % part.Length));
            int count = Math.Min(from.Length, buffer.Length);
            from[..count].CopyTo(buffer);
            Position += count;
            return count;
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
}
