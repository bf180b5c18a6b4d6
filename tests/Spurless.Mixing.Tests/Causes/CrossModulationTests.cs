using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

public sealed class CrossModulationTests
{
    private static readonly VictimReceiver Receiver = new()
    {
        Name = "input",
        FrequencyHz = 20_000,
        ChannelHz = 100,
        IfBandwidthHz = 100,
        NoiseFloorDbm = -127,
        ChainGainDb = 0,
    };

    /// <summary>Time-domain simulation: a line B and a band of noise W through x + a3 x^3, power read in a window beside B.</summary>
    [Theory]
    [InlineData(150)]
    [InlineData(400)]
    [InlineData(700)]
    public void OfPair_level_follows_the_simulated_cubic_stage(int offset)
    {
        const int Samples = 1 << 16;
        const int Near = 20_000;
        const int BandFrom = 9_000;
        const int Band = 1_000;
        const double Cubic = 0.01;
        const double NearAmplitude = 0.5;
        const double LineAmplitude = 0.02;
        double measured = 0;
        const int Runs = 12;
        Random random = new(1);
        for (int run = 0; run < Runs; run++)
        {
            // Random phases of many lines: the envelope is Gaussian noise of known mean power.
            double[] x = FromLines(
                Samples, [(Near, NearAmplitude), .. Enumerable.Range(BandFrom, Band).Select(static b => (b, LineAmplitude))], random);
            double[] lines = Simulated.Lines([.. x.Select(static v => v + (Cubic * v * v * v))]);
            for (int bin = Near + offset - 50; bin < Near + offset + 50; bin++)
            {
                measured += lines[bin] * lines[bin] / Runs;
            }
        }

        // Levels in dB of peak amplitude squared throughout; A_IIP3^2 = 4/3 a1/a3.
        StageCarrier near = new() { Name = "own", FrequencyHz = Near, BandwidthHz = 0, LevelDbm = Simulated.Db(NearAmplitude) };
        StageCarrier moving = new()
        {
            Name = "wide",
            FrequencyHz = BandFrom + (Band / 2),
            BandwidthHz = Band,
            LevelDbm = 10 * Math.Log10(Band * LineAmplitude * LineAmplitude),
            EnvelopeMoves = true,
        };

        CauseFinding finding = CrossModulation.OfPair(
            Receiver with { FrequencyHz = Near + offset }, near, moving, 10 * Math.Log10(4.0 / 3 / Cubic), 3, false)!;

        // 1,200 bins of noise in all: the mean of their powers scatters by 10 lg(1 + 1/sqrt(1200)) = 0.12 dB, three sigma of it.
        Assert.Equal(10 * Math.Log10(measured), finding.LevelDbm!.Value, 0.4);
    }

    [Fact]
    public void OfPair_constant_envelope_or_out_of_reach_makes_none()
    {
        StageCarrier near = new() { Name = "own", FrequencyHz = 145_650_000, BandwidthHz = 11_200, LevelDbm = -20 };
        StageCarrier wide = new()
        {
            Name = "wide",
            FrequencyHz = 391_700_000,
            BandwidthHz = 1_000_000,
            LevelDbm = -30,
            EnvelopeMoves = true,
        };
        VictimReceiver receiver = Receiver with { FrequencyHz = 145_050_000, ChannelHz = 12_500, IfBandwidthHz = 8_000 };

        CauseFinding finding = CrossModulation.OfPair(receiver, near, wide, -2, 3, true)!;

        // By hand: -20 - 60 + 4 + 6.02; share 8 kHz/1 MHz x (1 - 0.6) = 0.0032: -24.95 dB.
        Assert.Equal(-94.93, finding.LevelDbm!.Value, 2);
        Assert.Contains(new Assumption(AssumptionKind.InterceptOfCrossModulation), finding.Assumed);
        Assert.Null(CrossModulation.OfPair(receiver, near, wide with { EnvelopeMoves = false }, -2, 3, false));
        Assert.Null(CrossModulation.OfPair(receiver, near, wide with { BandwidthHz = 500_000 }, -2, 3, false));
        Assert.Null(CrossModulation.OfPair(receiver, near with { FrequencyHz = 145_050_000 }, wide, -2, 3, false));
        Assert.Null(CrossModulation.OfPair(receiver, near with { LevelDbm = null }, wide, -2, 3, false)!.LevelDbm);
    }

    [Theory]
    [InlineData(0, 2, 1, 1)]
    [InlineData(0, 1, 1, 0.75)] // triangle: 1 - (1/2)^2
    [InlineData(0.5, 1, 1, 0.5)]
    [InlineData(2, 1, 1, 0)]
    public void TriangleShare_is_the_area(double offset, double band, double width, double expected) =>
        Assert.Equal(expected, CrossModulation.TriangleShare(offset, band, width), 12);

    private static double[] FromLines(int samples, IEnumerable<(int Bin, double Amplitude)> lines, Random random)
    {
        System.Numerics.Complex[] spectrum = new System.Numerics.Complex[samples];
        foreach ((int bin, double amplitude) in lines)
        {
            spectrum[bin] = System.Numerics.Complex.FromPolarCoordinates(amplitude, 2 * Math.PI * random.NextDouble());
        }

        MathNet.Numerics.IntegralTransforms.Fourier.Inverse(spectrum, MathNet.Numerics.IntegralTransforms.FourierOptions.NoScaling);
        return [.. spectrum.Select(static s => s.Real)];
    }
}
