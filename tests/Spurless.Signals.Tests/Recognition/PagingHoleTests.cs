using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Paging;
using Spurless.Signals.Tests.Listening;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// Batches of ITU-R M.584 whose sync word was lost: the batch goes on with its timing (544 bits: a sync word and 16 codewords), so its
/// codewords are where they are expected. Made by the tests' modulator.
/// </summary>
public sealed class PagingHoleTests(ITestOutputHelper output)
{
    private const double Rate = 48_000;
    private const double StartS = 1.5;
    private const int Preamble = 576;
    private const int Batch = 544;

    private static readonly int[] _bits = PagingSignal.Bits(
        [(1_234_567, 3, "INVENTED MESSAGE ONE"), (8, 0, "12345"), (133_703, 3, "ANOTHER INVENTED MESSAGE")], 1);

    private static int Batches => (_bits.Length - Preamble) / Batch;

    /// <summary>What happens to a batch's sync word.</summary>
    public enum Loss
    {
        /// <summary>No samples: zeros.</summary>
        Zeros,

        /// <summary>Noise of the signal's own size, as in a fade.</summary>
        Noise,

        /// <summary>Noise, and three bits fewer.</summary>
        Slip,

        /// <summary>Noise, and two bits and a half more.</summary>
        Stretch,
    }

    /// <summary>Losses, rates and batches; 9: all but the second.</summary>
    public static IEnumerable<TheoryDataRow<Loss, double, int>> Losses() =>
        from loss in Enum.GetValues<Loss>()
        from rate in (double[])[512, 1_200, 2_400]
        from batch in (int[])[0, 1, 2, 9]
        where (rate == 1_200 || batch == 1) && (batch != 9 || loss is Loss.Zeros or Loss.Noise)
        select new TheoryDataRow<Loss, double, int>(loss, rate, batch);

    /// <summary>Any one batch: also the first, and all but one.</summary>
    [Theory]
    [MemberData(nameof(Losses))]
    public void Batch_whoseSyncWordIsLost_isCounted(Loss loss, double rateBd, int lost)
    {
        int[] which = lost == 9 ? [.. Enumerable.Range(0, Batches).Where(static b => b != 1)] : [lost];
        Finding found = Found(Lose(which, loss, rateBd), rateBd);
        Assert.Equal(16 * Batches, found.UnitsChecked);
        Assert.Equal(16 * Batches, found.UnitsGood);
        Assert.Equal(Batches - which.Length, found.Evidence.SyncWords);
        Assert.InRange(found.StartS, StartS - 0.06, StartS + (which.Contains(0) ? Preamble / rateBd + 0.06 : 0.06));
    }

    /// <summary>A hole over codewords and sync words alike: what it touches is not checked, all else is and is right.</summary>
    [Theory]
    [InlineData(512, 0.12)]
    [InlineData(1_200, 0.12)]
    [InlineData(2_400, 0.05)]
    public void Codewords_inAHole_areNotChecked(double rateBd, double holeS)
    {
        double[] wave = PagingSignal.Wave(_bits, rateBd, Rate);
        double middle = (Preamble + Batch + 16) / rateBd;
        (double from, double to) = (middle - holeS / 2, middle + holeS / 2);
        Array.Clear(wave, (int)(from * Rate), (int)(holeS * Rate));
        Finding found = Found(Recorded(wave, 0.006), rateBd, squelch: new Span(StartS + from, StartS + to));
        int touched = Enumerable.Range(0, 16 * Batches).Count(w =>
        {
            double at = (Preamble + 32 + w / 16 * Batch + w % 16 * 32) / rateBd;
            return at < to && at + 32 / rateBd > from;
        });
        Assert.InRange(found.UnitsChecked!.Value, 16 * Batches - touched - 2, 16 * Batches - touched);
        Assert.Equal(found.UnitsChecked, found.UnitsGood);
    }

    /// <summary>
    /// Behind the last batch nothing is added: neither of noise, nor of a carrier at rest, nor of reversals or random bits.
    /// </summary>
    [Theory]
    [InlineData("noise")]
    [InlineData("high")]
    [InlineData("low")]
    [InlineData("reversals")]
    [InlineData("random")]
    public void Behind_theLastBatch_nothingIsAdded(string what)
    {
        Random random = new(5);
        int[] tail = [.. Enumerable.Range(0, 3 * Batch).Select(k => what switch
        {
            "high" => 1,
            "low" => 0,
            "reversals" => k & 1,
            _ => random.Next(2),
        })];
        double[] wave = PagingSignal.Wave([.. _bits, .. tail], 1_200, Rate);
        if (what == "noise")
        {
            Gauss gauss = new(3);
            for (int n = (int)(_bits.Length * Rate / 1_200); n < wave.Length; n++)
            {
                wave[n] = gauss.Next();
            }
        }

        Finding found = Found(Recorded(wave, 0.003), 1_200);
        Assert.Equal(16 * Batches, found.UnitsChecked);
        Assert.Equal(16 * Batches, found.UnitsGood);
        Assert.InRange(found.EndS, StartS + _bits.Length / 1_200.0 - 0.06, StartS + _bits.Length / 1_200.0 + 0.06);
    }

    /// <summary>Random bits, with or without a sync word before them, are no transmission: 3 codewords of 16 pass by 5e-8.</summary>
    [Fact]
    public void Follow_randomBits_isEmpty()
    {
        const int PerBit = 8;
        Random random = new(11);
        for (int run = 0; run < 300; run++)
        {
            List<int> bits = [.. Enumerable.Range(0, 4 * Batch).Select(_ => random.Next(2))];
            int at = 2 * Batch + random.Next(Batch / 2);
            for (int b = 0; b < 32; b++)
            {
                bits[at + b] = (int)(PagingSignal.Sync >> (31 - b) & 1);
            }

            float[] soft = [.. bits.SelectMany(static b => Enumerable.Repeat(b == 1 ? 1f : -1f, PerBit))];
            Assert.Empty(new PagingReader(soft, null, true, PerBit).Follow((at + 32) * PerBit - PerBit / 2, 0));
        }
    }

    /// <summary>Every batch of a stream of bits, whichever of its sync words is the one that was found.</summary>
    [Fact]
    public void Follow_fromAnySyncWord_readsAllBatches()
    {
        const int PerBit = 8;
        foreach (bool positiveIsOne in (bool[])[true, false])
        {
            float[] soft = [.. _bits.SelectMany(b => Enumerable.Repeat(b == 1 == positiveIsOne ? 1f : -1f, PerBit))];
            for (int batch = 0; batch < Batches; batch++)
            {
                int at = (Preamble + batch * Batch + 32) * PerBit - PerBit / 2;
                List<PagingBatch> batches = new PagingReader(soft, null, positiveIsOne, PerBit).Follow(at, 0);
                Assert.Equal(Batches, batches.Count);
                Assert.All(batches, static b => Assert.Equal((16, 16, true), (b.Checked, b.Good, b.HasSync)));
                Assert.All(batches.Zip(batches.Skip(1)), static p => Assert.InRange(
                    p.Second.Sync - p.First.Sync, Batch * PerBit - 4, Batch * PerBit + 4));

                // What belongs to an earlier transmission is left to it.
                Assert.Equal(Batches - batch, new PagingReader(soft, null, positiveIsOne, PerBit).Follow(at, at - 100).Count);
            }
        }
    }

    /// <summary>Many recordings: whatever is lost, never more codewords are counted than were sent, and of those only right ones.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void Losses_anywhere_neverAddCodewords()
    {
        for (int seed = 1; seed <= 30; seed++)
        {
            Random random = new(seed);
            double[] wave = PagingSignal.Wave(_bits, 1_200, Rate);
            Gauss gauss = new(seed);
            for (int hole = 0; hole < 6; hole++)
            {
                int from = (int)(random.NextDouble() * wave.Length);
                for (int n = from; n < Math.Min(wave.Length, from + (int)(0.15 * random.NextDouble() * Rate)); n++)
                {
                    wave[n] = gauss.Next();
                }
            }

            Finding found = Found(Recorded(wave, 0.01), 1_200);
            Assert.True(found.UnitsChecked <= 16 * Batches, $"seed {seed}: {found.UnitsChecked} of {16 * Batches}");
            Assert.True(found.UnitsGood >= 0.5 * found.UnitsChecked, $"seed {seed}: {found.UnitsGood} of {found.UnitsChecked}");
            Assert.True(found.UnitsGood >= 8 * Batches, $"seed {seed}: {found.UnitsGood}");
        }
    }

    private static double[] Lose(int[] batches, Loss loss, double rateBd)
    {
        double[] wave = PagingSignal.Wave(_bits, rateBd, Rate);
        Gauss gauss = new(17);
        double perBit = Rate / rateBd;
        List<double> made = [.. wave];
        foreach (int batch in batches.OrderDescending())
        {
            int from = (int)((Preamble + batch * Batch + 1.5) * perBit);
            int count = (int)(29 * perBit);
            double[] lost = [.. Enumerable.Range(0, count).Select(_ => loss == Loss.Zeros ? 0 : gauss.Next())];
            int more = loss switch
            {
                Loss.Slip => (int)(-3 * perBit),
                Loss.Stretch => (int)(2.5 * perBit),
                _ => 0,
            };
            made.RemoveRange(from, count);
            made.InsertRange(from, more < 0 ? lost[..(count + more)] : [.. lost, .. new double[more].Select(_ => gauss.Next())]);
        }

        return Recorded([.. made], 0.003);
    }

    private static double[] Recorded(double[] wave, double noise) =>
        new Sound(Rate, wave.Length / Rate + 3).Add(StartS, wave, 0.3).Noise(noise, 21).Samples;

    private Finding Found(double[] audio, double rateBd, Span? squelch = null)
    {
        if (squelch is { } hole)
        {
            Array.Clear(audio, (int)(hole.FromS * Rate), (int)(hole.LengthS * Rate));
        }

        Heard heard = Made.Hear(RecordingFiles.Wav(Rate, 16, audio));
        output.WriteLine(string.Join("; ", heard.Transmissions.SelectMany(static t => t.Kinds)));
        output.WriteLine("holes " + string.Join("; ", AudioHoles.Find([.. audio.Select(static v => (float)v)], Rate)));
        Finding found = Assert.Single(heard.Transmissions.SelectMany(static t => t.Kinds), static k => k.Kind == SignalKind.Pocsag);
        Assert.Equal(rateBd, found.SymbolRateBd);
        return found;
    }
}
