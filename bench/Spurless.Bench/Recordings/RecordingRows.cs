using System.Diagnostics;
using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Signals.Listening;
using Spurless.Signals.Recordings;
using Spurless.Signals.Spectra;
using Spurless.Signals.Tests.Making;

namespace Spurless.Bench.Recordings;

/// <summary>
/// Listening: how many times faster than the recording lasts, by the clock and by processor time, and in how much memory. Made by the
/// tests' modulator.
/// </summary>
public static class RecordingRows
{
    private const string Subject = "Recordings";
    private const double AudioRate = 48_000;
    private const double BandRate = 2_400_000;
    private const double BlockS = 2;
    private const long MostHeap = 300_000_000;

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "audio, 48 kHz, busy a third of the time", ">= 200 x real time, heap < 300 MB", static c => Audio(c)),
        new BenchRow(Subject, "band, 2.4 MS/s, 8 channels on all the time", ">= 1.5 x real time, heap < 300 MB", static c => Band(c)),
        new BenchRow(Subject, "growth with channels, band of 2.4 MS/s", "guide", static c => Growth(c)),
        new BenchRow(Subject, "survey of a band, 2.4 MS/s, 8 channels", "guide", static c => Survey(c)),
    ];

    private static BenchResult Audio(BenchContext context)
    {
        Sound sound = new(AudioRate, 60);
        int[] page = PagingSignal.Bits([(1_234_567, 3, "INVENTED"), (700_016, 3, "NO ONE IS CALLED")]);
        sound.Add(5, PagingSignal.Wave(page, 1_200, AudioRate), 0.3)
            .Add(20, SpeechSignal.Make(10, AudioRate, 3))
            .Add(40, PacketSignal.Afsk(PacketSignal.Bits([PacketSignal.Frame("TEST01", "NOCALL", "an invented packet")]), AudioRate), 0.3)
            .Add(48, ToneSignals.Morse("DE TE5T", 18, 800, AudioRate), 0.3)
            .Noise(0.01, 5);
        byte[] wav = RecordingFiles.Wav(AudioRate, 16, sound.Samples);
        int times = context.Quick ? 10 : 60;

        // The head says how long it is: that of one minute would end the reading there.
        byte[] head = wav[..44];
        BitConverter.TryWriteBytes(head.AsSpan(40), (uint)((wav.Length - 44L) * times));
        DiagnosticBag findings = new();
        Recording recording = WavReader.Open(new RepeatedStream(head, wav[44..], times), "made.wav", WavUse.Audio, null, findings)!;
        return Result(Measure(() => AudioListener.Listen(recording)), 200);
    }

    private static BenchResult Band(BenchContext context)
    {
        return Result(Listen(8, context.Quick ? 6 : 60), 1.5);
    }

    private static BenchResult Growth(BenchContext context)
    {
        int[] channels = context.Quick ? [1, 8, 32] : [1, 8, 32, 128];
        Measured[] runs = [.. channels.Select(static n => Listen(n, 4))];
        return new BenchResult(
            $"{Each(runs, static r => r.Seconds)} s a second",
            "",
            "",
            null,
            $"with {string.Join(" / ", channels)} channels on all the time; processor time "
                + $"{Each(runs, static r => r.ProcessorS)} s a second");
    }

    private static string Each(Measured[] runs, Func<Measured, double> of) =>
        string.Join(" / ", runs.Select(r => string.Create(CultureInfo.InvariantCulture, $"{of(r) / (4 * BlockS):0.00}")));

    /// <summary>Sweeps of a recorded band and their lines.</summary>
    private static BenchResult Survey(BenchContext context)
    {
        Recording recording = Recorded(8, context.Quick ? 6 : 60);
        int lines = 0;
        double seconds = Timing.Once(() => lines = RecordingSweeps.Of(recording, "made", null).Sum(static s =>
            LineFinder.For(s.Sweep, new LineOptions { ResolutionHz = s.ResolutionHz }).Lines().Count));
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{recording.DurationS / seconds:0.0} x real time"),
            "",
            "",
            null,
            string.Create(CultureInfo.InvariantCulture, $"{recording.DurationS:0} s; {lines} lines"));
    }

    private static Measured Listen(int channels, int times)
    {
        Recording recording = Recorded(channels, times);
        return Measure(() => BandListener.Listen(recording));
    }

    /// <summary>Voice-modulated carriers side by side, every one on throughout.</summary>
    private static Recording Recorded(int channels, int times)
    {
        Band band = new(BandRate, BlockS);
        double[] voice = SpeechSignal.Make(BlockS, 24_000, 3);
        double step = Math.Floor(BandRate * 0.9 / channels);
        for (int k = 0; k < channels; k++)
        {
            band.Fm(0, step * (k + 0.5) - 0.45 * BandRate, 2_500, voice, 24_000, 0.2 / channels);
        }

        band.Noise(1e-13, 7);
        (byte[] meta, byte[] data) = RecordingFiles.SigMf(band, "ci16_le", 150e6);
        DiagnosticBag findings = new();
        return SigMfReader.Open(
            meta, "made.sigmf-meta", _ => new RepeatedStream([], data, times), "made.sigmf-data", null, findings)!;
    }

    private static Measured Measure(Func<Heard> listen)
    {
        long before = GC.GetTotalMemory(forceFullCollection: true);
        long most = 0;
        using Timer timer = new(_ => most = Math.Max(most, GC.GetTotalMemory(false) - before), null, 0, 20);
        double processor = Environment.CpuUsage.TotalTime.TotalSeconds;
        Stopwatch clock = Stopwatch.StartNew();
        Heard heard = listen();
        return new Measured(clock.Elapsed.TotalSeconds, Environment.CpuUsage.TotalTime.TotalSeconds - processor, most, heard);
    }

    private static BenchResult Result(Measured run, double goal)
    {
        double lengthS = run.Heard.DurationS;
        double ratio = lengthS / run.Seconds;
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{ratio:0.0} x real time, heap {run.Heap / 1e6:0} MB"),
            "",
            "",
            ratio >= goal && run.Heap < MostHeap,
            string.Create(CultureInfo.InvariantCulture,
                $"{lengthS:0} s; {run.Heard.Transmissions.Count} transmissions found; {run.ProcessorS:0.0} s of processor time, ")
                + string.Create(CultureInfo.InvariantCulture, $"{lengthS / run.ProcessorS:0.0} x real time on each processor"));
    }

    private sealed record Measured(double Seconds, double ProcessorS, long Heap, Heard Heard);
}
