using Spurless.Signals.Spectra;

namespace Spurless.Signals.Tests.Spectra;

public sealed class LineFinderTests
{
    // The noise power put in is the truth; its law is the gamma law of K averages of exponential powers.
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(30)]
    public void Floor_is_the_mean_of_the_noise_whatever_the_detector_averages(int averages)
    {
        Sweep sweep = new SpectrumMaker(3_000, 144e6, 1_000, -110, averages, 1).Line(145e6, 11_000, -60).Line(146e6, 200_000, -50).Make();

        NoiseFloor floor = LineFinder.For(sweep, new LineOptions()).Floor;

        Assert.Equal(-110, floor.MeanDbm, 0.7);
        Assert.InRange(floor.Law.Averages, 0.6 * averages, 1.7 * averages);
    }

    [Theory]
    [InlineData(1, 400)]
    [InlineData(10, 1)]
    [InlineData(100, 1)]
    public void Noise_alone_has_no_lines(int averages, int rows)
    {
        int found = 0;
        for (int seed = 0; seed < 10; seed++)
        {
            found += LineFinder.For(new SpectrumMaker(1_000, 144e6, 1_000, -110, averages, seed).Make(rows), new LineOptions()).Lines()
                .Count;
        }

        // The threshold lets noise through in one sweep of a hundred.
        Assert.True(found <= 2, $"{found} lines of noise");
    }

    [Fact]
    public void Lines_have_centre_width_and_level_of_what_was_put_in()
    {
        Sweep sweep = new SpectrumMaker(4_000, 144e6, 1_000, -112, 30, 3)
            .Line(144.6125e6, 11_000, -60).Line(145.0125e6, 16_000, -85).Line(146.2e6, 0, -70, steady: true).Line(147e6, 180_000, -40)
                .Make();

        SpectrumLine[] lines = [.. LineFinder.For(sweep, new LineOptions()).Lines()];

        Assert.Equal(4, lines.Length);
        (double Hz, double Width, double Dbm)[] truth =
            [(147e6, 180_000, -40), (144.6125e6, 11_000, -60), (146.2e6, 0, -70), (145.0125e6, 16_000, -85)];
        for (int i = 0; i < truth.Length; i++)
        {
            Assert.Equal(truth[i].Hz, lines[i].FrequencyHz, Math.Max(600, 0.01 * truth[i].Width));
            Assert.Equal(truth[i].Width, lines[i].BandwidthHz, 1_000 + (0.06 * truth[i].Width));
            Assert.Equal(truth[i].Dbm, lines[i].LevelDbm, 0.7);
            Assert.Equal(1, lines[i].OnShare);
            Assert.InRange(lines[i].SigmaDb, 1.5, 2.2);
        }
    }

    [Fact]
    public void Level_counts_the_noise_bandwidth_of_the_bins()
    {
        // Bins of 1 kHz read by a filter of 3 kHz hold three times the power of their own share.
        Sweep sweep = new SpectrumMaker(2_000, 144e6, 1_000, -112, 50, 3).Line(145e6, 30_000, -60).Make();

        SpectrumLine line = LineFinder.For(sweep, new LineOptions { ResolutionHz = 3_000 }).Lines()[0];

        Assert.Equal(-60 - (10 * Math.Log10(3)), line.LevelDbm, 0.4);
    }

    [Fact]
    public void Burst_has_its_level_while_on_and_its_share_of_the_rows()
    {
        Sweep sweep = new SpectrumMaker(1_000, 466e6, 2_000, -105, 2, 5).Line(466.5e6, 14_000, -70, onShare: 0.15)
            .Line(467e6, 0, -80, steady: true).Make(200);

        SpectrumLine[] lines = [.. LineFinder.For(sweep, new LineOptions()).Lines()];

        Assert.Equal(2, lines.Length);
        Assert.Equal(0.15, lines[0].OnShare, 0.03);
        Assert.Equal(-70, lines[0].LevelDbm, 0.7);
        Assert.Equal(1, lines[1].OnShare, 0.03);
    }

    [Fact]
    public void Single_weak_burst_in_many_rows_is_caught()
    {
        Sweep sweep = new SpectrumMaker(1_000, 466e6, 2_000, -105, 4, 6).Line(466.5e6, 0, -84, onShare: 0.01, steady: true).Make(300);

        SpectrumLine line = Assert.Single(LineFinder.For(sweep, new LineOptions()).Lines());

        Assert.Equal(0.01, line.OnShare, 0.005);
        Assert.Equal(-84, line.LevelDbm, 1.0);
    }

    [Fact]
    public void Neighbouring_channels_are_two_lines_and_two_lobes_of_shift_keying_are_one()
    {
        Sweep sweep = new SpectrumMaker(2_000, 160e6, 500, -115, 40, 7)
            .Line(160.2e6, 8_000, -60).Line(160.2125e6, 8_000, -55)
            .Line(160.5e6 - 4_500, 3_000, -70).Line(160.5e6 + 4_500, 3_000, -70.5).Make();

        SpectrumLine[] lines = [.. LineFinder.For(sweep, new LineOptions()).Lines().OrderBy(static l => l.FrequencyHz)];

        Assert.Equal(3, lines.Length);
        Assert.Equal([160_200_000L, 160_212_500L, 160_500_000L], lines.Select(static l => l.Raster!.Value.ChannelHz));
    }

    [Theory]
    [InlineData(145.0125e6, 300, 0, 12_500L)]
    [InlineData(145.025e6, 300, 0, 25_000L)]
    [InlineData(145.0137e6, 300, 0, 0L)]
    [InlineData(145.0125e6, 3_000, 0, 0L)]
    [InlineData(94.2e6, 2_000, 180_000, 100_000L)]
    public void Raster_is_the_coarsest_that_fits_within_what_is_known(double hertz, double sigma, double width, long raster) =>
        Assert.Equal(raster, RasterFit.Of(hertz, sigma, width)?.RasterHz ?? 0);

    [Fact]
    public void Line_that_falls_by_three_times_the_pad_is_made_in_the_instrument()
    {
        // Two carriers, and their third-order product that falls by 3 dB for each: 10 dB pad, 30 dB. One product sinks into the noise.
        SpectrumMaker open = new SpectrumMaker(2_000, 144e6, 1_000, -120, 20, 8)
            .Line(144.5e6, 0, -30, steady: true).Line(144.7e6, 0, -30, steady: true).Line(144.9e6, 0, -75, steady: true)
                .Line(145.5e6, 0, -95, steady: true).Line(145.8e6, 0, -108, steady: true);
        SpectrumMaker behind = new SpectrumMaker(2_000, 144e6, 1_000, -120, 20, 9)
            .Line(144.5e6, 0, -40, steady: true).Line(144.7e6, 0, -40, steady: true).Line(144.9e6, 0, -105, steady: true)
                .Line(145.5e6, 0, -125, steady: true).Line(145.8e6, 0, -118, steady: true);
        LineFinder first = LineFinder.For(open.Make(), new LineOptions());

        PaddedSweep told = PaddedSweep.Compare(first.Lines(), LineFinder.For(behind.Make(), new LineOptions()), 10);

        Assert.Equal([144_900_000.0, 145_500_000.0], told.MadeInside.Select(static m => Math.Round(m.Line.FrequencyHz / 1000) * 1000)
            .Order());
        Assert.Equal(30, told.MadeInside[0].FellDb, 1.0);
        Assert.False(told.MadeInside[0].IsBound);

        // -95 dBm over a noise in which -114 dBm would show: 19 dB at least, more than 15.
        Assert.True(told.MadeInside[1].IsBound);
        Assert.InRange(told.MadeInside[1].FellDb, 15, 21);

        // -108 dBm hides 6 dB further down: nothing can be said.
        Assert.Contains(told.Untold, static l => Math.Abs(l.FrequencyHz - 145.8e6) < 1_000);
    }
}
