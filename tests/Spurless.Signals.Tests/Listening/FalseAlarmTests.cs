using System.Globalization;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// Hours in which nothing is to be found that is not there: noise, made speech, and the other kinds one after another. By command:
/// <c>SPURLESS_HOURS=10 SPURLESS_SEED=400000 dotnet run --project tests/Spurless.Signals.Tests -c Release -- -class '*FalseAlarmTests'
/// -showLiveOutput</c>. SPURLESS_HOURS says how many of each (else little, so that the tests stay short), SPURLESS_SEED is added to all
/// seeds (other seeds are other recordings), SPURLESS_ALARMS names a file to which each wrong claim is written as it comes.
/// </summary>
public sealed class FalseAlarmTests(ITestOutputHelper output)
{
    private const double Rate = 16_000;
    private const double PartS = 300;
    private static readonly ParallelOptions _atOnce = new() { MaxDegreeOfParallelism = 2 };
    private static readonly int _seed = int.TryParse(
        Environment.GetEnvironmentVariable("SPURLESS_SEED"), NumberStyles.Integer, CultureInfo.InvariantCulture, out int seed) ? seed : 0;

    private readonly List<string> _alarms = [];

    /// <summary>Noise, in turn white, fallen by de-emphasis and through a loudspeaker's band.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inNoise_areAtMostOneInTenHours()
    {
        int parts = Parts(1);
        Parallel.For(0, parts, _atOnce, part => Add($"noise {part}", Made.Hear(Noise(part)), static _ => true));
        Judge("noise", parts * PartS, Math.Max(1, parts * PartS / 36_000));
    }

    /// <summary>
    /// Made speech of six pitches, in turn flat, de-emphasised, through a loudspeaker's band and clipped. Quieting and what is called
    /// unknown are no claim of a kind.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inSpeech_areNone()
    {
        int parts = Parts(0.5);
        Parallel.For(0, parts, _atOnce, part => Add($"speech {part}", Made.Hear(Speech(part)),
            static k => k.Kind is not (SignalKind.Voice or SignalKind.Carrier or SignalKind.Unknown)));
        Judge("made speech", parts * PartS, parts * PartS / 36_000);
    }

    /// <summary>
    /// The other kinds, one recording after another (MadeKinds), as long for each: what is claimed beside what was made. Quieting and
    /// what is called unknown are no claim of a kind.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void FalseAlarms_inOtherKinds_areAtMostOneInTenHours()
    {
        double each = Parts(0.2) * PartS / MadeKinds.All.Length;
        double heardS = 0;
        Parallel.ForEach(MadeKinds.All, _atOnce, kind =>
        {
            double ofKindS = 0;
            for (int number = 10_000 + _seed; ofKindS < each; number++)
            {
                Heard heard = Made.Hear(MadeKinds.Make(kind, number));
                ofKindS += heard.DurationS;
                Add($"{kind} {number}", heard, k => k.Kind != kind && k.Kind is not (SignalKind.Unknown or SignalKind.Carrier));
            }

            lock (_alarms)
            {
                heardS += ofKindS;
            }
        });
        Judge("other kinds", heardS, Math.Max(1, heardS / 36_000));
    }

    /// <summary>
    /// Exact upper bounds of a Poisson mean by a count, 95 % sure from one side (half of the chi-square quantile of 2 k + 2 degrees of
    /// freedom: 5.991, 9.488, 12.592, 15.507, 18.307 of its tables, from memory).
    /// </summary>
    [Theory]
    [InlineData(0, 2.996)]
    [InlineData(1, 4.744)]
    [InlineData(2, 6.296)]
    [InlineData(3, 7.754)]
    [InlineData(4, 9.154)]
    public void MostLikely_ofACount_isThatOfTheTables(int count, double most) => Assert.Equal(most, MostLikely(count), 0.001);

    private static double MostLikely(int count)
    {
        double low = count;
        double high = count + 10 + 5 * Math.Sqrt(count);
        for (int step = 0; step < 60; step++)
        {
            double mean = (low + high) / 2;
            double term = Math.Exp(-mean);
            double sum = term;
            for (int k = 1; k <= count; k++)
            {
                term *= mean / k;
                sum += term;
            }

            (low, high) = sum > 0.05 ? (mean, high) : (low, mean);
        }

        return (low + high) / 2;
    }

    private static int Parts(double usualHours) => (int)Math.Ceiling(3_600 / PartS * (double.TryParse(
        Environment.GetEnvironmentVariable("SPURLESS_HOURS"), NumberStyles.Float, CultureInfo.InvariantCulture, out double hours)
        ? hours : usualHours));

    private static byte[] Noise(int part)
    {
        double[] noise = new Sound(Rate, PartS).Noise(0.1, 77_000 + _seed + part).Samples;
        return RecordingFiles.Wav(Rate, 16, (part % 3) switch
        {
            1 => Channels.DeEmphasis(noise, Rate),
            2 => Channels.Speaker(noise, Rate),
            _ => noise,
        });
    }

    private static byte[] Speech(int part)
    {
        double[] speech = SpeechSignal.Make(PartS, Rate, 88_000 + _seed + part, 90 + 25 * (part % 6));
        speech = ((part + part / 12) % 4) switch
        {
            1 => Channels.DeEmphasis(speech, Rate),
            2 => Channels.Speaker(speech, Rate),
            3 => Channels.Clip(speech, 0.6),
            _ => speech,
        };
        return RecordingFiles.Wav(Rate, 16, new Sound(Rate, PartS).Add(0, speech).Noise(0.003, 99_000 + _seed + part).Samples);
    }

    private void Add(string name, Heard heard, Func<Finding, bool> isWrong)
    {
        string[] wrong = [.. heard.Transmissions.SelectMany(static t => t.Kinds).Where(isWrong).Select(k => string.Create(
            CultureInfo.InvariantCulture,
            $"{name}: {k.Kind} {k.StartS:0.00}-{k.EndS:0.00} s {k.Code} {k.SymbolRateBd} {k.Confidence:0.00}"))];
        lock (_alarms)
        {
            _alarms.AddRange(wrong);
            if (wrong.Length > 0 && Environment.GetEnvironmentVariable("SPURLESS_ALARMS") is { } path)
            {
                File.AppendAllLines(path, wrong);
            }
        }
    }

    private void Judge(string what, double heardS, double most)
    {
        _alarms.Sort(StringComparer.Ordinal);
        double rate = MostLikely(_alarms.Count) / heardS * 36_000;
        string said = string.Create(CultureInfo.InvariantCulture,
            $"{heardS / 3_600:0.00} h of {what}, seed {_seed}: {_alarms.Count} claimed; at most {rate:0.00} in ten hours (95 % sure)");
        output.WriteLine(said + "\n" + string.Join('\n', _alarms));
        Assert.True(_alarms.Count <= most, said + "\n" + string.Join('\n', _alarms));
    }
}
