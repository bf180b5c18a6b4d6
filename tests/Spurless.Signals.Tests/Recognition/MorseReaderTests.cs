using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Tones;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// Morse after ITU-R M.1677-1: dash 3, gap 1, letters 3, words 7 dots. Keying of the tests' own table and timing.
/// </summary>
public sealed class MorseReaderTests
{
    private const string Signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/?";

    /// <summary>M.1677-1: no two signs have one code, and none has more than six elements.</summary>
    [Fact]
    public void Alphabet_isThatOfTheModulator()
    {
        HashSet<char> read = [];
        foreach (char sign in Signs)
        {
            double dot = 1.2 / 20;
            string elements = string.Concat(ToneSignals.MorseKeying(sign.ToString(), 20).Select(m => m.For > 2 * dot ? '-' : '.'));
            Assert.Equal(sign, MorseAlphabet.Of(elements));
            Assert.True(read.Add(MorseAlphabet.Of(elements)!.Value));
        }

        foreach (string none in (string[])["........", "----", "..--", ".-.-", "---.", "", "......."])
        {
            Assert.Null(MorseAlphabet.Of(none));
        }
    }

    /// <summary>Any text at any usual speed, its marks and gaps off by up to a tenth of a dot.</summary>
    [Fact]
    public void Read_keying_givesTheText()
    {
        for (int seed = 1; seed <= 150; seed++)
        {
            Random random = new(seed);
            string text = Text(random);
            double wpm = 8 + 22 * random.NextDouble();
            List<(double At, double For)> marks = Shaken(ToneSignals.MorseKeying(text, wpm), random, 0.1 * 1.2 / wpm);
            Finding found = new MorseReader(marks, []).Read()!;
            Assert.Equal(text, found.Code);
            Assert.Equal(wpm, found.Evidence.WordsPerMinute!.Value, 0.04 * wpm);
            Assert.Equal(marks[0].At, found.StartS);
            Assert.Equal(marks[^1].At + marks[^1].For, found.EndS, 1e-9);
        }
    }

    /// <summary>"PARIS " is 50 dots, so at 20 words a minute a dot is 60 ms.</summary>
    [Theory]
    [InlineData(12)]
    [InlineData(20)]
    [InlineData(28)]
    public void Read_paris_isWordsAMinute(double wpm)
    {
        Finding found = new MorseReader(ToneSignals.MorseKeying("PARIS PARIS", wpm), []).Read()!;
        Assert.Equal(wpm, found.Evidence.WordsPerMinute!.Value, 1e-6);
        Assert.Equal(wpm / 1.2, found.SymbolRateBd!.Value, 1e-6);

        // Two words less the last one's letter and word gap.
        Assert.Equal((100 - 7) * 1.2 / wpm, found.EndS - found.StartS, 1e-6);
    }

    /// <summary>Later is later, slower is slower; nothing else changes.</summary>
    [Fact]
    public void Read_shiftedAndStretched_isTheSameText()
    {
        List<(double At, double For)> marks = ToneSignals.MorseKeying("DE TE5T", 18);
        Finding plain = new MorseReader(marks, []).Read()!;
        Finding moved = new MorseReader([.. marks.Select(static m => (1.4 * m.At + 100, 1.4 * m.For))], []).Read()!;
        Assert.Equal(plain.Code, moved.Code);
        Assert.Equal(plain.SymbolRateBd!.Value / 1.4, moved.SymbolRateBd!.Value, 1e-6);
        Assert.Equal(1.4 * plain.StartS + 100, moved.StartS, 1e-9);
    }

    /// <summary>A hole over one letter makes that letter '*' and leaves the others.</summary>
    [Fact]
    public void Read_aHole_hidesOneLetter()
    {
        const string Text = "TEST ABC";
        List<(double At, double For)> marks = ToneSignals.MorseKeying(Text, 15);
        int first = 0;
        for (int letter = 0; letter < Text.Length; letter++)
        {
            if (Text[letter] == ' ')
            {
                continue;
            }

            int count = ToneSignals.MorseKeying(Text[letter].ToString(), 15).Count;
            double middle = marks[first].At + marks[first].For / 2;
            string read = new MorseReader(marks, [new Span(middle - 0.032, middle + 0.032)]).Read()!.Code!;
            Assert.Equal(Text[..letter] + '*' + Text[(letter + 1)..], read);
            first += count;
        }
    }

    /// <summary>Marks and gaps of any length are no Morse: of random ones hardly any pass.</summary>
    [Fact]
    public void Read_randomMarks_areNone()
    {
        int claimed = 0;
        for (int seed = 1; seed <= 500; seed++)
        {
            Random random = new(seed);
            List<(double At, double For)> marks = [];
            double t = 0;
            for (int k = 0; k < 30; k++)
            {
                double on = 0.03 + 0.25 * random.NextDouble();
                marks.Add((t, on));
                t += on + 0.03 + 0.3 * random.NextDouble();
            }

            claimed += new MorseReader(marks, []).Read() is null ? 0 : 1;
        }

        Assert.True(claimed <= 2, $"{claimed} of 500");
    }

    /// <summary>Equal marks at equal gaps are a beat, no text.</summary>
    [Theory]
    [InlineData(0.06, 0.06)]
    [InlineData(0.18, 0.06)]
    [InlineData(0.06, 0.18)]
    public void Read_aBeat_isNone(double on, double off) =>
        Assert.Null(new MorseReader([.. Enumerable.Range(0, 40).Select(k => (k * (on + off), on))], []).Read());

    /// <summary>From a tone's size over time, with noise on it.</summary>
    [Fact]
    public void FromEnvelope_aKeyedSize_isRead()
    {
        const double StepS = 0.003;
        for (int seed = 1; seed <= 40; seed++)
        {
            Random random = new(seed);
            Gauss gauss = new(seed);
            string text = Text(random);
            List<(double At, double For)> marks = ToneSignals.MorseKeying(text, 10 + 15 * random.NextDouble());
            double lengthS = marks[^1].At + marks[^1].For + 2;
            double[] size = [.. Enumerable.Range(0, (int)(lengthS / StepS)).Select(k =>
            {
                double t = k * StepS - 1;
                return Math.Abs((marks.Exists(m => t >= m.At && t < m.At + m.For) ? 1 : 0) + 0.06 * gauss.Next());
            })];
            Finding found = MorseRecogniser.FromEnvelope(size, StepS, 50)!;
            Assert.Equal(text, found.Code);
            Assert.Equal(51, found.StartS, 0.01);
            Assert.Equal(51 + marks[^1].At + marks[^1].For, found.EndS, 0.01);
        }
    }

    private static string Text(Random random)
    {
        string Word(int least) => string.Concat(Enumerable.Range(0, least + random.Next(4)).Select(_ => Signs[random.Next(Signs.Length)]));
        return $"{Word(3)} {Word(3)}";
    }

    private static List<(double At, double For)> Shaken(List<(double At, double For)> marks, Random random, double most)
    {
        double Off() => most * (random.NextDouble() - 0.5);
        return [.. marks.Select(m => (At: m.At + Off(), m.For)).Select(m => (m.At, m.For + Off()))];
    }
}
