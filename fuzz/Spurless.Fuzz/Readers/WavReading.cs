using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Signals.Recordings;

namespace Spurless.Fuzz.Readers;

/// <summary>Recordings as WAV, for every use, read to their end.</summary>
internal sealed class WavReading : IFuzzedReader
{
    public string Name => "wav";

    public Family Family => Family.Binary;

    public IEnumerable<byte[]> Examples =>
    [
        Wav(1, 1, 16, 48_000, 400), Wav(1, 2, 8, 8_000, 100), Wav(3, 2, 32, 2_400_000, 100), Wav(6, 1, 8, 8_000, 50),
        Wav(1, 1, 24, 96_000, 60),
    ];

    public void Read(byte[] input)
    {
        foreach (WavUse use in Enum.GetValues<WavUse>())
        {
            DiagnosticBag findings = new();
            using MemoryStream stream = new(input);
            Recording? recording = WavReader.Open(stream, "x.wav", use, 145e6, findings);
            Reading.Hold(findings, recording is not null);
            if (recording is not null)
            {
                ReadAll(recording, input.Length);
            }
        }
    }

    /// <summary>Reads to the end: no more samples than there are octets.</summary>
    public static void ReadAll(Recording recording, int octets)
    {
        float[] block = new float[4096];
        long samples = 0;
        while (recording.Next() is not null)
        {
            for (int got; (got = recording.Read(block)) > 0;)
            {
                samples += got;
                if (samples > octets)
                {
                    throw new Violation($"more than {octets} samples of {octets} octets");
                }

                if (!block.AsSpan(0, got).ToArray().All(float.IsFinite))
                {
                    throw new Violation("a sample that is no number");
                }
            }
        }

        if (!double.IsFinite(recording.DurationS) || recording.DurationS < 0)
        {
            throw new Violation($"a recording of {recording.DurationS} s");
        }
    }

    private static byte[] Wav(short format, short channels, short bits, int rate, int frames)
    {
        using MemoryStream stream = new();
        using BinaryWriter to = new(stream);
        int stride = channels * bits / 8;
        to.Write("RIFF"u8);
        to.Write(36 + frames * stride);
        to.Write("WAVEfmt "u8);
        to.Write(16);
        to.Write(format);
        to.Write(channels);
        to.Write(rate);
        to.Write(rate * stride);
        to.Write((short)stride);
        to.Write(bits);
        to.Write("data"u8);
        to.Write(frames * stride);
        to.Write(new byte[frames * stride]);
        return stream.ToArray();
    }
}
