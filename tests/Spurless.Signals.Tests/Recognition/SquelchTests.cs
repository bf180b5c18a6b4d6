using System.Globalization;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Interference;
using Spurless.Signals.Recognition.Squelch;
using Spurless.Signals.Recognition.Tones;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>Tables of tones and codes, entry by entry, by the recognisers alone.</summary>
public sealed class SquelchTests
{
    private const double Rate = 8_000;

    /// <summary>The 47 tones of 67.0 to 254.1 Hz (seen in public copies), each 0.4 % off either way, in noise: named as itself.</summary>
    [Fact]
    public void Ctcss_everyToneOfTheTable_isNamed()
    {
        foreach (double tone in CtcssRecogniser.Tones)
        {
            foreach (double off in (double[])[0.996, 1.004])
            {
                Stretch stretch = Made(ToneSignals.Tone(tone * off, 2.5, Rate), 0.1, 0.03, (int)(10 * tone));
                Finding found = Assert.Single(CtcssRecogniser.Find(stretch));
                Assert.Equal(tone.ToString("0.0", CultureInfo.InvariantCulture), found.Code);
                Assert.Equal(tone * off, found.ToneHz!.Value, 0.0004 * tone + 0.02);
                Assert.InRange(found.StartS, 0.92, 1.08);
                Assert.InRange(found.EndS, 3.42, 3.58);
            }
        }
    }

    /// <summary>Half-way between two tones there is none: the table's steps are 1.4 to 3.6 %, the tolerance 0.55 %.</summary>
    [Fact]
    public void Ctcss_betweenTwoTones_isNone()
    {
        for (int k = 1; k < CtcssRecogniser.Tones.Length; k++)
        {
            double middle = Math.Sqrt(CtcssRecogniser.Tones[k] * CtcssRecogniser.Tones[k - 1]);
            Assert.Empty(CtcssRecogniser.Find(Made(ToneSignals.Tone(middle, 2.5, Rate), 0.1, 0.01, k)));
        }
    }

    /// <summary>A tone's level is no matter; shorter than three quarters of a second it is none.</summary>
    [Theory]
    [InlineData(0.5, 2.5, 1)]
    [InlineData(0.05, 2.5, 1)]
    [InlineData(0.002, 2.5, 1)]
    [InlineData(0.1, 0.85, 1)]
    [InlineData(0.1, 0.5, 0)]
    public void Ctcss_anyLevel_isFound(double level, double seconds, int count) =>
        Assert.Equal(count, CtcssRecogniser.Find(Made(ToneSignals.Tone(123, seconds, Rate), level, level / 20, 3)).Count);

    /// <summary>Two tones one after the other are two.</summary>
    [Fact]
    public void Ctcss_aChange_isTwoTones()
    {
        double[] both = [.. ToneSignals.Tone(88.5, 2, Rate), .. ToneSignals.Tone(141.3, 2, Rate)];
        Assert.Equal(["88.5", "141.3"], CtcssRecogniser.Find(Made(both, 0.1, 0.01, 4)).Select(static f => f.Code));
    }

    /// <summary>All 104 codes are read as themselves; turned over each as the one that the table pairs with it.</summary>
    [Fact]
    public void Dcs_everyCode_isRead()
    {
        string[] codes = [.. Enumerable.Range(0, 512).Select(static c => Convert.ToString(c, 8).PadLeft(3, '0'))
            .Where(static c => SquelchCode.Of(SquelchCode.Word(c)) == c)];
        Assert.Equal(104, codes.Length);
        foreach (string code in codes)
        {
            foreach (bool inverted in code[2] == '1' ? (bool[])[false, true] : [false])
            {
                Stretch stretch = Made(DigitalSquelchSignal.Wave(code, 1.5, Rate, inverted), 0.1, 0.03, 5);
                Finding found = Assert.Single(DcsRecogniser.Find(stretch));
                Assert.Equal(inverted ? SquelchCode.TurnedOver(code) : code, found.Code);
                Assert.Equal(inverted ? code : SquelchCode.TurnedOver(code), found.Evidence.OtherPolarity);
            }
        }
    }

    /// <summary>Numbers that the table does not hold are not read as what they are no code of.</summary>
    [Fact]
    public void Dcs_ofNoCode_isNone()
    {
        foreach (string code in (string[])["000", "001", "777", "400"])
        {
            if (SquelchCode.Of(DigitalSquelchSignal.Word(code)) is null)
            {
                Assert.Empty(DcsRecogniser.Find(Made(DigitalSquelchSignal.Wave(code, 3, Rate), 0.1, 0.01, 6)));
            }
        }
    }

    /// <summary>Random bits at the code's own rate, and single tones, are no code.</summary>
    [Fact]
    public void Dcs_randomBitsAndTones_areNone()
    {
        for (int seed = 1; seed <= 15; seed++)
        {
            double[] wave = BitSignals.Keyed(BitSignals.Levels(BitSignals.RandomBits(1_200, seed), true), 134.4, Rate, 0.4);
            Assert.Empty(DcsRecogniser.Find(Made(wave, 0.1, 0.01, seed)));
        }

        for (double hz = 20; hz < 300; hz += 4.7)
        {
            Assert.Empty(DcsRecogniser.Find(Made(ToneSignals.Tone(hz, 4, Rate), 0.1, 0.01, (int)hz)));
        }
    }

    /// <summary>All sixteen digits of ITU-T Q.23 (from memory), both tones 0.4 % off either way.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(1.004)]
    [InlineData(0.996)]
    public void Dtmf_everyDigit_isCounted(double off)
    {
        // Tones that are off: the same sound played faster or slower.
        double[] wave = ToneSignals.Dtmf("123A456B789C*0#D", Rate / off, 0.08 * off, 0.08 * off);
        Finding found = Assert.Single(Dialled(wave, 0.3, 0.01));
        Assert.Equal(16, found.UnitsChecked);
        Assert.Null(found.Code);
    }

    /// <summary>One tone alone, two of one group, and pairs 5 % off are no digit.</summary>
    [Fact]
    public void Dtmf_otherPairs_areNone()
    {
        double[][] waves =
        [
            ToneSignals.Tone(697, 1, Rate),
            Pair(697, 852),
            Pair(1_209, 1_477),
            Pair(697 * 1.05, 1_209 * 1.05),
            Pair(440, 480),
        ];
        Assert.All(waves, static w => Assert.Empty(Dialled(w, 0.3, 0.01)));
    }

    /// <summary>Gain and begin change nothing but the begin.</summary>
    [Fact]
    public void Dtmf_quietOrLater_isTheSame()
    {
        double[] wave = ToneSignals.Dtmf("159D", Rate, 0.07, 0.07);
        Finding loud = Assert.Single(Dialled(wave, 0.5, 0.002));
        Finding quiet = Assert.Single(Dialled([.. new double[(int)(0.333 * Rate)], .. wave], 0.02, 0.0001));
        Assert.Equal(loud.UnitsChecked, quiet.UnitsChecked);
        Assert.Equal(loud.StartS + 0.333, quiet.StartS, 0.012);
    }

    /// <summary>The mains to 0.02 %, upright or with its even harmonics alone.</summary>
    [Fact]
    public void Hum_givesTheMains()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            Random random = new(seed);
            double mains = (seed % 2 == 0 ? 50 : 60) * (1 + 0.006 * (random.NextDouble() - 0.5));
            Finding found = Assert.Single(HumRecogniser.Find(Made(ToneSignals.Hum(mains, 4 + random.Next(4), 4, Rate), 0.1, 0.005, seed)));
            Assert.Equal(mains, found.ToneHz!.Value, 0.03);
        }
    }

    /// <summary>Lines at other spacings, and a voice, are no hum.</summary>
    [Theory]
    [InlineData(47)]
    [InlineData(53)]
    [InlineData(57)]
    [InlineData(70)]
    public void Hum_ofOtherSpacings_isNone(double spacing) =>
        Assert.Empty(HumRecogniser.Find(Made(ToneSignals.Hum(spacing, 6, 4, Rate), 0.1, 0.005, 8)));

    /// <summary>A tone's frequency and size over noise, and where it is, against what was made.</summary>
    [Fact]
    public void ToneMeasure_isTheToneThatWasMade()
    {
        for (int seed = 1; seed <= 40; seed++)
        {
            Random random = new(seed);
            double hz = 300 + 2_500 * random.NextDouble();
            double size = 0.05 + 0.4 * random.NextDouble();
            Sound sound = new Sound(12_000, 4).Add(1, ToneSignals.Tone(hz, 2, 12_000), size).Noise(0.01, seed);
            ToneMeasure measure = new(sound.ToFloats(), 12_000, hz + 3 * (random.NextDouble() - 0.5), new Span(0, 4), 0.02);
            Span edges = measure.Edges();
            Assert.Equal(1, edges.FromS, 0.004);
            Assert.Equal(3, edges.ToS, 0.004);
            Span inner = new(1.05, 2.95);
            (double found, double coherence) = measure.Frequency(inner);
            Assert.Equal(hz, found, 0.02);
            Assert.True(coherence > 0.98);
            Assert.Equal(size, measure.MeanSize(inner), 0.02 * size + 0.001);
            Assert.True(measure.Scatter(inner) < 0.1);
        }
    }

    private static double[] Pair(double a, double b) =>
        [.. ToneSignals.Tone(a, 1, Rate).Zip(ToneSignals.Tone(b, 1, Rate), static (u, v) => (u + v) / 2)];

    private static List<Finding> Dialled(double[] wave, double gain, double noise)
    {
        Stretch stretch = Made(wave, gain, noise, 7);
        stretch.Active = [new Span(0, stretch.LengthS)];
        return DtmfRecogniser.Find(stretch);
    }

    private static Stretch Made(double[] wave, double gain, double noise, int seed) => Stretch.Make(
        new Sound(Rate, wave.Length / Rate + 2).Add(1, wave, gain).Noise(noise, seed).ToFloats(), Rate, 0);
}
