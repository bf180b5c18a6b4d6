using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Listening;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>Eyes and tones over time, held against what the tests' modulator made.</summary>
public sealed class TraceTests
{
    private const double Rate = 48_000;

    /// <summary>Open for every rate; clocks 200 parts in a million off do not smear it.</summary>
    [Theory]
    [InlineData(512)]
    [InlineData(1_200)]
    [InlineData(2_400)]
    public void Paging_hasAnOpenEye(double rateBd)
    {
        int[] bits = PagingSignal.Bits([(1_000_003, 3, "INVENTED"), (700_016, 3, "NO ONE IS CALLED")]);
        Finding found = Found(PagingSignal.Wave(bits, rateBd, Rate, drift: 200e-6), SignalKind.Pocsag);
        EyePicture eye = found.Trace!.Eye!;
        Assert.Equal(1 / rateBd, eye.SymbolS, 1e-9);
        Assert.InRange(eye.Laid, 40, 528);
        Assert.True(eye.Openness > 0.75, $"{eye.Openness}");

        // At a symbol's middle the signal stands at one of two levels: nothing passes between them, but at the edges it does.
        int centre = eye.Columns / 4;
        int edge = eye.Columns / 2;
        int middle = eye.Rows / 2;
        Assert.All(Enumerable.Range(middle - 8, 16), row => Assert.Equal(0, eye.Cells[centre * eye.Rows + row]));
        Assert.Contains(Enumerable.Range(middle - 8, 16), row => eye.Cells[edge * eye.Rows + row] > 0);
    }

    [Fact]
    public void Noise_closesTheEye()
    {
        int[] bits = PagingSignal.Bits([(1_000_003, 3, "INVENTED"), (700_016, 3, "NO ONE IS CALLED")]);
        double[] wave = PagingSignal.Wave(bits, 1_200, Rate);
        double clean = Found(wave, SignalKind.Pocsag).Trace!.Eye!.Openness;
        double noisy = Found(wave, SignalKind.Pocsag, 0.4).Trace!.Eye!.Openness;
        Assert.True(noisy < clean - 0.2, $"{clean} {noisy}");
    }

    [Fact]
    public void Packet_hasEyes()
    {
        int[] bits = PacketSignal.Bits([PacketSignal.Frame("TEST01", "NOCALL", "an invented packet, and nothing else is in it")], 60);
        Assert.True(Found(PacketSignal.Afsk(bits, Rate), SignalKind.Afsk1200).Trace!.Eye!.Openness > 0.4);
        int[] more = PacketSignal.Bits([PacketSignal.Frame("TEST01", "NOCALL", "an invented packet, and nothing else is in it")], 300);
        Assert.True(Found(PacketSignal.Direct(more, Rate), SignalKind.Fsk9600).Trace!.Eye!.Openness > 0.4);
    }

    /// <summary>Four levels: at the symbols' middles four heaps, 1 : 1/3 apart.</summary>
    [Fact]
    public void FourLevels_haveFourHeaps()
    {
        int[] bits = BitSignals.RandomBits(9_600, 5);
        double[] wave = BitSignals.Shaped([.. Enumerable.Range(0, 4_800)
            .Select(i => (bits[2 * i] == 1 ? -1 : 1) * (bits[2 * i + 1] == 1 ? 1 : 1 / 3.0))], 2_400, Rate);
        EyePicture eye = Found(wave, SignalKind.FourLevelFsk).Trace!.Eye!;
        int heaps = 0;
        bool on = false;
        for (int row = 0; row < eye.Rows; row++)
        {
            bool now = eye.Cells[eye.Columns / 4 * eye.Rows + row] > 90;
            heaps += now && !on ? 1 : 0;
            on = now;
        }

        Assert.Equal(4, heaps);
    }

    [Fact]
    public void Squelch_tone_standsWhereItIs()
    {
        IReadOnlyList<TonePoint> tone = Found(ToneSignals.Tone(103.7, 4, Rate), SignalKind.Ctcss).Trace!.Tone;
        Assert.True(tone.Count > 20);
        Assert.All(tone, static p => Assert.Equal(103.7, p.Hz!.Value, 0.2));
        Assert.True(tone[^1].AtS - tone[0].AtS > 2.5);
    }

    [Fact]
    public void Two_tones_followEachOther()
    {
        IReadOnlyList<TonePoint> tone = Found(ToneSignals.TwoTone(600.9, 1_153.4, Rate, 1, 2.5), SignalKind.TwoTone).Trace!.Tone;
        Assert.Equal(600.9, tone[3].Hz!.Value, 3.0);
        Assert.Equal(1_153.4, tone[^4].Hz!.Value, 3.0);
    }

    /// <summary>M.1677: PARIS has 22 of 43 units (its last letter gap left out) keyed.</summary>
    [Fact]
    public void Morse_isKeyedAsItWasSent()
    {
        IReadOnlyList<TonePoint> tone = Found(ToneSignals.Morse("PARIS PARIS", 18, 800, Rate), SignalKind.Morse).Trace!.Tone;
        double most = tone.Max(static p => p.Db);
        double keyed = tone.Average(p => p.Db > most - 6 ? 1.0 : 0);
        Assert.Equal(44 / 93.0, keyed, 0.06);
        Assert.All(tone, static p => Assert.Null(p.Hz));
    }

    /// <summary>The order of dialling tones is a number: nothing is drawn of it.</summary>
    [Fact]
    public void Dialling_hasNone() => Assert.Null(Found(ToneSignals.Dtmf("159D0", Rate), SignalKind.Dtmf).Trace);

    private static Finding Found(double[] signal, SignalKind kind, double noise = 0.003)
    {
        Heard heard = Made.Hear(Rate, signal.Length / Rate + 2, s => s.Add(1, signal, 0.3), noise);
        return heard.Transmissions.SelectMany(static t => t.Kinds).First(f => f.Kind == kind);
    }
}
