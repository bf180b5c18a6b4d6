using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Dsp;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>Stretches of time and of audio against a plain raster of moments.</summary>
public sealed class StretchTests
{
    private const int Moments = 400;

    /// <summary>Joined spans hold the moments of all, and the gaps up to a length; they stand in order, further apart than that.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(20)]
    public void Join_holdsWhatAnyHolds(int gap)
    {
        for (int seed = 1; seed <= 200; seed++)
        {
            Span[] spans = Random(seed, 8);
            bool[] raster = Raster(spans);
            for (int n = 0; n < Moments; n++)
            {
                // A gap between two held moments is filled where it is short enough.
                int left = Array.LastIndexOf(raster, true, Math.Max(0, n));
                int right = Array.IndexOf(raster, true, n);
                if (!raster[n] && left >= 0 && right >= 0 && right - left - 1 <= gap)
                {
                    raster.AsSpan(left, right - left).Fill(true);
                }
            }

            List<Span> joined = Span.Join(spans, gap);
            Assert.Equal(raster, Raster(joined));
            Assert.All(joined.Zip(joined.Skip(1)), p => Assert.True(p.Second.FromS - p.First.ToS > gap, $"seed {seed}"));
        }
    }

    [Fact]
    public void Overlap_isTheCommonTime()
    {
        for (int seed = 1; seed <= 500; seed++)
        {
            Span[] two = Random(seed, 2);
            int common = Raster([two[0]]).Zip(Raster([two[1]])).Count(static p => p is (true, true));
            Assert.Equal(common, two[0].Overlap(two[1]));
            Assert.Equal(two[0].Overlap(two[1]), two[1].Overlap(two[0]));
        }
    }

    /// <summary>Samples in a hole or within a margin of one, whatever the rate and where the samples begin.</summary>
    [Fact]
    public void InHole_marksTheSamplesOfHoles()
    {
        for (int seed = 1; seed <= 60; seed++)
        {
            Random random = new(seed);
            List<Span> holes = Span.Join(Random(seed, 4).Select(static s => new Span(s.FromS / 100, s.ToS / 100)), 0.05);
            Stretch stretch = Stretch.Make(new float[32_000], 8_000, 10, holes: holes);
            (double from, double rate, double margin) = (random.NextDouble(), 100 + 900 * random.NextDouble(), 0.02 * random.NextDouble());
            bool[]? mask = stretch.InHole(from, rate, 500, margin);
            for (int n = 0; n < 500; n++)
            {
                double t = from + n / rate;
                bool deep = holes.Exists(h => t > h.FromS - margin + 1.01 / rate && t < h.ToS + margin - 1.01 / rate);
                bool far = !holes.Exists(h => t > h.FromS - margin - 1.01 / rate && t < h.ToS + margin + 1.01 / rate);
                Assert.False(deep && mask?[n] != true, $"seed {seed}, sample {n}");
                Assert.False(far && mask?[n] == true, $"seed {seed}, sample {n}");
            }

            Assert.Equal(holes.Exists(static h => h.FromS < 2 && h.ToS > 1), stretch.TouchesHole(1, 2, 0));
        }
    }

    [Fact]
    public void InHole_withoutHoles_isNull() => Assert.Null(Stretch.Make(new float[8_000], 8_000, 0).InHole(0, 1_000, 1_000, 0.1));

    /// <summary>Each part of the audio at its rate: a sine of 180 Hz stands in the lowest, one of 1 kHz not there, one of 8 kHz only in
    /// the widest; in the speech band neither 100 Hz nor 5 kHz.</summary>
    [Theory]
    [InlineData(100, true, true, false)]
    [InlineData(180, true, true, false)]
    [InlineData(1_000, false, true, true)]
    [InlineData(3_000, false, true, true)]
    [InlineData(8_000, false, false, false)]
    public void Make_takesEachBandApart(double hz, bool low, bool narrow, bool speech)
    {
        Stretch stretch = Stretch.Make(Plain.Sine(hz, 48_000, 96_000), 48_000, 0);
        Assert.Equal((96_000, 24_000, 2_000), (stretch.Wide.Length, stretch.Narrow.Length, stretch.Low.Length));
        Assert.Equal(0.5, Plain.Power(stretch.Wide), 0.002);
        Is(low, stretch.Low);
        Is(narrow, stretch.Narrow);
        Is(speech, stretch.Speech);
        Is(hz < 2_500, stretch.At(6_000));
        Is(true, stretch.At(24_000));
        Assert.Same(stretch.At(6_000), stretch.At(6_000));
        static void Is(bool there, float[] x)
        {
            double power = Plain.Power(x[(x.Length / 8)..^(x.Length / 8)]);
            Assert.True(there ? power is > 0.48 and < 0.52 : power < 0.005, $"{power}");
        }
    }

    /// <summary>Neighbouring stretches own each moment once.</summary>
    [Fact]
    public void Owns_eachMomentOnce()
    {
        Stretch[] all =
        [
            Stretch.Make(new float[240_000], 8_000, 0, double.NegativeInfinity, 20),
            Stretch.Make(new float[240_000], 8_000, 17, 20, 40),
            Stretch.Make(new float[240_000], 8_000, 37, 40),
        ];
        for (double t = 0.05; t < 60; t += 0.1)
        {
            Assert.Equal(1, all.Count(s => s.Owns(t - s.StartS)));
        }
    }

    [Fact]
    public void ActiveWithin_growsAndJoins()
    {
        Stretch stretch = Stretch.Make(new float[80_000], 8_000, 0);
        stretch.Active = [new Span(0.1, 0.5), new Span(2, 3), new Span(3.5, 4), new Span(9.9, 10)];
        Assert.Equal([new Span(0, 0.8), new Span(1.7, 4.3), new Span(9.6, 10)],
            stretch.ActiveWithin(0.3).Select(static s => new Span(Math.Round(s.FromS, 6), Math.Round(s.ToS, 6))));
    }

    private static Span[] Random(int seed, int count)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ =>
        {
            int from = random.Next(Moments - 40);
            return new Span(from, from + 1 + random.Next(39));
        })];
    }

    private static bool[] Raster(IEnumerable<Span> spans)
    {
        bool[] raster = new bool[Moments];
        foreach (Span span in spans)
        {
            raster.AsSpan((int)span.FromS, (int)span.LengthS).Fill(true);
        }

        return raster;
    }
}
