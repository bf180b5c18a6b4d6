using Spurless.Signals.Recognition.Keying;
using Spurless.Signals.Recognition.Paging;
using Spurless.Signals.Recognition.Squelch;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>Symbol rates, symbols and codewords against what the tests' modulator sent.</summary>
public sealed class KeyingTests
{
    private const double Rate = 48_000;

    /// <summary>The rate of random symbols, to 0.1 %, wherever it lies.</summary>
    [Fact]
    public void SymbolRates_ofRandomSymbols_holdTheirRate()
    {
        for (int seed = 1; seed <= 25; seed++)
        {
            Random random = new(seed);
            double baud = 200 * Math.Pow(20, random.NextDouble());
            float[] x = Wave(Bits((int)(3 * baud), seed), baud, 0.02, seed);
            List<double> rates = SymbolRates.Find(x, Rate, 6_500, null);
            Assert.True(rates.Exists(r => Math.Abs(r / baud - 1) < 0.001), $"{baud}: {string.Join(' ', rates)}");
        }
    }

    [Fact]
    public void SymbolRates_ofNoise_areNone()
    {
        int claimed = Enumerable.Range(1, 30).Count(
            static seed => SymbolRates.Find(Dsp.Plain.Noise(144_000, seed), Rate, 6_500, null).Count > 0);
        Assert.True(claimed <= 3, $"{claimed} of 30");
    }

    /// <summary>Each symbol once, at its middle, the levels at 1 and -1; a gain, an offset and a late begin change nothing.</summary>
    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(0.02, 0, 13)]
    [InlineData(3, 1.5, 101)]
    public void SymbolClock_takesEachSymbol(double gain, double offset, int late)
    {
        const double Baud = 1_200;
        int[] bits = Bits(2_400, 3);
        float[] x = [.. new float[late], .. Wave(bits, Baud, 0.02, 4).Select(v => (float)(gain * v))];
        for (int n = 0; n < x.Length; n++)
        {
            x[n] += (float)offset;
        }

        List<double> samples = SymbolClock.Sampled(x, Rate / Baud, null);
        int shift = Enumerable.Range(-1, 6).MaxBy(s => Enumerable.Range(100, 500).Count(k => samples[k + s] > 0 == (bits[k] == 1)));
        for (int k = 80; k < 2_300; k++)
        {
            Assert.Equal(bits[k] == 1 ? 1 : -1, samples[k + shift], 0.15);
        }
    }

    /// <summary>A clock 200 parts in a million off slips no symbol in five seconds.</summary>
    [Theory]
    [InlineData(200e-6)]
    [InlineData(-200e-6)]
    public void SymbolClock_followsADrift(double drift)
    {
        const double Baud = 4_800;
        int[] bits = Bits(24_000, 5);
        double[] wave = BitSignals.Keyed(BitSignals.Levels(bits, true), Baud, Rate, 0.3, drift);
        List<double> samples = SymbolClock.Sampled([.. wave.Select(static v => (float)v)], Rate / Baud, null);
        int shift = Enumerable.Range(-1, 4).MaxBy(s => Enumerable.Range(300, 500).Count(k => samples[k + s] > 0 == (bits[k] == 1)));
        Assert.All(Enumerable.Range(300, 23_300), k => Assert.Equal(bits[k] == 1, samples[k + shift] > 0));
    }

    /// <summary>What a hole took is no symbol; those round it are.</summary>
    [Fact]
    public void SymbolClock_inAHole_givesNoNumber()
    {
        const double Baud = 1_200;
        int[] bits = Bits(2_400, 6);
        float[] x = Wave(bits, Baud, 0.02, 7);
        bool[] hole = new bool[x.Length];
        hole.AsSpan(40_000, 4_000).Fill(true);
        x.AsSpan(40_000, 4_000).Clear();
        List<double> samples = SymbolClock.Sampled(x, Rate / Baud, hole);
        Assert.InRange(samples.Count(double.IsNaN), 99, 101);
        int shift = Enumerable.Range(-1, 4).MaxBy(s => Enumerable.Range(100, 500).Count(k => samples[k + s] > 0 == (bits[k] == 1)));
        Assert.All(Enumerable.Range(1_110, 1_000), k => Assert.Equal(bits[k] == 1, samples[k + shift] > 0));
    }

    /// <summary>Frame sync of a base station's voice of ETSI TS 102 361-1 (0x755FD7DF75F7, from memory), upright and turned over, twice
    /// among random symbols; once is none.</summary>
    [Theory]
    [InlineData(0x755FD7DF75F7, 4_800, "ETSI TS 102 361")]
    [InlineData(0x5575F5FF77FF, 4_800, "TIA-102")]
    [InlineData(0x57FF5F75D577, 2_400, "ETSI TS 102 658")]
    public void LandMobileSync_twice_namesTheStandard(long word, double baud, string standard)
    {
        int[] sync = [.. Enumerable.Range(0, 24).Select(k => (word >> (46 - 2 * k) & 3) == 1 ? 3 : -3)];
        int[] symbols = Symbols(600, 8);
        Assert.Null(LandMobileSync.Name(symbols, baud));
        sync.CopyTo(symbols, 100);
        Assert.Null(LandMobileSync.Name(symbols, baud));
        sync.CopyTo(symbols, 244);
        Assert.Equal(standard, LandMobileSync.Name(symbols, baud));
        Assert.Equal(standard, LandMobileSync.Name([.. symbols.Select(static s => -s)], 1.005 * baud));
        Assert.Null(LandMobileSync.Name(symbols, 1.5 * baud));

        // One wrong symbol in each is let pass, four are not.
        symbols[105] = -symbols[105];
        Assert.Equal(standard, LandMobileSync.Name(symbols, baud));
        foreach (int k in (int[])[107, 109, 111, 113])
        {
            symbols[k] = -symbols[k];
        }

        Assert.Null(LandMobileSync.Name(symbols, baud));
    }

    [Fact]
    public void LandMobileSync_randomSymbols_nameNone()
    {
        for (int seed = 1; seed <= 100; seed++)
        {
            Assert.Null(LandMobileSync.Name(Symbols(5_000, seed), 4_800));
        }
    }

    /// <summary>BCH(31,21) with parity: sums of codewords are codewords, and the code is cyclic in its 31 bits (Peterson and Weldon, from
    /// memory). All 2^10 syndromes tell 0, 1, 2 or more wrong bits apart: 1 + 31 + 465 of them.</summary>
    [Fact]
    public void PagingCode_isLinearAndCyclic()
    {
        Random random = new(9);
        for (int run = 0; run < 2_000; run++)
        {
            uint a = PagingSignal.Codeword((uint)random.Next(1 << 21));
            uint b = PagingSignal.Codeword((uint)random.Next(1 << 21));
            Assert.True(PagingCode.IsGood(a));
            Assert.True(PagingCode.IsGood(a ^ b));
            uint turned = (a >> 1) << 1 & 0x7FFFFFFF | a >> 31;
            Assert.Equal(0u, PagingCode.Syndrome(turned << 1));
        }

        int[] counts = new int[4];
        for (uint low = 0; low < 1_024; low++)
        {
            counts[PagingCode.Errors(low << 1)]++;
        }

        Assert.Equal([1, 31, 465, 1_024 - 497], counts);
    }

    /// <summary>Every one of 2^21 words: a random word of 32 bits is good by 2^-11, and any two differ in six bits or more: of weight
    /// under six there is none but zero (the same count, 992 of weight six, was made apart).</summary>
    [Fact]
    public void PagingCode_hasDistanceSix()
    {
        int six = 0;
        for (uint data = 1; data < 1 << 21; data++)
        {
            // The remainder by table of the tests' own: linear, so by single bits.
            int weight = System.Numerics.BitOperations.PopCount(Word(data));
            Assert.False(weight < 6);
            six += weight == 6 ? 1 : 0;
        }

        Assert.Equal(992, six);
    }

    /// <summary>Golay words: any two of the 104 codes' streams, at any turn, differ in seven bits or more (computed apart).</summary>
    [Fact]
    public void SquelchCode_streamsDifferInSevenBits()
    {
        List<int> words = [.. Enumerable.Range(0, 512).Select(static c => Convert.ToString(c, 8).PadLeft(3, '0'))
            .Where(static c => SquelchCode.Of(DigitalSquelchSignal.Word(c)) == c).Select(DigitalSquelchSignal.Word)];
        Assert.Equal(104, words.Count);
        for (int i = 0; i < words.Count; i++)
        {
            for (int j = i + 1; j < words.Count; j++)
            {
                for (int turn = 0; turn < 23; turn++)
                {
                    int turned = (words[j] >> turn | words[j] << (23 - turn)) & 0x7FFFFF;
                    Assert.True(System.Numerics.BitOperations.PopCount((uint)(words[i] ^ turned)) >= 7);
                }
            }
        }
    }

    /// <summary>One, two or three wrong bits make no other code of one.</summary>
    [Fact]
    public void SquelchCode_ofAWrongWord_isNone()
    {
        int word = DigitalSquelchSignal.Word("114");
        for (int a = 0; a < 23; a++)
        {
            for (int b = a; b < 23; b++)
            {
                for (int c = b; c < 23; c++)
                {
                    int wrong = word ^ 1 << a ^ (b > a ? 1 << b : 0) ^ (c > b ? 1 << c : 0);
                    Assert.Null(SquelchCode.Of(wrong));
                }
            }
        }
    }

    private static readonly uint[] _single = [.. Enumerable.Range(0, 21).Select(static b => PagingSignal.Codeword(1u << b))];

    private static uint Word(uint data)
    {
        uint word = 0;
        for (; data != 0; data &= data - 1)
        {
            word ^= _single[System.Numerics.BitOperations.TrailingZeroCount(data)];
        }

        return word;
    }

    private static int[] Bits(int count, int seed) => BitSignals.RandomBits(count, seed);

    private static int[] Symbols(int count, int seed)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ => new[] { -3, -1, 1, 3 }[random.Next(4)])];
    }

    private static float[] Wave(int[] bits, double baud, double noise, int seed)
    {
        Gauss gauss = new(seed);
        return [.. BitSignals.Keyed(BitSignals.Levels(bits, true), baud, Rate, 0.3).Select(v => (float)(v + noise * gauss.Next()))];
    }
}
