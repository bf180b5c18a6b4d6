using System.Security.Cryptography;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Recordings;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recordings;

/// <summary>SigMF by the specification's version 1.2.5 (keys and rules from its text and schema).</summary>
public sealed class SigMfReaderTests
{
    private const string Good = """
        {
          "global": { "core:datatype": "ci16_le", "core:version": "1.2.5", "core:sample_rate": 1000000 },
          "captures": [ { "core:sample_start": 0, "core:frequency": 145000000 } ],
          "annotations": []
        }
        """;

    private static readonly byte[] _data = [.. Enumerable.Range(0, 4_000).Select(static n => (byte)(n * 7))];

    [Theory]
    [InlineData("ci8")]
    [InlineData("cu8")]
    [InlineData("ci16_le")]
    [InlineData("cf32_le")]
    public void Read_eachDatatype_givesTheSamples(string datatype)
    {
        Band band = new(100_000, 0.01);
        band.Fm(0, 10_000, 1, new double[200], 20_000, 0.6);
        (byte[] meta, byte[] data) = RecordingFiles.SigMf(band, datatype, 1e8, "2031-03-04T19:02:00Z");
        DiagnosticBag findings = new();
        Recording recording = SigMfReader.Open(meta, "a.sigmf-meta", _ => new MemoryStream(data), "a.sigmf-data", null, findings)!;
        Assert.Empty(findings.InOrder());
        Assert.Equal(new DateTimeOffset(2031, 3, 4, 19, 2, 0, TimeSpan.Zero), recording.Start);
        Capture capture = recording.Next()!;
        Assert.Equal(1e8, capture.CentreHz);
        Assert.Equal(band.I.Length, capture.Frames);
        float[] got = new float[2 * band.I.Length];
        Assert.Equal(band.I.Length, recording.Read(got));
        double within = datatype is "ci8" or "cu8" ? 0.012 : 0.0001;
        for (int n = 0; n < band.I.Length; n++)
        {
            Assert.Equal(band.I[n], got[2 * n], within);
            Assert.Equal(band.Q[n], got[2 * n + 1], within);
        }
    }

    [Fact]
    public void Read_severalCaptures_haveTheirCentresAndGaps()
    {
        string meta = Good.Replace(
            "[ { \"core:sample_start\": 0, \"core:frequency\": 145000000 } ]",
            "[ { \"core:sample_start\": 0, \"core:frequency\": 145000000, \"core:datetime\": \"2031-03-04T19:02:00Z\" }, " +
            "{ \"core:sample_start\": 400, \"core:frequency\": 146000000, \"core:datetime\": \"2031-03-04T19:02:10Z\" } ]",
            StringComparison.Ordinal);
        Recording recording = Open(meta, out _)!;
        Assert.Equal([400L, 600L], recording.Captures.Select(static c => c.Frames));
        Assert.Equal([145e6, 146e6], recording.Captures.Select(static c => c.CentreHz));
        Assert.Equal([0, 10], recording.Captures.Select(static c => c.StartS));
        Assert.Equal(10 + 600e-6, recording.DurationS, 1e-9);
    }

    /// <summary>The recorder's own count of samples says where a capture belongs, finer than its clock.</summary>
    [Fact]
    public void Read_globalIndex_givesTheGap()
    {
        string meta = Good.Replace(
            "[ { \"core:sample_start\": 0, \"core:frequency\": 145000000 } ]",
            "[ { \"core:sample_start\": 0, \"core:global_index\": 5000000, \"core:frequency\": 145000000 }, " +
            "{ \"core:sample_start\": 400, \"core:global_index\": 7500000, \"core:frequency\": 145000000 } ]",
            StringComparison.Ordinal);
        Recording recording = Open(meta, out _)!;
        Assert.Equal([0, 2.5], recording.Captures.Select(static c => c.StartS));
        Assert.Equal([(0, 400e-6), (2.5, 2.5 + 600e-6)], recording.Recorded);
    }

    /// <summary>Captures without a gap between them are one stretch of time.</summary>
    [Fact]
    public void Recorded_joinsCapturesThatFollowEachOther()
    {
        string meta = Good.Replace(
            "[ { \"core:sample_start\": 0, \"core:frequency\": 145000000 } ]",
            "[ { \"core:sample_start\": 0, \"core:frequency\": 145000000 }, " +
            "{ \"core:sample_start\": 400, \"core:frequency\": 146000000 } ]",
            StringComparison.Ordinal);
        (double fromS, double toS) = Assert.Single(Open(meta, out _)!.Recorded);
        Assert.Equal((0, 0.001), (fromS, Math.Round(toS, 9)));
    }

    [Theory]
    [InlineData("\"core:datatype\": \"ci16_le\", ", "", "2:13", "'core:datatype' is missing")]
    [InlineData("ci16_le", "ci12_le", "2:32", "is not known")]
    [InlineData(", \"core:sample_rate\": 1000000", "", "2:13", "'core:sample_rate' is missing")]
    [InlineData("1000000 }", "-5 }", "2:88", "-5 samples a second")]
    [InlineData("1000000 }", "1e-320 }", "2:88", "1e-320 samples a second")] // would last longer than any figure holds
    [InlineData("1000000 }", "0.999 }", "2:88", "0.999 samples a second")]
    [InlineData("\"core:sample_start\": 0,", "\"core:sample_start\": 0, \"core:header_bytes\": -1,", "3:64",
        "a head of fewer than no bytes")]
    [InlineData("\"captures\"", "\"catches\"", "1:1", "'captures' is missing")]
    [InlineData(", \"core:frequency\": 145000000", "", "3:17", "frequency in the middle")]
    [InlineData("\"annotations\": []", "\"annotations\": [", "5:1", "not JSON")]
    [InlineData("1000000 }", "1000000, \"core:extensions\": [ { \"name\": \"odd\", \"version\": \"1\", \"optional\": false } ] }", "2:118",
        "extension 'odd'")]
    public void Open_wrongDescription_isRefusedAtItsPlace(string of, string by, string place, string what)
    {
        Assert.Null(Open(Good.Replace(of, by, StringComparison.Ordinal), out DiagnosticBag findings));
        Diagnostic told = Assert.Single(findings.InOrder(), static f => f.Severity == Severity.Error);
        Assert.StartsWith($"a.sigmf-meta:{place}: ", told.ToString(), StringComparison.Ordinal);
        Assert.Contains(what, told.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_optionalExtension_isAccepted() =>
        Assert.NotNull(
            Open(
            Good.Replace(
            "1000000 }", "1000000, \"core:extensions\": [ { \"name\": \"odd\", \"version\": \"1\", \"optional\": true } ] }",
            StringComparison.Ordinal), out _));

    [Fact]
    public void Open_sha512_isHeldAgainstTheSamples()
    {
        string right = Convert.ToHexStringLower(SHA512.HashData(_data));
        Assert.NotNull(Open(Good.Replace("1000000 }", $"1000000, \"core:sha512\": \"{right}\" }}", StringComparison.Ordinal), out _));
        Assert.Null(Open(Good.Replace("1000000 }", $"1000000, \"core:sha512\": \"{right[1..]}0\" }}", StringComparison.Ordinal),
            out DiagnosticBag findings));
        Assert.Contains("sha512", Assert.Single(findings.InOrder()).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_withoutItsSamples_isRefused()
    {
        DiagnosticBag findings = new();
        Assert.Null(SigMfReader.Open(Encoding.UTF8.GetBytes(Good), "a.sigmf-meta", static _ => null, "a.sigmf-data", null, findings));
        Assert.StartsWith("a.sigmf-data: ", Assert.Single(findings.InOrder()).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Open_centreOfTheUser_stands() =>
        Assert.Equal(433e6, Open(Good.Replace(", \"core:frequency\": 145000000", "", StringComparison.Ordinal), out _, 433e6)!.Captures[
            0].CentreHz);

    /// <summary>10,000 descriptions with characters changed, cut or doubled.</summary>
    [Fact]
    public void Open_anyMutation_neverThrows()
    {
        const int Seed = 23;
        Random random = new(Seed);
        byte[] good = Encoding.UTF8.GetBytes(Good.Replace(
            "1000000 }", "1000000, \"core:trailing_bytes\": 3, \"core:num_channels\": 2, \"core:offset\": 4 }", StringComparison.Ordinal));
        float[] buffer = new float[64];
        for (int i = 0; i < 10_000; i++)
        {
            byte[] bad = [.. good[..(random.Next(5) == 0 ? random.Next(good.Length) : good.Length)]];
            for (int k = random.Next(1, 5); k > 0 && bad.Length > 0; k--)
            {
                bad[random.Next(bad.Length)] = random.Next(2) == 0 ? (byte)random.Next(256) : (byte)"{}[]\",:-0123456789e"[random.Next(19)];
            }

            DiagnosticBag findings = new();
            Recording? recording = SigMfReader.Open(
                bad, "fuzz.sigmf-meta", _ => new MemoryStream(_data), "fuzz.sigmf-data", null, findings);
            Assert.True(recording is not null || findings.HasErrors, $"seed {Seed}, file {i}: refused without a word");
            while (recording?.Next() is not null)
            {
                while (recording.Read(buffer) > 0)
                {
                }
            }
        }
    }

    private static Recording? Open(string meta, out DiagnosticBag findings, double? centreHz = null)
    {
        findings = new DiagnosticBag();
        return SigMfReader.Open(Encoding.UTF8.GetBytes(meta), "a.sigmf-meta", _ =>
            new MemoryStream(_data), "a.sigmf-data", centreHz, findings);
    }
}
