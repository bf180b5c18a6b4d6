using System.Buffers.Binary;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Recordings;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recordings;

/// <summary>
/// WAV in all its codings, and what is wrong with one. Sizes and positions of the fields: the RIFF/WAVE format and RF64 (EBU Tech 3306),
/// from memory.
/// </summary>
public sealed class WavReaderTests
{
    private static readonly double[] _ramp = [.. Enumerable.Range(0, 400).Select(static n => 0.9 * Math.Sin(n / 7.0))];

    [Theory]
    [InlineData(8, 0.006)]
    [InlineData(16, 0.00004)]
    [InlineData(24, 0.0000003)]
    [InlineData(32, 0.0000003)]
    public void Read_pcm_givesTheSamples(int bits, double within)
    {
        float[] got = Samples(RecordingFiles.Wav(48_000, bits, _ramp), out _);
        Assert.Equal(_ramp.Length, got.Length);
        for (int n = 0; n < got.Length; n++)
        {
            Assert.Equal(_ramp[n], got[n], within + Math.Abs(_ramp[n]) * 2 / Math.Pow(2, bits));
        }
    }

    [Fact]
    public void Read_float_givesTheSamples() => Assert.Equal(
        _ramp.Select(static v => (float)v), Samples(RecordingFiles.WavFloat(44_100, _ramp), out _));

    /// <summary>
    /// ITU-T G.711, from memory: 0xD5 and 0xFF are the smallest positive values, 0xAA and 0x80 the largest (32,256/32,768 and
    /// 32,124/32,768).
    /// </summary>
    [Theory]
    [InlineData(6, 0xD5, 8.0 / 32_768)]
    [InlineData(6, 0xAA, 32_256.0 / 32_768)]
    [InlineData(6, 0x2A, -32_256.0 / 32_768)]
    [InlineData(7, 0xFF, 0.0)]
    [InlineData(7, 0x80, 32_124.0 / 32_768)]
    [InlineData(7, 0x00, -32_124.0 / 32_768)]
    public void Read_lawCodes_areThoseOfG711(int coding, int code, double value) =>
        Assert.Equal(value, Samples(RecordingFiles.Wav(coding, 8_000, 8, 1, [(byte)code, (byte)code]), out _)[0], 1e-7);

    [Fact]
    public void Read_rightChannel_isTheRightOne()
    {
        byte[] wav = RecordingFiles.Wav(48_000, 16, _ramp, [.. _ramp.Select(static v => -v / 2)]);
        Assert.Equal(-_ramp[20] / 2, Samples(wav, out _, WavUse.Right)[20], 1e-4);
        float[] left = Samples(wav, out DiagnosticBag findings);
        Assert.Equal(_ramp[20], left[20], 1e-4);
        Assert.Contains("2 channels", Assert.Single(findings.InOrder()).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_extensibleHead_isRead()
    {
        byte[] plain = RecordingFiles.Wav(48_000, 16, _ramp);
        byte[] wav = new byte[plain.Length + 24];
        plain.AsSpan(0, 36).CopyTo(wav);
        plain.AsSpan(36).CopyTo(wav.AsSpan(60));
        BinaryPrimitives.WriteUInt32LittleEndian(wav.AsSpan(16), 40);
        BinaryPrimitives.WriteUInt16LittleEndian(wav.AsSpan(20), 0xFFFE);
        BinaryPrimitives.WriteUInt16LittleEndian(wav.AsSpan(36), 22);
        BinaryPrimitives.WriteUInt16LittleEndian(wav.AsSpan(44), 1);
        Assert.Equal(_ramp[9], Samples(wav, out _)[9], 1e-4);
    }

    [Fact]
    public void Read_rf64_takesTheLongLength()
    {
        byte[] plain = RecordingFiles.Wav(48_000, 16, _ramp);
        byte[] wav = new byte[plain.Length + 36];
        plain.AsSpan(0, 12).CopyTo(wav);
        "RF64"u8.CopyTo(wav);
        "ds64"u8.CopyTo(wav.AsSpan(12));
        BinaryPrimitives.WriteUInt32LittleEndian(wav.AsSpan(16), 28);
        BinaryPrimitives.WriteUInt64LittleEndian(wav.AsSpan(28), 800);
        plain.AsSpan(12).CopyTo(wav.AsSpan(48));
        BinaryPrimitives.WriteUInt32LittleEndian(wav.AsSpan(48 + 28), uint.MaxValue);
        Assert.Equal(400, Samples(wav, out DiagnosticBag findings).Length);
        Assert.Empty(findings.InOrder());
    }

    [Theory]
    [InlineData(0u, "gives no length")]
    [InlineData(4_000_000u, "claims 4,000,000 octets")]
    [InlineData(uint.MaxValue, "gives no length")]
    public void Read_lyingLength_usesWhatIsThereAndSaysSo(uint claimed, string what)
    {
        byte[] wav = RecordingFiles.Wav(48_000, 16, _ramp);
        BinaryPrimitives.WriteUInt32LittleEndian(wav.AsSpan(40), claimed);
        Assert.Equal(400, Samples(wav, out DiagnosticBag findings).Length);
        Diagnostic told = Assert.Single(findings.InOrder());
        Assert.Equal(Severity.Warning, told.Severity);
        Assert.Contains(what, told.What, StringComparison.Ordinal);
        Assert.StartsWith("made.wav: warning: ", told.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_samplesThatAreNoNumbers_countAsZeroAndAreTold()
    {
        float[] got = Samples(RecordingFiles.WavFloat(48_000, [0.5, double.NaN, double.PositiveInfinity, 1e30, -0.5]),
            out DiagnosticBag findings);
        Assert.Equal([0.5f, 0, 0, 0, -0.5f], got);
        Assert.Contains("3 values are not numbers", Assert.Single(findings.InOrder()).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(24, 0u, "0 samples a second")]
    [InlineData(24, 1_000_000_000u, "1000000000 samples a second")]
    [InlineData(20, 0x00010055u, "coding 85")]
    [InlineData(20, 0x00000001u, "0 channels")]
    public void Open_impossibleFigures_isRefused(int at, uint value, string what)
    {
        byte[] wav = RecordingFiles.Wav(48_000, 16, _ramp);
        BinaryPrimitives.WriteUInt32LittleEndian(wav.AsSpan(at), value);
        DiagnosticBag findings = new();
        Assert.Null(WavReader.Open(new MemoryStream(wav), "made.wav", WavUse.Audio, null, findings));
        Assert.Contains(findings.InOrder(), f => f.Severity == Severity.Error && f.What.Contains(what, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0, "the file is empty")]
    [InlineData(10, "this is no WAV")]
    [InlineData(19, "no description of the samples")]
    [InlineData(30, "is cut short")]
    [InlineData(44, "no samples")]
    public void Open_cutShort_saysWhatIsMissing(int length, string what)
    {
        DiagnosticBag findings = new();
        Assert.Null(WavReader.Open(new MemoryStream(RecordingFiles.Wav(48_000, 16, _ramp)[..length]), "made.wav", WavUse.Audio, null,
            findings));
        Assert.Contains(what, string.Join('|', findings.InOrder().Select(static f => f.What)), StringComparison.Ordinal);
    }

    /// <summary>10,000 files with random octets changed, cut or doubled: a recording or an error, never a crash.</summary>
    [Fact]
    public void Open_anyMutation_neverThrows()
    {
        const int Seed = 22;
        Random random = new(Seed);
        byte[] good = RecordingFiles.Wav(48_000, 16, _ramp[..40]);
        float[] buffer = new float[64];
        for (int i = 0; i < 10_000; i++)
        {
            byte[] bad = [.. good[..(random.Next(4) == 0 ? random.Next(good.Length) : good.Length)]];
            for (int k = random.Next(1, 6); k > 0 && bad.Length > 0; k--)
            {
                bad[random.Next(Math.Min(bad.Length, 48))] = (byte)random.Next(256);
            }

            DiagnosticBag findings = new();
            Recording? recording = WavReader.Open(new MemoryStream(bad), "fuzz.wav", (WavUse)random.Next(4), 1e8, findings);
            Assert.True(recording is not null || findings.HasErrors, $"seed {Seed}, file {i}: refused without a word");
            if (recording?.Next() is not null)
            {
                while (recording.Read(buffer) > 0)
                {
                    Assert.All(buffer, static v => Assert.True(float.IsFinite(v)));
                }
            }
        }
    }

    private static float[] Samples(byte[] wav, out DiagnosticBag findings, WavUse use = WavUse.Audio)
    {
        findings = new DiagnosticBag();
        Recording recording = WavReader.Open(new MemoryStream(wav), "made.wav", use, null, findings)!;
        Assert.NotNull(recording.Next());
        float[] all = new float[10_000];
        return all[..recording.Read(all)];
    }
}
