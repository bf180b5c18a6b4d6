using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>Emitters made in one recorded band are found, each at its centre and time, as what it is.</summary>
public sealed class BandKindTests
{
    private const double Audio = 24_000;
    private const double CentreHz = 145e6;

    [Theory]
    [InlineData(1_000_000, "ci16_le")]
    [InlineData(256_000, "cf32_le")]
    public void SeveralEmitters_areToldApart(double rate, string datatype)
    {
        double k = rate / 1_000_000;
        Band band = new(rate, 9);
        int[] page = PagingSignal.Bits([(1234567, 3, "INVENTED MESSAGE"), (8, 0, "12345")], 1);
        band.Fm(1, 100_000 * k, 4_500, PagingSignal.Wave(page, 1_200, Audio), Audio, 0.05);
        double[] voice = Channels.Band(SpeechSignal.Make(5, Audio, 3), Audio, 300, 3_000);
        double[] tone = ToneSignals.Tone(88.5, 5, Audio);
        band.Fm(2, -200_000 * k, 2_500, [.. voice.Select((v, i) => Math.Clamp(1.5 * v, -1, 1) + 0.2 * tone[i])], Audio, 0.03);
        band.Am(3, 250_000 * k, 0.7, [.. Channels.Band(SpeechSignal.Make(5, Audio, 4), Audio, 300, 3_000).Select(static v => 2 * v)],
            Audio, 0.04);
        band.Fm(4, 320_000 * k, 1, new double[(int)(4 * Audio)], Audio, 0.02);
        foreach ((double at, double length) in ToneSignals.MorseKeying("DE TE5T", 18))
        {
            band.Fm(1.5 + at, -310_000 * k, 1, new double[(int)(length * Audio)], Audio, 0.03);
        }

        int[] packet = PacketSignal.Bits([PacketSignal.Frame("TEST01", "NOCALL", "an invented packet")]);
        band.Fm(5, 40_000 * k, 3_000, PacketSignal.Afsk(packet, 48_000), 48_000, 0.03);
        band.Noise(1e-11, 9);
        Heard heard = Made.Hear(band, CentreHz, datatype);
        Assert.Equal(6, heard.Transmissions.Count);

        Transmission paging = At(heard, 100_000 * k, 30);
        Assert.Equal([SignalKind.Pocsag], paging.Kinds.Select(static f => f.Kind));
        Assert.False(paging.Kinds[0].Inverted);
        Assert.Equal(64, paging.Kinds[0].UnitsGood);
        Assert.InRange(paging.DeviationHz!.Value, 4_200, 4_900);
        Assert.InRange(paging.StartS, 0.97, 1.03);
        Assert.InRange(paging.EndS, 1 + page.Length / 1_200.0 - 0.03, 1 + page.Length / 1_200.0 + 0.03);

        Transmission fm = At(heard, -200_000 * k, 150);
        Assert.Equal([SignalKind.Ctcss, SignalKind.Voice], fm.Kinds.Select(static f => f.Kind).Order());
        Finding squelch = fm.Kinds.Single(static f => f.Kind == SignalKind.Ctcss);
        Assert.Equal("88.5", squelch.Code);
        Assert.InRange(squelch.StartS, 1.97, 2.03);
        Assert.Equal(500, squelch.Evidence.ToneDeviationHz!.Value, 25.0);

        Transmission am = At(heard, 250_000 * k, 20);
        Assert.Equal((SignalKind.Voice, Modulation.Am), (Assert.Single(am.Kinds).Kind, am.Modulation));
        Assert.Equal(SignalKind.Carrier, Assert.Single(At(heard, 320_000 * k, 5).Kinds).Kind);
        Finding morse = Assert.Single(At(heard, -310_000 * k, 5).Kinds);
        Assert.Equal((SignalKind.Morse, "DE TE5T"), (morse.Kind, morse.Code));
        Assert.Equal((1, 1), Assert.Single(At(heard, 40_000 * k, 60).Kinds) is { Kind: SignalKind.Afsk1200 } f
            ? (f.UnitsChecked, f.UnitsGood) : (0, 0));
    }

    [Fact]
    public void Noise_isNoTransmission() => Assert.Empty(Made.Hear(new Band(500_000, 20).Noise(1e-10, 4), CentreHz).Transmissions);

    /// <summary>What stands at the edges of a voice's pauses on a quiet carrier is the voice's: no impulses, nothing unknown.</summary>
    [Theory]
    [InlineData(0.3, 1e-12)]
    [InlineData(0.6, 1e-11)]
    public void Pauses_of_a_voice_are_no_impulses(double pauses, double noise)
    {
        Band band = new(400_000, 13);
        for (int k = 0; k < 8; k++)
        {
            double[] voice = Channels.Band(SpeechSignal.Make(11, Audio, 20 + k, 100 + (12 * k), pauses), Audio, 300, 3_000);
            band.Fm(1, (k - 4) * 40_000 + 5_000, 2_500, [.. voice.Select(static v => Math.Clamp(1.5 * v, -1, 1))], Audio, 0.04);
        }

        band.Noise(noise, 5);
        Heard heard = Made.Hear(band, CentreHz);
        Assert.Equal(8, heard.Transmissions.Count);
        Assert.All(heard.Transmissions, static t => Assert.Contains(SignalKind.Voice, t.Kinds.Select(static f => f.Kind)));
        Assert.DoesNotContain(heard.Transmissions.SelectMany(static t => t.Kinds),
            static f => f.Kind is SignalKind.Noise or SignalKind.Unknown);
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(7, 1)]
    [InlineData(10, 3)]
    [InlineData(100, 7)]
    [InlineData(101, 60)]
    public void StrongestNear_is_the_largest_of_each_window(int count, int reach)
    {
        double[] values = [.. new Random(count).GetItems(Enumerable.Range(0, 1_000).ToArray(), count).Select(static v => (double)v)];
        double[] plain = [.. Enumerable.Range(0, count).Select(i => values[Math.Max(0, i - reach)..Math.Min(count, i + reach + 1)].Max())];
        double[] largest = new double[count];
        BandScan.StrongestNear(values, reach, new double[count], new double[count], largest);
        Assert.Equal(plain, largest);
    }

    /// <summary>The position of the higher frequency is 0 for paging: exchanged, it reads inverted.</summary>
    [Fact]
    public void Pocsag_turnedOver_isInverted()
    {
        int[] page = PagingSignal.Bits([(1234567, 3, "INVENTED MESSAGE")]);
        Band band = new(200_000, page.Length / 2_400.0 + 1);
        band.Fm(0.5, -30_000, 4_500, PagingSignal.Wave(page, 2_400, Audio, inverted: true), Audio, 0.1).Noise(1e-11, 2);
        Finding found = Assert.Single(Assert.Single(Made.Hear(band, CentreHz).Transmissions).Kinds);
        Assert.Equal((SignalKind.Pocsag, true, 2_400.0), (found.Kind, found.Inverted, found.SymbolRateBd));
    }

    private static Transmission At(Heard heard, double offsetHz, double withinHz) =>
        Assert.Single(heard.Transmissions, t => Math.Abs(t.CentreHz!.Value - CentreHz - offsetHz) <= withinHz);
}
