using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>Runs made sound through a file and the listener.</summary>
internal static class Made
{
    public const double Rate = 48_000;

    /// <summary>What is heard of sound in a little white noise.</summary>
    public static Heard Hear(double rate, double seconds, Action<Sound> fill, double noise = 0.003, Func<double[],
        double[]>? channel = null, int seed = 1)
    {
        Sound made = new(rate, seconds);
        fill(made);
        Sound recorded = new Sound(rate, seconds).Add(0, channel is null ? made.Samples : channel(made.Samples)).Noise(noise, seed);
        return Hear(RecordingFiles.Wav(rate, 16, recorded.Samples));
    }

    /// <summary>What is heard of a WAV.</summary>
    public static Heard Hear(byte[] wav)
    {
        DiagnosticBag findings = new();
        Recording? recording = WavReader.Open(new MemoryStream(wav), "made.wav", WavUse.Audio, null, findings);
        Assert.False(findings.HasErrors, string.Join('\n', findings.InOrder()));
        return AudioListener.Listen(recording!);
    }

    /// <summary>What is heard of a band, as SigMF of 16 bits.</summary>
    public static Heard Hear(Band band, double centreHz, string datatype = "ci16_le")
    {
        DiagnosticBag findings = new();
        (byte[] meta, byte[] data) = RecordingFiles.SigMf(band, datatype, centreHz);
        Recording? recording = SigMfReader.Open(meta, "made.sigmf-meta", _ => new MemoryStream(data), "made.sigmf-data", null, findings);
        Assert.Empty(findings.InOrder());
        return BandListener.Listen(recording!);
    }

    /// <summary>The only transmission.</summary>
    public static Transmission Only(Heard heard) => Assert.Single(heard.Transmissions);

    /// <summary>The kind of the only transmission.</summary>
    public static Finding Only(Heard heard, SignalKind kind)
    {
        Transmission only = Only(heard);
        Assert.Equal([kind], only.Kinds.Select(static k => k.Kind));
        return only.Kinds[0];
    }
}
