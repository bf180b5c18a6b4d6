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
    /// Two paths of nearly one strength whose phase turns two to five times a second: 20 dB down in every notch. Carrier to noise in
    /// 15 kHz, of one path alone: 24 dB. What a fade took is said not to be known: a letter of Morse is right or '*'.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void EveryKind_overAPathThatFades_isFound()
    {
        SignalKind[] kinds = [.. MadeKinds.All.Where(static k => k != SignalKind.Carrier)];
        int[] found = new int[kinds.Length];
        (int read, int letters) = (0, 0);
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
            Heard heard = Made.Hear(faded, CentreHz);
            Interlocked.Add(ref found[row], Kinds(heard).Contains(kinds[row]) ? 1 : 0);
            if (kinds[row] == SignalKind.Morse)
            {
                string text = heard.Transmissions.SelectMany(static t => t.Kinds).First(static k => k.Kind == SignalKind.Morse).Code!;
                string sent = MadeKinds.MorseText(number);
                Assert.Equal(sent.Length, text.Length);
                Assert.All(text.Zip(sent), static p => Assert.True(p.First == p.Second || p.First == '*'));
                Interlocked.Add(ref read, text.Count(static c => c is not ('*' or ' ')));
                Interlocked.Add(ref letters, sent.Count(static c => c != ' '));
            }
        });
        Tell("fades", kinds, found, Recordings);
        output.WriteLine($"Morse: {read} of {letters} letters read, the rest said not to be known");
        Assert.True(read >= 0.8 * letters, $"{read} of {letters} letters");
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

        Tell($"{rate / 1e6} MS/s", kinds, found, Bands);
    }

    private static HashSet<SignalKind> Kinds(Heard heard) =>
        [.. heard.Transmissions.SelectMany(static t => t.Kinds).Select(static f => f.Kind)];

    private void Tell(string what, SignalKind[] kinds, int[] found, int of)
    {
        StringBuilder table = new();
        for (int k = 0; k < kinds.Length; k++)
        {
            table.Append(CultureInfo.InvariantCulture, $"{(k == 0 ? what + ": " : ", ")}{MatrixTests.Word(kinds[k])} {found[k]}/{of}");
        }

        output.WriteLine(table.ToString());
        for (int k = 0; k < kinds.Length; k++)
        {
            Assert.True(found[k] == of, $"{kinds[k]}: {table}");
        }
    }
}
