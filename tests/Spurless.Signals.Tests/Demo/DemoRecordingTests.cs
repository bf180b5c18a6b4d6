using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Listening;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Demo;

/// <summary>
/// The invented demo recording: what a discriminator on 145.0500 MHz gives of 466.1000 - 2 x 160.5250, paging less twice the waterworks'
/// voice. Made by this class; with SPURLESS_WRITE_DEMO set it is written anew.
/// </summary>
public sealed class DemoRecordingTests
{
    private const double Rate = 8_000;
    private const double Seconds = 24;

    [Fact]
    public void Warble_isMadeByThisClass()
    {
        byte[] made = Make();
        string path = Data.Path("..", "..", "demo", "recordings", "warble.wav");
        if (Environment.GetEnvironmentVariable("SPURLESS_WRITE_DEMO") is not null)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, made);
        }

        Assert.Equal(made, File.ReadAllBytes(path));
    }

    [Fact]
    public void Warble_isPagingAndVoice()
    {
        Heard heard = Made.Hear(Make());
        HashSet<SignalKind> kinds = [.. heard.Transmissions.SelectMany(static t => t.Kinds).Select(static k => k.Kind)];
        Assert.Contains(SignalKind.Pocsag, kinds);
        Assert.Contains(SignalKind.Voice, kinds);
        Finding paging = heard.Transmissions.SelectMany(static t => t.Kinds).First(static k => k.Kind == SignalKind.Pocsag);
        Assert.Equal(1_200, paging.SymbolRateBd);
        Assert.True(paging.UnitsGood > 0.6 * paging.UnitsChecked);
    }

    private static byte[] Make()
    {
        // Open squelch before and behind; on the channel 4.5 kHz of paging and twice 2.5 kHz of voice, full scale 15 kHz.
        Sound sound = new(Rate, Seconds);
        sound.Noise(0.12, 22_001, 0, 2).Noise(0.12, 22_002, 21).Noise(0.004, 22_003);
        sound.Add(2.3, SpeechSignal.Make(7, Rate, 22_004, 125), -0.28).Add(12.5, SpeechSignal.Make(8, Rate, 22_005, 125), -0.28);
        int[] page = PagingSignal.Bits([(1_500_008, 3, "INVENTED"), (700_016, 3, "NO ONE IS CALLED")]);
        sound.Add(9.6, PagingSignal.Wave(page, 1_200, Rate), 0.3);
        sound.Add(16.6, PagingSignal.Wave(page, 1_200, Rate), 0.3);
        return RecordingFiles.Wav(Rate, 16, sound.Samples);
    }
}
