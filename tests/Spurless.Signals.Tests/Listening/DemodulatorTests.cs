using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>What a carrier is modulated with, against what the tests' modulator made.</summary>
public sealed class DemodulatorTests
{
    private const double Rate = 24_000;
    private const int Step = 48;

    /// <summary>
    /// Peak deviation and centre of a carrier modulated by a tone: 98.5 % of the time a sine is under 0.99972 of its peak.
    /// </summary>
    [Theory]
    [InlineData(0, 3_000, 1_003.7)]
    [InlineData(700, 2_500, 401.3)]
    [InlineData(-1_200, 1_500, 1_707.1)]
    public void Run_frequencyModulation_hasItsDeviationAndCentre(double offset, double deviation, double tone)
    {
        Demodulated found = Run(new Band(Rate, 3).Fm(0, offset, deviation, ToneSignals.Tone(tone, 3, Rate, 0), Rate, 0.2), 1e-10);
        Assert.Equal(Modulation.Fm, found.Modulation);
        Assert.Equal(offset, found.CentreHz, 25.0);
        Assert.Equal(deviation, found.Deviation(On(found), Step), 0.03 * deviation);
        Assert.Equal(0.2, found.MeanSize, 0.002);
    }

    /// <summary>The demodulated tone is the one that was sent: the product with it holds nearly all of its power.</summary>
    [Fact]
    public void Run_frequencyModulation_givesTheTone()
    {
        Demodulated found = Run(new Band(Rate, 2).Fm(0, 300, 2_000, ToneSignals.Tone(1_000, 2, Rate, 0), Rate, 0.2), 1e-10);
        (double re, double im, double power) = (0, 0, 0);
        for (int n = 2_400; n < 45_600; n++)
        {
            double v = found.Hz[n] - found.CentreHz;
            re += v * Math.Cos(2 * Math.PI * 1_000 * n / Rate);
            im += v * Math.Sin(2 * Math.PI * 1_000 * n / Rate);
            power += v * v;
        }

        Assert.Equal(1, 2 * (re * re + im * im) / 43_200 / power, 0.01);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.9)]
    public void Run_amplitudeModulation_isToldByItsCarrier(double depth)
    {
        Demodulated found = Run(new Band(Rate, 3).Am(0, 200, depth, ToneSignals.Tone(900, 3, Rate, 0), Rate, 0.2), 1e-10);
        Assert.Equal((Modulation.Am, false), (found.Modulation, found.Fades));
        Assert.Equal(0.2, found.MeanSize, 0.005);
        Assert.Equal(200, found.CentreHz, 5.0);
    }

    /// <summary>Voice on one side band: what is left of speech when its negative frequencies are taken away.</summary>
    [Fact]
    public void Run_singleSideBand_isTold()
    {
        double[] voice = Channels.Band(SpeechSignal.Make(4, Rate, 5), Rate, 300, 2_700);
        Band band = new(Rate, 4);
        double[] turned = Hilbert(voice);
        for (int n = 0; n < voice.Length; n++)
        {
            (band.I[n], band.Q[n]) = (0.3 * voice[n], 0.3 * turned[n]);
        }

        Demodulated found = Run(band, 1e-10);
        Assert.Equal(Modulation.Ssb, found.Modulation);
    }

    [Fact]
    public void Run_aKeyedCarrier_isTold()
    {
        Band band = new(Rate, 8);
        foreach ((double at, double length) in ToneSignals.MorseKeying("DE TE5T", 18))
        {
            band.Fm(0.3 + at, 100, 1, new double[(int)(length * Rate)], Rate, 0.2);
        }

        Assert.Equal(Modulation.Keyed, Run(band, 1e-9).Modulation);
    }

    /// <summary>Two paths that beat: frequency modulation that fades, not one in amplitude.</summary>
    [Theory]
    [InlineData(2, 0.6)]
    [InlineData(4, 0.9)]
    public void Run_aPathThatFades_isFrequencyModulation(double beatHz, double depth)
    {
        double[] voice = Channels.Band(SpeechSignal.Make(5, Rate, 6), Rate, 300, 3_000);
        Band band = new Band(Rate, 5).Fm(0, 0, 2_500, [.. voice.Select(static v => Math.Clamp(1.5 * v, -1, 1))], Rate, 0.2);
        (double[] i, double[] q) = Channels.Fade(band.I, band.Q, Rate, 1 / Rate, beatHz, depth);
        Band faded = new(Rate, 5);
        i.CopyTo(faded.I, 0);
        q.CopyTo(faded.Q, 0);
        Demodulated found = Run(faded, 1e-10);
        Assert.Equal((Modulation.Fm, true), (found.Modulation, found.Fades));
    }

    /// <summary>What is on is told from noise by the envelope, to a step, whatever the level.</summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.002)]
    public void OnMask_isWhereTheCarrierIs(double amplitude)
    {
        double noise = amplitude * amplitude / 1_000 / Rate;
        Band band = new Band(Rate, 3).Fm(1, 0, 1_000, ToneSignals.Tone(500, 1, Rate), Rate, amplitude).Noise(noise, 3);
        double[] envelope = Demodulator.Envelope(Pairs(band), Step);
        Assert.Equal(1_500, envelope.Length);
        bool[] on = Demodulator.OnMask(envelope, Demodulator.Threshold(envelope, noise * Rate));
        Assert.InRange(Array.IndexOf(on, true), 499, 501);
        Assert.InRange(Array.LastIndexOf(on, true), 998, 1_000);
        Assert.DoesNotContain(false, on[502..998]);
        Assert.Equal(amplitude * amplitude, envelope[600..900].Average(), 0.02 * amplitude * amplitude);
    }

    [Fact]
    public void OnMask_ofNothing_isEmpty()
    {
        Assert.Empty(Demodulator.OnMask([], 1));
        Assert.Equal(1.6, Demodulator.Threshold([], 1));
        Assert.DoesNotContain(true, Demodulator.OnMask(new double[20], 0.1));
    }

    /// <summary>A gap shorter than a pause is a hole, at its steps; a longer one, and what lies at an end, is none.</summary>
    [Fact]
    public void Holes_areTheShortGaps()
    {
        for (int seed = 1; seed <= 100; seed++)
        {
            Random random = new(seed);
            List<Span> made = [];
            List<bool> on = [.. Enumerable.Repeat(false, random.Next(5)), .. Enumerable.Repeat(true, 10)];
            int first = on.IndexOf(true);
            for (int k = 0; k < 12; k++)
            {
                int off = 1 + random.Next(140);
                if (off * 0.002 <= 0.15)
                {
                    made.Add(new Span(on.Count * 0.002, (on.Count + off) * 0.002));
                }

                on.AddRange(Enumerable.Repeat(false, off));
                on.AddRange(Enumerable.Repeat(true, 3 + random.Next(60)));
            }

            on.AddRange(Enumerable.Repeat(false, 30));
            List<Span> found = CarrierMeasures.Holes([.. on], 0.002);
            found.RemoveAll(h => h.FromS < first * 0.002);
            Assert.Equal(made.Count, found.Count);
            Assert.All(made.Zip(found), static p => Assert.Equal(p.First.FromS, p.Second.FromS, 1e-9));
            Assert.All(made.Zip(found), static p => Assert.Equal(p.First.ToS, p.Second.ToS, 1e-9));
        }
    }

    /// <summary>99 % of a band of noise of width w is 0.99 w wide; of a carrier some bins of its spectrum.</summary>
    [Theory]
    [InlineData(4_000)]
    [InlineData(9_000)]
    public void Width_ofANoiseBand_isItsWidth(double width)
    {
        Band band = new Band(Rate, 6).Noise(1e-5, 7);
        Band cut = new(Rate, 6);
        Channels.Band(band.I, Rate, 0, width / 2, 600).CopyTo(cut.I, 0);
        Channels.Band(band.Q, Rate, 0, width / 2, 600).CopyTo(cut.Q, 0);
        Assert.Equal(width, CarrierMeasures.Width(Pairs(cut.Noise(1e-9, 8)), Rate, 1e-9), 0.06 * width);
        Band carrier = new Band(Rate, 2).Fm(0, 3_000, 1, new double[48_000], Rate, 0.2).Noise(1e-9, 9);
        Assert.InRange(CarrierMeasures.Width(Pairs(carrier), Rate, 1e-9), 1, 250);
    }

    private static bool[] On(Demodulated of) => [.. Enumerable.Repeat(true, of.Hz.Length / Step)];

    private static Demodulated Run(Band band, double noisePerHz)
    {
        float[] pairs = Pairs(band.Noise(noisePerHz, 11));
        double[] envelope = Demodulator.Envelope(pairs, Step);
        bool[] on = Demodulator.OnMask(envelope, Demodulator.Threshold(envelope, noisePerHz * Rate));
        int first = Array.IndexOf(on, true);
        int last = Array.LastIndexOf(on, true);
        ReadOnlySpan<float> part = pairs.AsSpan(2 * first * Step, 2 * (last - first + 1) * Step);
        return Demodulator.Run(part, Rate, on.AsSpan(first, last - first + 1), Step, noisePerHz * 2_500);
    }

    private static float[] Pairs(Band band) =>
        [.. Enumerable.Range(0, band.I.Length).SelectMany(n => new[] { (float)band.I[n], (float)band.Q[n] })];

    /// <summary>A quarter turn of all frequencies: taps 2 / (pi n) at odd n, under a window.</summary>
    private static double[] Hilbert(double[] x)
    {
        const int Half = 120;
        double[] y = new double[x.Length];
        for (int n = Half; n < x.Length - Half; n++)
        {
            for (int k = -Half + 1; k < Half; k += 2)
            {
                y[n] += 2 / (Math.PI * k) * (0.54 + 0.46 * Math.Cos(Math.PI * k / Half)) * x[n - k];
            }
        }

        return y;
    }
}
