using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// Holes in audio: samples that a recorder dropped, a squelch that closed for a moment. They count neither for a kind nor against it, and
/// what was on stays on. Where the holes are is known, since the tests cut them.
/// </summary>
public sealed class HoleTests
{
    private const double Rate = 48_000;
    private const double StartS = 1;

    /// <summary>A tenth of the time or less, where a seed puts it.</summary>
    private static Span[] Holes(double seconds, int seed, double fromS = 0.03, double toS = 0.1)
    {
        Random random = new(seed);
        List<Span> holes = [];
        for (double t = StartS + 0.4; t < StartS + seconds - 0.3; t += 0.7 + 0.6 * random.NextDouble())
        {
            holes.Add(new Span(t, t + fromS + (toS - fromS) * random.NextDouble()));
        }

        return [.. holes];
    }

    private static double[] Cut(double[] x, double rate, IEnumerable<Span> holes, double left = 0)
    {
        double[] y = [.. x];
        foreach (Span hole in holes)
        {
            for (int n = (int)(hole.FromS * rate); n < Math.Min(y.Length, (int)(hole.ToS * rate)); n++)
            {
                y[n] *= left;
            }
        }

        return y;
    }

    /// <summary>Every kind with samples dropped all through it, and with a squelch that leaves a trace of it (50 dB down).</summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(SignalKind.Pocsag)]
    [InlineData(SignalKind.Afsk1200)]
    [InlineData(SignalKind.Fsk9600)]
    [InlineData(SignalKind.Ctcss)]
    [InlineData(SignalKind.Dcs)]
    [InlineData(SignalKind.Morse)]
    [InlineData(SignalKind.Voice)]
    [InlineData(SignalKind.Tone)]
    [InlineData(SignalKind.TwoTone)]
    [InlineData(SignalKind.TwoLevelFsk)]
    [InlineData(SignalKind.FourLevelFsk)]
    [InlineData(SignalKind.Hum)]
    [InlineData(SignalKind.Comb)]
    [InlineData(SignalKind.Noise)]
    public void EveryKind_withHoles_isFoundAndNothingElse(SignalKind kind)
    {
        for (int number = 901; number <= 904; number++)
        {
            double[] signal = MadeKinds.Modulation(kind, number);
            double seconds = signal.Length / Rate;
            double gain = kind is SignalKind.Ctcss or SignalKind.Dcs ? 0.1 : 0.3;
            Sound made = new Sound(Rate, StartS + seconds + 1.5).Add(StartS, signal, gain).Noise(0.004, number);
            double[] audio = Cut(made.Samples, Rate, Holes(seconds, number), number % 2 == 0 ? 0 : 0.003);
            Heard heard = Made.Hear(RecordingFiles.Wav(Rate, 16, audio));
            string told = string.Join("; ", heard.Transmissions.SelectMany(static t => t.Kinds)
                .Select(static k => $"{k.Kind} {k.StartS:0.00}-{k.EndS:0.00}"));
            Assert.True(heard.Transmissions.Count == 1, $"{kind} {number}: {told}");
            Transmission only = heard.Transmissions[0];
            Assert.True(only.Kinds.Select(static k => k.Kind).SequenceEqual([kind]), $"{kind} {number}: {told}");

            // Speech begins and ends softly.
            double near = kind == SignalKind.Voice ? 0.6 : 0.25;
            Assert.True(Math.Abs(only.StartS - StartS) < near && Math.Abs(only.EndS - StartS - seconds) < near, $"{number}: {told}");
        }
    }

    /// <summary>The receiver's own noise with samples dropped all through it is still nothing.</summary>
    [Theory]
    [InlineData(0.03, 0.1)]
    [InlineData(0.1, 0.25)]
    public void Noise_withHoles_isNoTransmission(double fromS, double toS)
    {
        double[] noise = new Sound(Rate, 40).Noise(0.1, 7).Samples;
        Assert.Empty(Made.Hear(RecordingFiles.Wav(Rate, 16, Cut(noise, Rate, Holes(38, 8, fromS, toS)))).Transmissions);
    }

    /// <summary>A hole in the middle of a transmission with a squelch tone: on from begin to end, one tone.</summary>
    [Theory]
    [InlineData(88.5, 0.28)]
    [InlineData(203.5, 0.28)]
    public void Ctcss_underAVoice_goesOnThroughAHole(double hz, double holeS)
    {
        Sound made = new Sound(Rate, 9).Add(2, Channels.Band(SpeechSignal.Make(5, Rate, 11), Rate, 300, 3_000))
            .Add(2, ToneSignals.Tone(hz, 5, Rate), 0.08).Noise(0.003, 3);
        Span[] holes = [new(3.1, 3.1 + holeS), new(5.2, 5.2 + holeS)];
        Transmission only = Assert.Single(Made.Hear(RecordingFiles.Wav(Rate, 16, Cut(made.Samples, Rate, holes))).Transmissions);
        Finding tone = Assert.Single(only.Kinds, static k => k.Kind == SignalKind.Ctcss);
        Assert.Equal(hz, tone.ToneHz!.Value, 0.1);
        Assert.InRange(tone.StartS, 1.94, 2.06);
        Assert.InRange(tone.EndS, 6.94, 7.06);
        Assert.Contains(only.Kinds, static k => k.Kind == SignalKind.Voice);
    }

    /// <summary>A frame that lost samples is not counted as a wrong one; those beside it are right.</summary>
    [Fact]
    public void Packet_framesThatLostSamples_areNotChecked()
    {
        byte[][] frames = [.. Enumerable.Range(0, 5).Select(static k => PacketSignal.Frame("TEST01", "NOCALL", $"invented packet {k}"))];
        double[] signal = PacketSignal.Afsk(PacketSignal.Bits(frames), Rate);
        int before = PacketSignal.Bits(frames[..2]).Length;
        double at = 2 + (before + 60) / 1_200.0;
        Sound made = new Sound(Rate, signal.Length / Rate + 4).Add(2, signal, 0.4).Noise(0.003, 5);
        double[] audio = Cut(made.Samples, Rate, [new Span(at, at + 0.05)]);
        Finding found = Made.Only(Made.Hear(RecordingFiles.Wav(Rate, 16, audio)), SignalKind.Afsk1200);
        Assert.Equal((4, 4), (found.UnitsChecked, found.UnitsGood));
        Assert.InRange(found.EndS, 2 + signal.Length / Rate - 0.06, 2 + signal.Length / Rate + 0.06);
    }

    /// <summary>Where samples were dropped is found to a millisecond, whatever the gain.</summary>
    [Theory]
    [InlineData(8_000, 1)]
    [InlineData(22_050, 0.2)]
    [InlineData(48_000, 0.05)]
    [InlineData(192_000, 1)]
    public void Find_droppedSamples_areFoundWhereTheyAre(double rate, double gain)
    {
        foreach (int seed in Enumerable.Range(1, 6))
        {
            Span[] holes = Holes(8, seed, 0.004, 0.13);
            double[] sound = new Sound(rate, 10).Noise(0.2, seed).Samples;
            float[] audio = [.. Cut(sound, rate, holes).Select(v => (float)(gain * v))];
            List<Span> found = AudioHoles.Find(audio, rate);
            Assert.Equal(holes.Length, found.Count);
            Assert.All(holes.Zip(found), static p => Assert.True(
                Math.Abs(p.First.FromS - p.Second.FromS) < 0.0015 && Math.Abs(p.First.ToS - p.Second.ToS) < 0.0015, $"{p}"));
        }
    }

    /// <summary>Gaps that belong to what is sent are none: keying, dialled digits, pauses of speech, silence before and behind.</summary>
    [Fact]
    public void Find_gapsOfASignal_areNoHoles()
    {
        double[][] signals =
        [
            ToneSignals.Morse("DE TE5T PARIS", 18, 800, Rate),
            ToneSignals.Morse("TEST OMO", 9, 600, Rate),
            ToneSignals.Dtmf("159D0#42", Rate, 0.07, 0.06),
            ToneSignals.Tone(67, 4, Rate),
            ToneSignals.Comb(437, 7, 4, Rate),
            DigitalSquelchSignal.Wave("754", 5, Rate),
            Channels.Speaker(DigitalSquelchSignal.Wave("023", 5, Rate), Rate),
            Channels.Speaker(PagingSignal.Wave(PagingSignal.Bits([(1_234_567, 3, "INVENTED MESSAGE ONE")], 1), 512, Rate), Rate),
            Channels.Speaker(PagingSignal.Wave(PagingSignal.Bits([(1_234_567, 3, "INVENTED MESSAGE ONE")], 1), 1_200, Rate), Rate),
            new double[(int)Rate],
        ];
        for (int k = 0; k < signals.Length; k++)
        {
            float[] audio = new Sound(Rate, signals[k].Length / Rate + 4).Add(2, signals[k], 0.3).ToFloats();
            List<Span> found = AudioHoles.Find(audio, Rate);
            Assert.True(found.Count == 0, $"signal {k}: {string.Join(' ', found)}");
        }
    }

    /// <summary>Gaps in a clean keyed tone stay gaps: its text is read as it was sent.</summary>
    [Fact]
    public void Morse_withoutAnyNoise_isReadWhole()
    {
        float[] unused = [];
        Assert.Empty(AudioHoles.Find(unused, Rate));
        Finding found = Made.Only(
            Made.Hear(Rate, 12, s => s.Add(2, ToneSignals.Morse("TEST OMO", 18, 700, Rate), 0.4), 0), SignalKind.Morse);
        Assert.Equal("TEST OMO", found.Code);
    }
}
