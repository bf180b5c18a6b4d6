using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Interference;
using Spurless.Signals.Recognition.Keying;
using Spurless.Signals.Recognition.Packet;
using Spurless.Signals.Recognition.Squelch;
using Spurless.Signals.Recognition.Tones;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// What is the least that a kind is claimed by, and that what speech has in its place is not enough: level that moves for impulses, a
/// harmonic for a tone, a vowel for a digit, some tens of pulses of a pitch for symbols or flags.
/// </summary>
public sealed class LeastEvidenceTests
{
    private const double Rate = 48_000;

    /// <summary>Gaussian noise has a kurtosis of 3 (the fourth moment over the square of the second) however its level moves.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.8)]
    [InlineData(2)]
    public void Peaked_noiseThatComesAndGoes_isNot(double periodS)
    {
        Gauss gauss = new(3);
        float[] x = [.. Enumerable.Range(0, 12_000 * 10).Select(n =>
            (float)(gauss.Next() * Math.Pow(10, 1.5 * Math.Sin(2 * Math.PI * n / 12_000 / periodS) - 2)))];
        double all = x.Average(static v => Math.Pow(v, 4)) / Math.Pow(x.Average(static v => (double)v * v), 2);
        Assert.True(all > 7, $"{all}");
        Assert.InRange(ImpulseRecogniser.Peaked(x).Kurtosis, 2.5, 4.5);
    }

    /// <summary>
    /// Gaussian impulses that fill a share of the time have a kurtosis of three over that share, and somewhat less by windows of 18 and 36
    /// impulses (k / (k + 2)).
    /// </summary>
    [Theory]
    [InlineData(50, 0.1)]
    [InlineData(60, 0.2)]
    public void Peaked_arcing_is(double mains, double duty)
    {
        float[] x = [.. ToneSignals.Arcing(mains, 4, 12_000, 9, duty).Select(static v => (float)v)];
        (double kurtosis, double mean) = ImpulseRecogniser.Peaked(x);
        Assert.InRange(kurtosis * 0.3 * duty / 3, 0.7, 1.05);
        Assert.Equal(0.3 * duty, mean, 0.06 * duty);
    }

    /// <summary>
    /// A tone is in step with itself, drifting or in noise as loud as it; pieces of other frequencies and phases are not.
    /// </summary>
    [Fact]
    public void InStep_isATone_butNoSyllables()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            Random random = new(seed);
            double hz = 400 + 1_500 * random.NextDouble();
            Assert.InRange(Step(hz, ToneSignals.Tone(hz, 1.5, Rate), seed), 0.95, 1);
            double[] drifts = [.. Enumerable.Range(0, (int)(1.5 * Rate)).Select(n => n / Rate)
                .Select(t => Math.Sin(2 * Math.PI * (hz * t + (t - 1.5) * t)))];
            Assert.InRange(Step(hz, drifts, seed), 0.85, 1);
            double[] syllables = [.. Enumerable.Range(0, 8)
                .SelectMany(_ => ToneSignals.Tone(hz + 12 * (random.NextDouble() - 0.5), 0.18, Rate, 0.02, 6.3 * random.NextDouble()))];
            Assert.InRange(Step(hz, syllables, seed), 0, 0.8);
        }
    }

    /// <summary>Lines that stand and drift together are a comb; harmonics of syllables of nearly one pitch are none.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Comb_isInStep(bool steady)
    {
        for (int seed = 1; seed <= 8; seed++)
        {
            Random random = new(seed);
            double spacing = 150 + 200 * random.NextDouble();
            double[] wave = steady ? ToneSignals.Comb(spacing, 7, 1.5, Rate, 0.4)
                : [.. Enumerable.Range(0, 8)
                    .SelectMany(_ => ToneSignals.Comb(spacing * (0.995 + 0.01 * random.NextDouble()), 7, 0.18, Rate))];
            Stretch stretch = Heard(new Sound(Rate, 3).Add(0.7, wave, 0.3).Noise(0.002, seed));
            List<ToneTrack> tracks = ToneTracker.Find(stretch, 275, 0.3);
            int found = CombRecogniser.Find(stretch, [.. tracks]).Count;
            Assert.Equal(steady ? 1 : 0, found);
        }
    }

    /// <summary>Morse whose marks are of one pitch is read; where each has its own, as syllables have, it is none.</summary>
    [Theory]
    [InlineData(1, true)]
    [InlineData(60, false)]
    public void Morse_isOfOnePitch(double spreadHz, bool found)
    {
        for (int seed = 1; seed <= 10; seed++)
        {
            Random random = new(seed);
            Sound sound = new(Rate, 8);
            foreach ((double at, double length) in ToneSignals.MorseKeying("DE TE5T", 16))
            {
                sound.Add(at + 0.5, ToneSignals.Tone(700 + spreadHz * (random.NextDouble() - 0.5), length, Rate, 0.004), 0.3);
            }

            Stretch stretch = Heard(sound.Noise(0.003, seed));
            Assert.Equal(found, MorseRecogniser.Find(stretch, [new Span(0.2, 7.5)]).Count > 0);
        }
    }

    /// <summary>
    /// Both tones of a digit between pauses are one; in the middle of a longer sound, or one 12 dB under the other, they are none. The
    /// standard's pauses are of 40 ms and more (ITU-T Q.24, from memory).
    /// </summary>
    [Theory]
    [InlineData("pauses", 0, 4)]
    [InlineData("pauses", -9, 4)]
    [InlineData("pauses", -12, 0)]
    [InlineData("pauses", 12, 0)]
    [InlineData("sound", 0, 0)]
    public void Dtmf_standsBetweenPauses(string between, double twistDb, int digits)
    {
        Sound sound = new(Rate, 3);
        sound.Add(1, ToneSignals.Dtmf("1591", Rate, 0.05, 0.06, twistDb), 0.3);
        if (between == "sound")
        {
            for (int k = 0; k <= 4; k++)
            {
                sound.Add(0.94 + 0.11 * k, ToneSignals.Tone(520, 0.06, Rate), 0.3);
            }
        }

        Assert.Equal(digits, DtmfRecogniser.Find(Heard(sound.Noise(0.002, 5))).Sum(static f => f.UnitsGood));
    }

    /// <summary>Noise in the middle of a digit leaves it one.</summary>
    [Fact]
    public void Dtmf_aDigitWithAClick_isOne()
    {
        Sound sound = new(Rate, 3);
        sound.Add(1, ToneSignals.Dtmf("5", Rate, 0.2, 0.1), 0.3).Noise(0.5, 6, 1.09, 1.095).Noise(0.002, 5);
        Assert.Equal(1, Assert.Single(DtmfRecogniser.Find(Heard(sound))).UnitsGood);
    }

    /// <summary>Keying of two levels is claimed by a hundred symbols, of four by five hundred.</summary>
    [Theory]
    [InlineData(2, 300, 80, false)]
    [InlineData(2, 300, 140, true)]
    [InlineData(2, 1_200, 90, false)]
    [InlineData(2, 1_200, 400, true)]
    [InlineData(4, 600, 150, false)]
    [InlineData(4, 2_400, 420, false)]
    [InlineData(4, 2_400, 1_200, true)]
    public void Keying_wantsSymbols(int levels, double rateBd, int count, bool found)
    {
        for (int seed = 1; seed <= 5; seed++)
        {
            Random random = new(seed);
            double[] symbols = [.. Enumerable.Range(0, count)
                .Select(_ => levels == 2 ? 2.0 * random.Next(2) - 1 : random.Next(4) / 1.5 - 1)];
            double[] wave = levels == 2 ? BitSignals.Keyed(symbols, rateBd, Rate, 0.3) : BitSignals.Shaped(symbols, rateBd, Rate);
            Stretch stretch = Heard(new Sound(Rate, wave.Length / Rate + 1).Add(0.5, wave, 0.3).Noise(0.002, seed));
            Finding? keying = KeyingRecogniser.Find(stretch, new Span(0.5, 0.5 + wave.Length / Rate));
            Assert.Equal(found, keying?.Kind == (levels == 2 ? SignalKind.TwoLevelFsk : SignalKind.FourLevelFsk));
        }
    }

    /// <summary>Flags without a frame are packet from ten on; a voice of 150 Hz has a few.</summary>
    [Theory]
    [InlineData(4, 0)]
    [InlineData(8, 0)]
    [InlineData(14, 1)]
    public void Packet_ofFlagsAlone_wantsTen(int flags, int found)
    {
        IEnumerable<int> all = Enumerable.Repeat((int[])[0, 1, 1, 1, 1, 1, 1, 0], flags).SelectMany(static f => f);
        int[] bits = [.. BitSignals.RandomBits(40, 1), .. all, .. BitSignals.RandomBits(40, 2)];
        double[] wave = PacketSignal.Afsk(bits, Rate);
        Assert.Equal(found, AfskRecogniser.Find(Heard(new Sound(Rate, 2).Add(0.5, wave, 0.3).Noise(0.002, 4))).Count);
    }

    /// <summary>
    /// Of a squelch code, two words of 23 bits (Golay, as DCS repeats them) with three bits wrong are none; of more words some may be.
    /// </summary>
    [Theory]
    [InlineData(3, 1, true)]
    [InlineData(2, 3, false)]
    [InlineData(4, 2, true)]
    public void Dcs_ofFewWords_isNearlyRight(int words, int wrong, bool found)
    {
        int word = DigitalSquelchSignal.Word("023");
        int[] code = [.. Enumerable.Range(0, 23 * words).Select(k => word >> (k % 23) & 1)];

        // One word stays as it is, to begin with.
        for (int w = 0; w < wrong; w++)
        {
            code[28 + 6 * w] ^= 1;
        }

        int hits = 0;
        for (int seed = 1; seed <= 10; seed++)
        {
            int[] bits = [.. BitSignals.RandomBits(150, seed), .. code, .. BitSignals.RandomBits(150, 50 + seed)];
            double[] wave = BitSignals.Keyed(BitSignals.Levels(bits, true), 134.4, Rate, 0.3);
            hits += DcsRecogniser.Find(Heard(new Sound(Rate, wave.Length / Rate).Add(0, wave, 0.2).Noise(0.002, seed))).Count > 0 ? 1 : 0;
        }

        Assert.Equal(found ? 10 : 0, hits);
    }

    private static double Step(double hz, double[] wave, int seed)
    {
        Sound sound = new Sound(Rate, wave.Length / Rate + 1).Add(0.5, wave, 0.1);
        Stretch stretch = Heard(sound.Noise(sound.NoiseFor(0.07, 0), seed));
        return ToneRecogniser.InStep(stretch, hz, new Span(0.5, 0.5 + wave.Length / Rate));
    }

    private static Stretch Heard(Sound sound)
    {
        Stretch stretch = Stretch.Make(sound.ToFloats(), sound.RateHz, 0);
        stretch.Active = [new Span(0, stretch.LengthS)];
        return stretch;
    }
}
