using Spurless.Files.Diagnostics;
using Spurless.Signals.Recordings;
using Spurless.Signals.Spectra;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Spectra;

public sealed class RecordingSweepsTests
{
    private const double Rate = 250_000;
    private const double Centre = 145_100_000;

    /// <summary>Complex Gaussian noise of a mean power, and carriers with their share of the time, at its end.</summary>
    private static Recording Make(
        double seconds, double noise, string datatype, params (double OffsetHz, double Amplitude, double OnShare)[] carriers)
    {
        Random random = new(7);
        int count = (int)Math.Round(seconds * Rate);
        Band band = new(Rate, seconds);
        for (int n = 0; n < count; n++)
        {
            double radius = Math.Sqrt(-Math.Log(1 - random.NextDouble()) * noise);
            (double sin, double cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
            (band.I[n], band.Q[n]) = (radius * cos, radius * sin);
            foreach ((double offset, double amplitude, double share) in carriers)
            {
                if (n >= count * (1 - share))
                {
                    (double s, double c) = Math.SinCos(2 * Math.PI * offset * n / Rate);
                    band.I[n] += amplitude * c;
                    band.Q[n] += amplitude * s;
                }
            }
        }

        (byte[] meta, byte[] data) = RecordingFiles.SigMf(band, datatype, Centre);
        DiagnosticBag bag = new();
        Recording? recording = SigMfReader.Open(meta, "a.sigmf-meta", _ => new MemoryStream(data), "a.sigmf-data", null, bag);
        Assert.True(recording is not null, string.Join('\n', bag.InOrder()));
        return recording;
    }

    /// <summary>
    /// Expected by Parseval: a carrier of amplitude a has a mean square of a^2, noise of power p spreads evenly over the band, so that a
    /// bin of noise bandwidth B reads p B / rate. No figure comes from the program.
    /// </summary>
    [Fact]
    public void Of_a_band_has_its_carriers_levels_shares_and_noise()
    {
        Recording recording = Make(6, 1e-6, "cf32_le", (37_400, 0.1, 1), (-61_300, 0.02, 0.25));

        RecordedSweep sweep = Assert.Single(RecordingSweeps.Of(recording, "a", null));

        LineFinder finder = LineFinder.For(sweep.Sweep, new LineOptions { ResolutionHz = sweep.ResolutionHz });
        IReadOnlyList<SpectrumLine> lines = finder.Lines();
        Assert.Equal(2, lines.Count);
        Assert.Equal(Centre + 37_400, lines[0].FrequencyHz, sweep.Sweep.SpacingHz);
        Assert.Equal(-20, lines[0].LevelDbm, 0.2);
        Assert.Equal(1, lines[0].OnShare);
        Assert.Equal(Centre - 61_300, lines[1].FrequencyHz, sweep.Sweep.SpacingHz);
        Assert.Equal(20 * Math.Log10(0.02), lines[1].LevelDbm, 0.5);
        Assert.Equal(0.25, lines[1].OnShare, 0.05);
        Assert.Equal(-60 + (10 * Math.Log10(sweep.ResolutionHz / Rate)), finder.Floor.MeanDbm, 0.7);
        Assert.Equal(0, sweep.ClippedShare);
        Assert.InRange(sweep.ResolutionHz, 700, 1_500);
    }

    [Fact]
    public void Of_a_band_takes_the_width_of_bins_that_is_asked()
    {
        RecordedSweep sweep = Assert.Single(RecordingSweeps.Of(Make(1, 1e-6, "ci16_le"), "a", 300));

        Assert.InRange(sweep.ResolutionHz, 150, 300);
        Assert.Equal(RecordingSweeps.NoiseBins * sweep.Sweep.SpacingHz, sweep.ResolutionHz, 1e-6);
    }

    /// <summary>A carrier of twice full scale always has one component at it: a cosine under a half has a sine over 0.86.</summary>
    [Fact]
    public void Of_an_overloaded_band_counts_what_stands_at_full_scale()
    {
        RecordedSweep sweep = Assert.Single(RecordingSweeps.Of(Make(1, 1e-6, "ci8", (40_000, 2, 1)), "a", null));

        Assert.InRange(sweep.ClippedShare, 0.9, 1);
    }

    [Fact]
    public void Of_a_recording_of_a_few_samples_has_no_sweep_or_a_small_one()
    {
        Assert.Empty(RecordingSweeps.Of(Make(0.0001, 1e-6, "cf32_le"), "a", null));
        Assert.Single(RecordingSweeps.Of(Make(0.002, 1e-6, "cf32_le"), "a", null));
    }
}
