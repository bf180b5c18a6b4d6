using System.Buffers.Binary;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recordings;

namespace Spurless.Sites.Recordings;

/// <summary>What is heard in the last seconds of a sound that goes on. Nothing is kept.</summary>
public static class LiveService
{
    private const int HeadLength = 44;

    /// <summary>Listens to a few seconds of sound.</summary>
    /// <param name="octets">Samples of 16 bits, the lower octet first, one channel.</param>
    /// <param name="rateHz">Samples a second, 8,000 to 192,000.</param>
    /// <returns>What was heard; null where there is nothing to hear or the rate is impossible.</returns>
    public static Heard? Hear(ReadOnlySpan<byte> octets, int rateHz)
    {
        if (octets.Length < 2 || rateHz is < 8_000 or > 192_000)
        {
            return null;
        }

        byte[] wav = new byte[HeadLength + octets.Length];
        "RIFF"u8.CopyTo(wav);
        BinaryPrimitives.WriteInt32LittleEndian(wav.AsSpan(4), wav.Length - 8);
        "WAVEfmt "u8.CopyTo(wav.AsSpan(8));
        BinaryPrimitives.WriteInt32LittleEndian(wav.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(wav.AsSpan(20), 1);
        BinaryPrimitives.WriteInt16LittleEndian(wav.AsSpan(22), 1);
        BinaryPrimitives.WriteInt32LittleEndian(wav.AsSpan(24), rateHz);
        BinaryPrimitives.WriteInt32LittleEndian(wav.AsSpan(28), 2 * rateHz);
        BinaryPrimitives.WriteInt16LittleEndian(wav.AsSpan(32), 2);
        BinaryPrimitives.WriteInt16LittleEndian(wav.AsSpan(34), 16);
        "data"u8.CopyTo(wav.AsSpan(36));
        BinaryPrimitives.WriteInt32LittleEndian(wav.AsSpan(40), octets.Length);
        octets.CopyTo(wav.AsSpan(HeadLength));
        return WavReader.Open(new MemoryStream(wav), "live", WavUse.Audio, null, new DiagnosticBag()) is { } recording
            ? AudioListener.Listen(recording) : null;
    }
}
