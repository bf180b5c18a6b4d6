using Spurless.Signals.Dsp;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>Transmissions of findings, and the picture of a recording, against plain rules.</summary>
public sealed class GroupingTests
{
    /// <summary>Pauses under 1.5 s do not end a transmission; what has no kind is none; order and cuts do not matter.</summary>
    [Fact]
    public void OfAudio_joinsOverShortPauses()
    {
        for (int seed = 1; seed <= 100; seed++)
        {
            Random random = new(seed);
            List<Span> spans = [];
            double t = 1;
            for (int k = 0; k < 8; k++)
            {
                double length = 0.5 + 2 * random.NextDouble();
                spans.Add(new Span(t, t + length));
                t += length + 3 * random.NextDouble();
            }

            int expected = 1 + spans.Zip(spans.Skip(1)).Count(static p => p.Second.FromS - p.First.ToS > 1.5);
            List<Finding> tones = [.. spans.Select(static s => Of(SignalKind.Tone, s.FromS, s.ToS))];
            List<Transmission> found = Grouping.OfAudio(tones, spans.OrderBy(_ => random.Next()), t);
            Assert.Equal(expected, found.Count);
            Assert.Equal(spans[0].FromS, found[0].StartS, 1e-9);
            Assert.Equal(spans[^1].ToS, found[^1].EndS, 1e-9);
            Assert.All(found.Zip(found.Skip(1)), static p => Assert.True(p.Second.StartS - p.First.EndS > 1.5));
            Assert.Empty(Grouping.OfAudio([], spans, t));

            // Cut into pieces, as neighbouring stretches see them, it is the same.
            List<Span> cut = [.. spans.SelectMany(static s => new[]
                { s with { ToS = (s.FromS + s.ToS) / 2 + 0.1 }, s with { FromS = (s.FromS + s.ToS) / 2 - 0.1 } })];
            Assert.Equal(found.Select(static f => (f.StartS, f.EndS)),
                Grouping.OfAudio(tones, cut, t).Select(static f => (f.StartS, f.EndS)));
        }
    }

    /// <summary>Each kind once; counts add up, the span is that of all, the confidence the highest.</summary>
    [Fact]
    public void Kinds_ofOneKind_addUp()
    {
        Finding a = Of(SignalKind.Pocsag, 1, 3) with { UnitsChecked = 32, UnitsGood = 30, Confidence = 0.99 };
        Finding b = Of(SignalKind.Pocsag, 4, 5) with { UnitsChecked = 16, UnitsGood = 16, Confidence = 0.999 };
        Finding both = Assert.Single(Grouping.Kinds([b, a]));
        Assert.Equal((1, 5, 48, 46, 0.999), (both.StartS, both.EndS, both.UnitsChecked, both.UnitsGood, both.Confidence));
    }

    /// <summary>Two squelch codes at once: the one that is there longer; one after the other both.</summary>
    [Fact]
    public void Kinds_ofSquelch_keepTheLonger()
    {
        Finding first = Of(SignalKind.Ctcss, 0, 4) with { Code = "88.5" };
        Assert.Equal(["88.5"], Grouping.Kinds([first, Of(SignalKind.Ctcss, 1, 3) with { Code = "91.5" }]).Select(static f => f.Code));
        Assert.Equal(["88.5", "91.5"],
            Grouping.Kinds([first, Of(SignalKind.Ctcss, 4.1, 6) with { Code = "91.5" }]).Select(static f => f.Code).Order());
    }

    /// <summary>What a particular kind explains is no tone, keying or unknown as well; a voice explains no tone.</summary>
    [Theory]
    [InlineData(SignalKind.Morse, SignalKind.Tone, 1)]
    [InlineData(SignalKind.Pocsag, SignalKind.TwoLevelFsk, 1)]
    [InlineData(SignalKind.Afsk1200, SignalKind.Unknown, 1)]
    [InlineData(SignalKind.Voice, SignalKind.Tone, 2)]
    [InlineData(SignalKind.Voice, SignalKind.Unknown, 1)]
    [InlineData(SignalKind.Carrier, SignalKind.Unknown, 2)]
    public void Kinds_generalOnes_giveWay(SignalKind particular, SignalKind general, int left)
    {
        IReadOnlyList<Finding> kinds = Grouping.Kinds([Of(general, 0.2, 3.8), Of(particular, 0, 4)]);
        Assert.Equal(left, kinds.Count);
        Assert.Contains(kinds, k => k.Kind == particular);

        // Apart in time each stands.
        Assert.Equal(2, Grouping.Kinds([Of(general, 5, 8), Of(particular, 0, 4)]).Count);
    }

    /// <summary>The picture: the mean power of what was added in each step of time and frequency, to half a dB.</summary>
    [Fact]
    public void Spectrogram_isTheMeanPower()
    {
        const int Columns = 20;
        const int Rows = 16;
        SpectrogramBuilder builder = new(Columns, Rows, 10, [(0, 10)]);
        Random random = new(3);
        double[,] sums = new double[Columns, Rows];
        int[] counts = new int[Columns];
        for (double t = 0.01; t < 10; t += 0.07)
        {
            float[] power = [.. Enumerable.Range(0, 64).Select(_ => (float)Math.Pow(10, -8 * random.NextDouble()))];
            builder.Add(t, power);
            counts[(int)(2 * t)]++;
            for (int b = 0; b < 64; b++)
            {
                sums[(int)(2 * t), b / 4] += power[b];
            }
        }

        Spectrogram picture = builder.Build();
        for (int c = 0; c < Columns; c++)
        {
            for (int r = 0; r < Rows; r++)
            {
                Assert.Equal(10 * Math.Log10(sums[c, r] / counts[c]), picture.Db(c, r), 0.51);
            }
        }

        double[] mean = picture.Mean(0.25, 0.5);
        for (int r = 0; r < Rows; r++)
        {
            Assert.Equal(10 * Math.Log10(Enumerable.Range(5, 5).Average(c => Math.Pow(10, picture.Db(c, r) / 10))), mean[r], 1e-9);
        }
    }

    /// <summary>A gap in a recording stays empty in its picture; a step without a spectrum of its own repeats the one before.</summary>
    [Fact]
    public void Spectrogram_aGap_staysEmpty()
    {
        SpectrogramBuilder builder = new(10, 4, 10, [(0, 3.2), (6, 10)]);
        foreach (double t in (double[])[0.5, 1.5, 6.5, 8.5, 9.5])
        {
            builder.Add(t, [1, 1, 1, 1]);
        }

        Spectrogram picture = builder.Build();
        Assert.Equal([true, true, true, true, false, false, true, true, true, true],
            Enumerable.Range(0, 10).Select(c => picture.Db(c, 2) > -1));
    }

    /// <summary>A sine in audio stands in its row of the picture, at its level.</summary>
    [Theory]
    [InlineData(450)]
    [InlineData(3_000)]
    [InlineData(4_500)]
    public void Spectrogram_ofAudio_hasTheSineInItsRow(double hz)
    {
        SpectrogramBuilder builder = new(8, 48, 4, [(0, 4)]);
        builder.AddAudio(Dsp.Plain.Sine(hz, 12_000, 48_000, 0.5), 0, 0, 4, new PowerSpectrum(512, 512), new float[256]);
        Spectrogram picture = builder.Build();
        for (int c = 0; c < 7; c++)
        {
            int top = Enumerable.Range(0, 48).MaxBy(r => picture.Db(c, r));
            Assert.InRange(hz, 100 * top - 30, 100 * top + 130);
        }
    }

    /// <summary>Begin and end of a tone in noise, to ten milliseconds, from a guess up to 150 ms off.</summary>
    [Fact]
    public void Edges_areRefined()
    {
        for (int seed = 1; seed <= 30; seed++)
        {
            Random random = new(seed);
            (double from, double to) = (1 + random.NextDouble(), 3 + random.NextDouble());
            Sound sound = new Sound(48_000, 5).Add(from, ToneSignals.Tone(900, to - from, 48_000), 0.3).Noise(0.02, seed);
            Span found = Edges.Refine(Stretch.Make(sound.ToFloats(), 48_000, 0),
                new Span(from + 0.28 * (random.NextDouble() - 0.5), to + 0.28 * (random.NextDouble() - 0.5)));
            Assert.Equal(from, found.FromS, 0.011);
            Assert.Equal(to, found.ToS, 0.011);
        }
    }

    /// <summary>Noise of any colour and level is plain; a tone, keying and impulses over it are not, and where they are is told.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.003)]
    public void ActivityMap_tellsNoiseFromAllElse(double gain)
    {
        double[][] signals =
        [
            ToneSignals.Tone(1_200, 2, 16_000),
            PagingSignal.Wave(PagingSignal.Bits([(1_234_567, 3, "INVENTED")], 2), 1_200, 16_000),
            ToneSignals.Arcing(50, 2, 16_000, 3),
            SpeechSignal.Make(2, 16_000, 4),
        ];
        foreach (Func<double[], double[]> colour in (Func<double[], double[]>[])[
            static x => x, static x => Channels.DeEmphasis(x, 16_000), static x => Channels.Speaker(x, 16_000)])
        {
            double[] noise = colour(new Sound(16_000, 20).Noise(gain, 5).Samples);
            ActivityMap plain = ActivityMap.Of(Stretch.Make([.. noise.Select(static v => (float)v)], 16_000, 0));
            Assert.True(plain.Plain.Count(static p => p) > 0.98 * plain.Count);
        }

        foreach (double[] signal in signals)
        {
            double rms = Sound.Rms(signal);
            Sound sound = new Sound(16_000, 6).Add(2, signal, gain / rms).Noise(gain / 20, 6);
            List<Span> something = ActivityMap.Of(Stretch.Make(sound.ToFloats(), 16_000, 0)).Something();
            Span at = new(2, 2 + signal.Length / 16_000.0);
            Assert.True(something.Sum(s => s.Overlap(at)) > 0.6 * at.LengthS);
            Assert.True(something.Sum(s => s.LengthS - s.Overlap(at)) < 0.3);
        }
    }

    private static Finding Of(SignalKind kind, double from, double to) =>
        new() { Kind = kind, StartS = from, EndS = to, Confidence = 0.9 };
}
