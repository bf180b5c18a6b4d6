using System.Globalization;
using System.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// How weak a signal is still found. By command, with what docs/method/listen.md keeps:
/// <c>dotnet run --project tests/Spurless.Signals.Tests -c Release -- -class '*DetectionTests'</c>.
/// </summary>
public sealed class DetectionTests(ITestOutputHelper output)
{
    private const int Recordings = 12;
    private static readonly double[] _snrDb = [0, 4, 8, 12, 16, 20];

    /// <summary>
    /// Where a plain receiver of the tests (15 kHz filter, discriminator, mean over each bit, bits' clock known) reads one codeword in
    /// a hundred wrong or more, ITU-R M.584 paging is found in 99 of 100 transmissions of a batch or two.
    /// Carrier to noise in 15 kHz: 97 % of codewords at 3, 5 and 6 dB, computed apart; here somewhat less where this receiver is better.
    /// </summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(512, 0)]
    [InlineData(1_200, 4)]
    [InlineData(2_400, 6)]
    public void Paging_whereAPlainReceiverErrs_isFound(double rateBd, double carrierToNoiseDb)
    {
        const double Rate = 48_000;
        const double Amplitude = 0.3;
        int words = 0, wrong = 0, found = 0;
        object gate = new();
        Parallel.For(0, 100, new ParallelOptions { MaxDegreeOfParallelism = 2 }, number =>
        {
            int[] bits = PagingSignal.Bits([(1_000_003 + number, 3, "INVENTED"), (700_016, 3, "NO ONE")]);
            Band band = new(Rate, bits.Length / rateBd + 0.8);
            band.Fm(0.4, 0, 4_500, PagingSignal.Wave(bits, rateBd, Rate), Rate, Amplitude)
                .Noise(Amplitude * Amplitude / Math.Pow(10, carrierToNoiseDb / 10) / 15_000, 5_000 + number);
            Band filtered = new(Rate, band.I.Length / Rate);
            Channels.Band(band.I, Rate, 0, 7_500, 1_000).CopyTo(filtered.I, 0);
            Channels.Band(band.Q, Rate, 0, 7_500, 1_000).CopyTo(filtered.Q, 0);
            double[] audio = filtered.Discriminator(4_500);
            (int all, int bad) = PlainReceiver(audio, bits, rateBd, Rate, 0.4);
            Heard heard = Made.Hear(RecordingFiles.Wav(Rate, 16, [.. audio.Select(static v => 0.15 * v)]));
            Finding? paging = heard.Transmissions.SelectMany(static t => t.Kinds).FirstOrDefault(static k => k.Kind == SignalKind.Pocsag);
            lock (gate)
            {
                words += all;
                wrong += bad;
                found += paging?.SymbolRateBd == rateBd ? 1 : 0;
            }
        });
        output.WriteLine($"{rateBd} bit/s at {carrierToNoiseDb} dB: {wrong} of {words} codewords wrong, found in {found} of 100");
        Assert.True(wrong >= 0.01 * words, $"{wrong} of {words}: the signal is too strong to say anything");
        Assert.True(found >= 99, $"{found} of 100");
    }

    /// <summary>Every kind against the signal-to-noise ratio: at 20 dB it is found.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void EveryKind_againstNoise_isFoundWhereItIsStrong()
    {
        SignalKind[] kinds = [.. MadeKinds.All.Where(static k => k != SignalKind.Carrier)];
        int[,] found = new int[kinds.Length, _snrDb.Length];
        int[,] other = new int[kinds.Length, _snrDb.Length];
        Parallel.For(0, found.Length * Recordings, new ParallelOptions { MaxDegreeOfParallelism = 2 }, job =>
        {
            int cell = job / Recordings;
            (int row, int column) = (cell / _snrDb.Length, cell % _snrDb.Length);
            Heard heard = Made.Hear(MadeKinds.Make(kinds[row], 500 + job % Recordings, _snrDb[column]));
            HashSet<SignalKind> heardKinds = [.. heard.Transmissions.SelectMany(static t => t.Kinds).Select(static k => k.Kind)];
            bool strange = heardKinds.Any(k => k != kinds[row] && k is not (SignalKind.Unknown or SignalKind.Carrier));
            lock (found)
            {
                found[row, column] += heardKinds.Contains(kinds[row]) ? 1 : 0;
                other[row, column] += !heardKinds.Contains(kinds[row]) && strange ? 1 : 0;
            }
        });
        StringBuilder table = new("| kind |");
        foreach (double db in _snrDb)
        {
            table.Append(CultureInfo.InvariantCulture, $" {db} dB |");
        }

        table.Append("\n|---|").Insert(table.Length, "---|", _snrDb.Length).Append('\n');
        for (int row = 0; row < kinds.Length; row++)
        {
            table.Append(CultureInfo.InvariantCulture, $"| {MatrixTests.Word(kinds[row])} |");
            for (int column = 0; column < _snrDb.Length; column++)
            {
                table.Append(CultureInfo.InvariantCulture, $" {found[row, column]}");
                table.Append(other[row, column] == 0 ? " |" : string.Create(CultureInfo.InvariantCulture, $" ({other[row, column]}) |"));
            }

            table.Append('\n');
        }

        output.WriteLine(table.ToString());
        if (Environment.GetEnvironmentVariable("SPURLESS_DETECTION") is { } path)
        {
            File.WriteAllText(path, table.ToString());
        }

        for (int row = 0; row < kinds.Length; row++)
        {
            Assert.True(found[row, _snrDb.Length - 1] == Recordings, $"{kinds[row]}\n{table}");
        }
    }

    private static (int All, int Wrong) PlainReceiver(double[] audio, int[] bits, double rateBd, double rate, double startS)
    {
        int all = 0, wrong = 0;
        for (int word = 576; word + 32 <= bits.Length; word += 32)
        {
            bool good = true;
            for (int k = word; k < word + 32; k++)
            {
                int from = (int)Math.Round((startS + k / rateBd) * rate);
                int to = (int)Math.Round((startS + (k + 1) / rateBd) * rate);
                double mean = 0;
                for (int n = from; n < to; n++)
                {
                    mean += audio[n];
                }

                good &= mean > 0 == (bits[k] == 0);
            }

            all++;
            wrong += good ? 0 : 1;
        }

        return (all, wrong);
    }
}
