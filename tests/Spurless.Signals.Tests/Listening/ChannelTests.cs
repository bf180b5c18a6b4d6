using System.Globalization;
using System.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// Every kind as frequency modulation of a carrier: through a path that fades, and in bands of 1 and 2.4 million samples a second. The
/// figures that docs/method/listen.md keeps, by command:
/// <c>dotnet run --project tests/Spurless.Signals.Tests -c Release -- -class '*ChannelTests' -showLiveOutput</c>.
/// </summary>
public sealed class ChannelTests(ITestOutputHelper output)
{
    private const double Audio = 48_000;
    private const double DeviationHz = 3_000;
    private const double CentreHz = 145e6;
    private const int Recordings = 8;

    /// <summary>
    /// What the notches leave, as a share of the recordings: measured, and said in docs/method/listen.md. A kind that keeps its own clock
    /// or its steadiness over seconds is lost in them; what is not listed must be found in all.
    /// </summary>
    private static readonly Dictionary<SignalKind, double> _leastOverFades = new()
    {
        [SignalKind.Pocsag] = 0.4,
        [SignalKind.Dcs] = 0,
        [SignalKind.TwoTone] = 0.4,
        [SignalKind.Morse] = 0,
        [SignalKind.Tone] = 0.8,
        [SignalKind.TwoLevelFsk] = 0.2,
        [SignalKind.FourLevelFsk] = 0.4,
        [SignalKind.Comb] = 0.5,
        [SignalKind.Noise] = 0.8,
    };

    /// <summary>
    /// Two paths of nearly one strength whose phase turns two to five times a second: 20 dB down in every notch. Carrier to noise in
    /// 15 kHz, of one path alone: 24 dB.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void EveryKind_overAPathThatFades_isFound()
    {
        SignalKind[] kinds = [.. MadeKinds.All.Where(static k => k != SignalKind.Carrier)];
        int[] found = new int[kinds.Length];
        Parallel.For(0, kinds.Length * Recordings, new ParallelOptions { MaxDegreeOfParallelism = 2 }, job =>
        {
            (int row, int number) = (job / Recordings, 700 + job % Recordings);
            double[] modulation = MadeKinds.Modulation(kinds[row], number);
            Band band = new(Audio, modulation.Length / Audio + 1);
            band.Fm(0.5, 0, DeviationHz, modulation, Audio, 0.2);
            (double[] i, double[] q) = Channels.Fade(band.I, band.Q, Audio, 1 / Audio, 2 + number % 4, 0.9);
            Band faded = new(Audio, band.I.Length / Audio);
            i.CopyTo(faded.I, 0);
            q.CopyTo(faded.Q, 0);
            faded.Noise(0.2 * 0.2 / Math.Pow(10, 2.4) / 15_000, number);
            Interlocked.Add(ref found[row], Kinds(Made.Hear(faded, CentreHz)).Contains(kinds[row]) ? 1 : 0);
        });
        Tell("fades", kinds, found, Recordings, _leastOverFades);
    }

    /// <summary>All kinds side by side in one band, each on its own carrier.</summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(1_000_000)]
    [InlineData(2_400_000)]
    public void EveryKind_inAWideBand_isFoundAtItsPlace(double rate)
    {
        const int Bands = 2;
        SignalKind[] kinds = MadeKinds.All;
        int[] found = new int[kinds.Length];
        double step = 0.9 * rate / kinds.Length;
        for (int number = 801; number <= 800 + Bands; number++)
        {
            double[][] modulations = [.. kinds.Select(k => MadeKinds.Modulation(k, number))];
            Band band = new(rate, modulations.Max(static m => m.Length) / Audio + 1);
            for (int k = 0; k < kinds.Length; k++)
            {
                band.Fm(0.5, step * (k + 0.5) - 0.45 * rate, DeviationHz, modulations[k], Audio, 0.05);
            }

            band.Noise(0.05 * 0.05 / Math.Pow(10, 2.6) / 15_000, number);
            Heard heard = Made.Hear(band, CentreHz);
            for (int k = 0; k < kinds.Length; k++)
            {
                double hz = CentreHz + step * (k + 0.5) - 0.45 * rate;
                found[k] += heard.Transmissions.Any(t => Math.Abs(t.CentreHz!.Value - hz) < 3_000
                    && t.Kinds.Any(f => f.Kind == kinds[k])) ? 1 : 0;
            }
        }

        Tell($"{rate / 1e6} MS/s", kinds, found, Bands, []);
    }

    private static HashSet<SignalKind> Kinds(Heard heard) =>
        [.. heard.Transmissions.SelectMany(static t => t.Kinds).Select(static f => f.Kind)];

    private void Tell(string what, SignalKind[] kinds, int[] found, int of, Dictionary<SignalKind, double> least)
    {
        StringBuilder table = new();
        for (int k = 0; k < kinds.Length; k++)
        {
            table.Append(CultureInfo.InvariantCulture, $"{(k == 0 ? what + ": " : ", ")}{MatrixTests.Word(kinds[k])} {found[k]}/{of}");
        }

        output.WriteLine(table.ToString());
        for (int k = 0; k < kinds.Length; k++)
        {
            Assert.True(found[k] >= least.GetValueOrDefault(kinds[k], 1) * of, $"{kinds[k]}: {table}");
        }
    }
}
