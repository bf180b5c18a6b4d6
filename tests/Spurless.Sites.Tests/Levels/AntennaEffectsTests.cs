using Spurless.Files.Diagnostics;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Levels;

/// <summary>What antennas do to a predicted level; a measured one has it in it already.</summary>
public sealed class AntennaEffectsTests
{
    [Theory]
    [InlineData("158 MHz", false)] // 9 % off
    [InlineData("160 MHz", true)] // 10.3 % off
    [InlineData("94.2 MHz", true)]
    public void Predicted_level_out_of_the_antennas_band_is_marked_and_less_sure(string frequency, bool marked)
    {
        CarrierFinding carrier = Carrier("", frequency);
        Assert.Equal(LevelOrigin.Predicted, carrier.Origin);
        Assert.Equal(marked, carrier.Assumed.Any(static a => a is LevelNote.GainOutOfBand { OwnHz: 145_050_000, SigmaDb: 10 }));

        // 10 dB more, in squares, than what the path model alone is good to.
        double own = Carrier("", "150 MHz").SigmaDb!.Value;
        Assert.Equal(marked ? Math.Sqrt((own * own) + 100) : own, carrier.SigmaDb!.Value, 9);
        // An uncertainty that was stated holds as it stands; a measured level is not touched.
        Assert.Equal(6, Carrier("", frequency, ", uncertainty: 6 dB").SigmaDb!.Value, 9);
        Assert.Equal(2, Carrier("", frequency, ", level: -40 dBm").SigmaDb!.Value, 9);
    }

    [Fact]
    public void Response_that_was_stated_counts_and_is_not_marked()
    {
        CarrierFinding without = Carrier("", "94.2 MHz");
        CarrierFinding with = Carrier(", response: [0 dB at 145.05 MHz, -20 dB at 94.2 MHz]", "94.2 MHz");
        Assert.Equal(without.LevelAtAntennaDbm!.Value - 20, with.LevelAtAntennaDbm!.Value, 9);
        Assert.DoesNotContain(with.Assumed, static a => a is LevelNote.GainOutOfBand);
        // Linear in dB over the logarithm of the frequency: half way between 94.2 and 145.05 MHz is their geometric mean.
        CarrierFinding between = Carrier(", response: [0 dB at 145.05 MHz, -20 dB at 94.2 MHz]", "116.892 MHz");
        Assert.Equal(Carrier("", "116.892 MHz").LevelAtAntennaDbm!.Value - 10, between.LevelAtAntennaDbm!.Value, 0.001);
    }

    [Fact]
    public void Crossed_polarisations_lose_20_dB()
    {
        double alike = Carrier(", polarisation: vertical", "150 MHz", antenna: ", polarisation: vertical").LevelAtAntennaDbm!.Value;
        CarrierFinding crossed = Carrier(", polarisation: vertical", "150 MHz", antenna: ", polarisation: horizontal");
        Assert.Equal(alike - 20, crossed.LevelAtAntennaDbm!.Value, 9);
        Assert.Contains(new LevelNote.CrossedPolarisations(20), crossed.Assumed);
        // Where one is not stated nothing is taken off.
        Assert.Equal(alike, Carrier(", polarisation: vertical", "150 MHz").LevelAtAntennaDbm!.Value, 9);
    }

    [Fact]
    public void Tilt_counts_by_the_angle_to_the_other_antenna()
    {
        // Both 20 m high: the other end is on the horizon. A lobe of 16 degrees tilted by 8 stands 3 dB under its maximum there.
        double flat = Carrier(", tilt: 0, vertical_beamwidth: 16", "150 MHz").LevelAtAntennaDbm!.Value;
        Assert.Equal(Carrier("", "150 MHz").LevelAtAntennaDbm!.Value, flat, 9);
        Assert.Equal(flat - 3, Carrier(", tilt: 8, vertical_beamwidth: 16", "150 MHz").LevelAtAntennaDbm!.Value, 9);
        // Without a width that of the gain: 8.15 dBi has 16.47 degrees (ITU-R F.1336): 12 (8/16.47)^2.
        Assert.Equal(flat - (12 * Math.Pow(8 / 16.47, 2)), Carrier(", tilt: 8", "150 MHz").LevelAtAntennaDbm!.Value, 0.01);
    }

    private static CarrierFinding Carrier(string receiving, string frequency, string more = "", string antenna = "")
    {
        string far = $"antenna: {{ gain: 6 dBd, height: 20 m{antenna} }}";
        string text = $$"""
            spurless: 1
            site: invented
            receivers:
              - name: input
                frequency: 145.05 MHz
                channel: 12.5 kHz
                noise_figure: 6 dB
                iip3: 0 dBm
                antenna: { gain: 6 dBd, height: 20 m{{receiving}} }
            emitters:
              - { name: a, frequency: {{frequency}}, emission: 11K2F3E, power: 25 W, path: free space, distance: 5 km, {{far}}{{more}} }
            """;
        LoadedSite? site = SiteLoader.Load(text, "invented.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions()).Receivers.Single().Carriers.Single();
    }
}
