using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Demo;

/// <summary>
/// The invented demo recording of a band: 96 kHz round 145.165 MHz, three stretches out of a minute, as a recorder with a level trigger
/// keeps them. In it a club's repeater, a packet node, a pager for alarms, and on 145.200 MHz what two of them make together:
/// 2 x 145.175 - 145.150. Made by this class; with SPURLESS_WRITE_DEMO set it is written anew.
/// </summary>
public sealed class DemoBandTests
{
    public const string Name = "valley-minute";
    private const double Rate = 96_000;
    private const double CentreHz = 145.165e6;
    private const double Audio = 24_000;
    private const double Minute = 54;
    private static readonly (double FromS, double ToS)[] _kept = [(0, 8), (20, 30), (46, Minute)];

    private static readonly DateTimeOffset _start = new(2031, 3, 11, 20, 15, 0, TimeSpan.Zero);

    [Fact]
    public void Minute_isMadeByThisClass()
    {
        (string meta, byte[] data) = Make();
        string path = Data.Path("..", "..", "demo", "recordings", Name);
        if (Environment.GetEnvironmentVariable("SPURLESS_WRITE_DEMO") is not null)
        {
            File.WriteAllText(path + ".sigmf-meta", meta);
            File.WriteAllBytes(path + ".sigmf-data", data);
        }

        Assert.Equal(meta, File.ReadAllText(path + ".sigmf-meta"));
        byte[] there = File.ReadAllBytes(path + ".sigmf-data");
        Assert.Equal(data.Length, there.Length);

        // The last digit of a sine is not the same on every processor: a sample may fall to either side of a step.
        int off = Enumerable.Range(0, data.Length).Count(i => data[i] != there[i]);
        Assert.True(off < data.Length / 1_000, $"{off} of {data.Length} octets differ");
    }

    /// <summary>What was put in, and when: found again within the recorder's stretches.</summary>
    [Fact]
    public void Minute_holdsItsEmittersAndWhatTheyMake()
    {
        Heard heard = Hear();
        Assert.Equal(_kept, heard.Recorded.Select(static r => (Math.Round(r.FromS, 6), Math.Round(r.ToS, 6))));
        Assert.Equal(_start, heard.Start);
        Assert.Equal([145_125_000.0, 145_150_000, 145_175_000, 145_200_000],
            heard.Transmissions.Select(static t => Math.Round(t.CentreHz!.Value / 25_000) * 25_000).Distinct().Order());
        Assert.Equal(Plan.Repeater.Concat(Plan.Packet).Concat(Plan.Pager).Concat(Plan.Mixed).Order(),
            heard.Transmissions.Select(static t => (Math.Round(t.StartS, 1), Math.Round(t.EndS, 1))).Order(), new Near());
        Assert.All(At(heard, 145.125e6), static t => Assert.Contains(SignalKind.Pocsag, Kinds(t)));
        Assert.All(At(heard, 145.150e6), static t => Assert.Contains(SignalKind.Afsk1200, Kinds(t)));
        Assert.All(At(heard, 145.175e6), static t => Assert.Contains(SignalKind.Ctcss, Kinds(t)));
        Assert.Contains(At(heard, 145.175e6), static t => Kinds(t).Contains(SignalKind.Voice));

        // The mixture carries both, the repeater's with twice its deviation.
        Transmission[] mixed = At(heard, 145.2e6);
        Assert.Contains(mixed, static t => Kinds(t).Contains(SignalKind.Afsk1200));
        Assert.Contains(mixed, static t => Kinds(t).Contains(SignalKind.Ctcss));
        Assert.DoesNotContain(mixed, static t => Kinds(t).Contains(SignalKind.Pocsag));
        Assert.True(mixed.Max(static t => t.DeviationHz) > 1.6 * At(heard, 145.175e6).Max(static t => t.DeviationHz));
    }

    internal static Heard Hear()
    {
        (string meta, byte[] data) = Make();
        DiagnosticBag findings = new();
        Recording? recording = SigMfReader.Open(
            Encoding.UTF8.GetBytes(meta), "made.sigmf-meta", _ => new MemoryStream(data), "made.sigmf-data", null, findings);
        Assert.Empty(findings.InOrder());
        return BandListener.Listen(recording!);
    }

    private static Transmission[] At(Heard heard, double hz) =>
        [.. heard.Transmissions.Where(t => Math.Abs(t.CentreHz!.Value - hz) < 6_000)];

    private static HashSet<SignalKind> Kinds(Transmission t) => [.. t.Kinds.Select(static k => k.Kind)];

    private static (string Meta, byte[] Data) Make()
    {
        Band repeater = Repeater();
        Band packet = Keyed(Plan.Packet, -15_000, 3_000, 0.25, static (s, n) => PacketSignal.Afsk(Packets(s, n), Audio));
        Band all = Keyed(Plan.Pager, -40_000, 2_500, 0.18, static (s, n) => PagingSignal.Wave(Pages(s, n), 1_200, Audio));
        for (int n = 0; n < all.I.Length; n++)
        {
            // What a bent line makes of two carriers, its third-order part that lands at 2 a - b: a a b* and nothing else.
            (double ai, double aq, double bi, double bq) = (repeater.I[n], repeater.Q[n], packet.I[n], packet.Q[n]);
            (double si, double sq) = (ai * ai - aq * aq, 2 * ai * aq);
            all.I[n] += ai + bi + 4 * (si * bi + sq * bq);
            all.Q[n] += aq + bq + 4 * (sq * bi - si * bq);
        }

        all.Noise(2 * 0.006 * 0.006 / Rate, 41_001);
        return RecordingFiles.SigMf(all, "ci8", CentreHz, _start, _kept,
            "Invented: no such stations, and nobody was recorded. Made by DemoBandTests of Spurless");
    }

    /// <summary>Voice with a squelch tone of 88.5 Hz, then the bare carrier with its tone as long as the repeater hangs.</summary>
    private static Band Repeater()
    {
        Band band = new(Rate, Minute);
        int seed = 41_100;
        foreach ((double fromS, double toS) in Plan.Repeater)
        {
            double[] tone = ToneSignals.Tone(88.5, toS - fromS, Audio);
            double[] voice = Channels.Band(SpeechSignal.Make(Math.Min(3.5, toS - fromS - 1), Audio, ++seed, 125), Audio, 300, 3_000);
            band.Fm(fromS, 10_000, 2_500,
                [.. tone.Select((t, i) => 0.2 * t + (i < voice.Length ? Math.Clamp(1.4 * voice[i], -0.8, 0.8) : 0))], Audio, 0.25);
        }

        return band;
    }

    private static Band Keyed(
        (double FromS, double ToS)[] plan, double offsetHz, double deviationHz, double amplitude, Func<double, int, double[]> make)
    {
        Band band = new(Rate, Minute);
        for (int k = 0; k < plan.Length; k++)
        {
            double seconds = plan[k].ToS - plan[k].FromS;
            band.Fm(plan[k].FromS, offsetHz, deviationHz, make(seconds, k)[..(int)(seconds * Audio)], Audio, amplitude);
        }

        return band;
    }

    private static int[] Packets(double seconds, int number)
    {
        List<byte[]> frames = [];
        int[] bits = [];
        while (bits.Length < 1_200 * seconds)
        {
            frames.Add(PacketSignal.Frame("TEST01", "NOCALL", $"invented packet {number} {frames.Count}"));
            bits = PacketSignal.Bits(frames, 20, 4, (int)(1_200 * seconds / 8) + 1 - (bits.Length / 8));
        }

        return bits;
    }

    private static int[] Pages(double seconds, int number)
    {
        int[] bits = PagingSignal.Bits([(1_400_008 + number, 3, "INVENTED ALARM")], 8);
        return bits.Length >= 1_200 * seconds ? bits : throw new InvalidOperationException("too short");
    }

    /// <summary>Who is on when, in seconds of the minute.</summary>
    private static class Plan
    {
        public static readonly (double FromS, double ToS)[] Repeater = [(2.6, 7.0), (21.4, 29.0), (50.0, 53.4)];
        public static readonly (double FromS, double ToS)[] Packet = [(0.6, 1.6), (23.0, 24.6), (26.8, 28.2), (47.0, 48.2), (51.8, 53.0)];
        public static readonly (double FromS, double ToS)[] Pager = [(0.9, 4.6), (46.6, 50.8)];
        public static readonly (double FromS, double ToS)[] Mixed = [(23.0, 24.6), (26.8, 28.2), (51.8, 53.0)];
    }

    private sealed class Near : IEqualityComparer<(double FromS, double ToS)>
    {
        public bool Equals((double FromS, double ToS) x, (double FromS, double ToS) y) =>
            Math.Abs(x.FromS - y.FromS) < 0.11 && Math.Abs(x.ToS - y.ToS) < 0.11;

        public int GetHashCode((double FromS, double ToS) obj) => 0;
    }
}
