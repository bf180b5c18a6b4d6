using System.Globalization;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// Where a plain receiver reads one word in a hundred wrong, the kind is found in 99 of 100 transmissions. The figures that
/// docs/method/listen.md keeps are of 100 transmissions a kind, by command: <c>SPURLESS_TRANSMISSIONS=100 dotnet run --project
/// tests/Spurless.Signals.Tests -c Release -- -class '*ThresholdTests' -showLiveOutput</c>. Without it the first 20 of them are sent.
/// <c>SPURLESS_KIND=four_level_fsk</c> takes that kind alone.
/// </summary>
public sealed class ThresholdTests(ITestOutputHelper output)
{
    private static readonly int Transmissions = int.TryParse(
        Environment.GetEnvironmentVariable("SPURLESS_TRANSMISSIONS"), NumberStyles.None, CultureInfo.InvariantCulture, out int asked)
        ? asked : 20;

    private static readonly string? _only = Environment.GetEnvironmentVariable("SPURLESS_KIND");

    private const int Yardsticks = 30;
    private const double StartS = 1;

    [Theory]
    [Trait("Category", "Long")]
    [InlineData(SignalKind.Pocsag, 8)]
    [InlineData(SignalKind.Afsk1200, 12)]
    [InlineData(SignalKind.Fsk9600, 17)]
    [InlineData(SignalKind.Dcs, 1)]
    [InlineData(SignalKind.TwoLevelFsk, 14)]
    [InlineData(SignalKind.FourLevelFsk, 21)]
    public void Kind_whereAPlainReceiverErrs_isFound(SignalKind kind, double db)
    {
        if (_only is not null && _only != MatrixTests.Word(kind))
        {
            return;
        }

        // From a signal to noise at which nothing is read wrong, down in steps of 1 dB.
        Func<int, PlainCase> make = Receiver(kind);
        (int words, int wrong) = (0, 0);
        while (wrong < 0.01 * words || words == 0)
        {
            db--;
            (words, wrong) = (0, 0);
            for (int number = 1; number <= Yardsticks; number++)
            {
                PlainCase made = make(number);
                (int all, int bad) = made.Read(Recorded(made, number, db), (int)(StartS * PlainReceivers.Rate));
                (words, wrong) = (words + all, wrong + bad);
            }
        }

        int found = 0, stronger = 0;
        Parallel.For(1, Transmissions + 1, new ParallelOptions { MaxDegreeOfParallelism = 2 }, number =>
        {
            PlainCase made = make(number);
            bool here = Hears(kind, Recorded(made, number, db));
            bool more = here || Hears(kind, Recorded(made, number, db + 3));
            Interlocked.Add(ref found, here ? 1 : 0);
            Interlocked.Add(ref stronger, more ? 1 : 0);
        });
        output.WriteLine($"| {MatrixTests.Word(kind)} | {db} dB | {100.0 * wrong / words:0.0} % of {words} | {found} | {stronger} |");
        Assert.True(found >= 0.99 * Transmissions, $"{kind}: {found} of {Transmissions} at {db} dB, {stronger} at 3 dB more");
    }

    /// <summary>
    /// What has no codewords: at which signal to noise in 300 to 3,400 Hz it is found in 99 of 100 recordings (MadeKinds).
    /// </summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(SignalKind.Ctcss, 0)]
    [InlineData(SignalKind.Dtmf, 6)]
    [InlineData(SignalKind.Morse, 0)]
    [InlineData(SignalKind.TwoTone, 3)]
    [InlineData(SignalKind.Voice, 12)]
    [InlineData(SignalKind.Tone, 3)]
    [InlineData(SignalKind.Hum, 3)]
    [InlineData(SignalKind.Comb, 6)]
    [InlineData(SignalKind.Noise, 12)]
    public void Kind_withoutCodewords_isFound(SignalKind kind, double snrDb)
    {
        int found = 0;
        Parallel.For(1, Transmissions + 1, new ParallelOptions { MaxDegreeOfParallelism = 2 }, number =>
            Interlocked.Add(ref found, Made.Hear(MadeKinds.Make(kind, 1_000 + number, snrDb)).Transmissions
                .Any(t => t.Kinds.Any(k => k.Kind == kind)) ? 1 : 0));
        output.WriteLine($"| {MatrixTests.Word(kind)} | {snrDb} dB | | {found} | |");
        Assert.True(found >= 0.99 * Transmissions, $"{kind}: {found} of {Transmissions} at {snrDb} dB");
    }

    private static Func<int, PlainCase> Receiver(SignalKind kind) => kind switch
    {
        SignalKind.Afsk1200 => PlainReceivers.Afsk,
        SignalKind.Fsk9600 => PlainReceivers.Scrambled,
        SignalKind.Dcs => PlainReceivers.DigitalSquelch,
        SignalKind.TwoLevelFsk => PlainReceivers.TwoLevels,
        SignalKind.FourLevelFsk => PlainReceivers.FourLevels,
        _ => PlainReceivers.Paging,
    };

    private static double[] Recorded(PlainCase made, int number, double snrDb)
    {
        double gain = 0.1 / Sound.Rms(made.Signal);
        Sound sound = new(PlainReceivers.Rate, made.Signal.Length / PlainReceivers.Rate + 2.2);
        sound.Add(StartS, made.Signal, gain).Noise(sound.NoiseFor(0.1, snrDb), 60_000 + number);
        return sound.Samples;
    }

    private static bool Hears(SignalKind kind, double[] audio) =>
        Made.Hear(RecordingFiles.Wav(PlainReceivers.Rate, 16, audio)).Transmissions.Any(t => t.Kinds.Any(k => k.Kind == kind));
}
