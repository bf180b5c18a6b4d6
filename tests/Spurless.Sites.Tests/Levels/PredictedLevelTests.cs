using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Levels;

/// <summary>
/// The level at which an emitter arrives, from its entry in the site file to the study's table: path formulas written out here once more
/// (docs/method/paths.md with their sources), and laws that hold whatever the path.
/// </summary>
public sealed class PredictedLevelTests
{
    private const double C = 299_792_458;

    /// <summary>Free space by Friis' transmission formula: P G1 G2 (lambda / 4 pi d)^2, in watts, no decibel before the end.</summary>
    [Theory]
    [InlineData(145.5, 10, 0, 0, 650)]
    [InlineData(466.075, 100, 6, 2.15, 12_000)]
    [InlineData(51.5, 0.5, -3, 8, 300)]
    [InlineData(1_296.2, 25, 17, 4.5, 80_000)]
    public void Free_space_is_Friis_in_watts(double megahertz, double watts, double gain1, double gain2, double metres)
    {
        string emitter = Inv($"frequency: {megahertz} MHz, power: {watts} W, feedline: 0 dB, distance: {metres} m, path: free space, ")
            + Inv($"antenna: {{ gain: {gain1} dBi }}");
        CarrierFinding carrier = Carrier(emitter, Inv($"antenna: {{ gain: {gain2} dBi, response: [0 dB at 145 MHz] }}"));
        double lambda = C / (megahertz * 1e6);
        double received = watts * Math.Pow(10, gain1 / 10) * Math.Pow(10, gain2 / 10) * Math.Pow(lambda / (4 * Math.PI * metres), 2);
        Assert.Equal(30 + (10 * Math.Log10(received)), carrier.LevelAtAntennaDbm!.Value, 1e-6);
        Assert.Equal(LevelOrigin.Predicted, carrier.Origin);
    }

    /// <summary>One power said three ways: at the transmitter, over a dipole (2.15 dB), over an isotropic antenna.</summary>
    [Theory]
    [InlineData(25, 6.15, 2)]
    [InlineData(1, 0, 0)]
    [InlineData(400, 12.15, 4.5)]
    public void Power_erp_and_eirp_are_one_thing(double watts, double gainDbi, double feedlineDb)
    {
        double eirp = watts * Math.Pow(10, (gainDbi - feedlineDb) / 10);
        double erp = eirp / Math.Pow(10, 0.215);
        const string place = "frequency: 150 MHz, distance: 5 km, path: free space";
        double byPower = Level(place + Inv($", power: {watts} W, feedline: {feedlineDb} dB, antenna: {{ gain: {gainDbi} dBi }}"));
        Assert.Equal(byPower, Level(place + Inv($", eirp: {eirp:0.##########} W")), 1e-6);
        Assert.Equal(byPower, Level(place + Inv($", erp: {erp:0.##########} W")), 1e-6);
    }

    /// <summary>Hata's formula for a small or medium city (Hata 1980, from memory), suburban and open on top of it.</summary>
    [Theory]
    [InlineData("hata urban", 150, 40, 2, 3)]
    [InlineData("hata urban", 460, 30, 10, 20)]
    [InlineData("hata suburban", 466.075, 30, 1.5, 5)]
    [InlineData("hata suburban", 900, 200, 3, 1)]
    [InlineData("hata open", 165, 60, 1, 12)]
    public void Hata_is_its_formula(string path, double megahertz, double baseM, double mobileM, double km)
    {
        double lgF = Math.Log10(megahertz);
        double mobile = (((1.1 * lgF) - 0.7) * mobileM) - ((1.56 * lgF) - 0.8);
        double loss = 69.55 + (26.16 * lgF) - (13.82 * Math.Log10(baseM)) - mobile + ((44.9 - (6.55 * Math.Log10(baseM))) * Math.Log10(km));
        loss -= path switch
        {
            "hata suburban" => (2 * Math.Pow(Math.Log10(megahertz / 28), 2)) + 5.4,
            "hata open" => (4.78 * lgF * lgF) - (18.33 * lgF) + 40.94,
            _ => 0,
        };
        string emitter = Inv($"frequency: {megahertz} MHz, eirp: 10 W, distance: {km} km, path: {path}, antenna: {{ height: {baseM} m }}");
        string receiver = Inv($"antenna: {{ gain: 0 dBi, height: {mobileM} m, response: [0 dB at 145 MHz] }}");
        Assert.Equal(40 - loss, Carrier(emitter, receiver).LevelAtAntennaDbm!.Value, 1e-6);

        // The higher antenna is the base, at whichever end it stands.
        string turned = Inv($"frequency: {megahertz} MHz, eirp: 10 W, distance: {km} km, path: {path}, antenna: {{ height: {mobileM} m }}");
        string high = Inv($"antenna: {{ gain: 0 dBi, height: {baseM} m, response: [0 dB at 145 MHz] }}");
        Assert.Equal(40 - loss, Carrier(turned, high).LevelAtAntennaDbm!.Value, 1e-6);
    }

    /// <summary>Two rays over a mirror, added as waves: far beyond the break point plane earth is their sum.</summary>
    [Theory]
    [InlineData(150, 20, 10, 30_000)]
    [InlineData(460, 15, 5, 60_000)]
    public void Plane_earth_is_two_rays_far_away(double megahertz, double h1, double h2, double metres)
    {
        double k = 2 * Math.PI * megahertz * 1e6 / C;
        double direct = Math.Sqrt((metres * metres) + Math.Pow(h1 - h2, 2));
        double reflected = Math.Sqrt((metres * metres) + Math.Pow(h1 + h2, 2));
        System.Numerics.Complex field = System.Numerics.Complex.FromPolarCoordinates(1 / direct, -k * direct)
            - System.Numerics.Complex.FromPolarCoordinates(1 / reflected, -k * reflected);
        double rays = 40 + (20 * Math.Log10(field.Magnitude / (2 * k)));
        string emitter = Inv($"frequency: {megahertz} MHz, eirp: 10 W, distance: {metres} m, path: plane earth, ")
            + Inv($"antenna: {{ height: {h1} m }}");
        double level = Carrier(emitter, Inv($"antenna: {{ gain: 0 dBi, height: {h2} m, response: [0 dB at 145 MHz] }}"))
            .LevelAtAntennaDbm!.Value;
        Assert.Equal(rays, level, 0.05);
    }

    /// <summary>J(v) of one edge on top of free space; at grazing (h = 0) 6.0 dB (the exact Fresnel half plane is 6.02).</summary>
    [Theory]
    [InlineData(0, 6.02)]
    [InlineData(30, double.NaN)]
    [InlineData(120, double.NaN)]
    public void An_obstacle_costs_its_edge(double heightM, double expectedDb)
    {
        const double metres = 10_000;
        const double at = 4_000;
        double v = heightM * Math.Sqrt(2 / (C / 150e6) * ((1 / at) + (1 / (metres - at))));
        double edge = double.IsNaN(expectedDb) ? 6.9 + (20 * Math.Log10(Math.Sqrt(Math.Pow(v - 0.1, 2) + 1) + v - 0.1)) : expectedDb;
        const string place = "frequency: 150 MHz, eirp: 10 W, distance: 10 km";
        double free = Level(place + ", path: free space");
        double over = Level(place + Inv($", path: {{ obstacle: {{ height: {heightM} m, distance: {at} m }} }}"));
        Assert.Equal(edge, free - over, 0.02);

        // Seen from the other end it is the same path.
        double turned = Level(place + Inv($", path: {{ obstacle: {{ height: {heightM} m, distance: {metres - at} m }} }}"));
        Assert.Equal(over, turned, 1e-9);
    }

    /// <summary>A fifth of a beam off costs what the parabola says, half the beamwidth 3 dB, the back 20 dB and no more.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(30, 3)]
    [InlineData(20, 4.0 / 3)]
    [InlineData(60, 12)]
    [InlineData(180, 20)]
    public void A_beam_loses_beside_its_main_direction_at_either_end(double offDegrees, double lossDb)
    {
        const string place = "frequency: 150 MHz, power: 10 W, feedline: 0 dB, distance: 5 km, bearing: 90, path: free space, ";
        double straight = Level(place + "antenna: { gain: 8 dBi }");

        // The emitter stands in the east: it looks west to see us.
        double emitter = Level(place + Inv($"antenna: {{ gain: 8 dBi, bearing: {270 - offDegrees}, beamwidth: 60 }}"));
        Assert.Equal(lossDb, straight - emitter, 1e-9);
        double turned = Level(place + Inv($"antenna: {{ gain: 8 dBi, bearing: {(270 + offDegrees) % 360}, beamwidth: 60 }}"));
        Assert.Equal(emitter, turned, 1e-9);
        double receiver = Level(
            place + "antenna: { gain: 8 dBi }",
            Inv($"antenna: {{ gain: 0 dBi, bearing: {90 + offDegrees}, beamwidth: 60, response: [0 dB at 145 MHz] }}"));
        Assert.Equal(lossDb, straight - receiver, 1e-9);
    }

    /// <summary>Each doubling of the distance costs 6.02 dB in free space, 12.04 dB over plane earth, at any frequency.</summary>
    [Theory]
    [InlineData("free space", 6.0206)]
    [InlineData("plane earth", 12.0412)]
    public void Doubling_the_distance_costs_what_the_law_says(string path, double costDb)
    {
        foreach (double megahertz in (double[])[50.5, 145.5, 433.5])
        {
            string At(int km) =>
                Inv($"frequency: {megahertz} MHz, eirp: 10 W, distance: {km} km, path: {path}, antenna: {{ height: 12 m }}");
            const string receiver = "antenna: { gain: 0 dBi, height: 8 m, response: [0 dB at 145 MHz] }";
            Assert.Equal(
                costDb, Carrier(At(20), receiver).LevelAtAntennaDbm!.Value - Carrier(At(40), receiver).LevelAtAntennaDbm!.Value, 1e-3);
        }
    }

    /// <summary>What a thing of the path takes or gives counts once, wherever it stands.</summary>
    [Fact]
    public void Decibels_of_power_gain_and_feedline_add()
    {
        const string place = "frequency: 150 MHz, distance: 5 km, path: free space, ";
        double plain = Level(place + "power: 10 W, feedline: 0 dB, antenna: { gain: 0 dBi }");
        Assert.Equal(plain + 10, Level(place + "power: 100 W, feedline: 0 dB, antenna: { gain: 0 dBi }"), 1e-9);
        Assert.Equal(plain - 2.5, Level(place + "power: 10 W, feedline: 2.5 dB, antenna: { gain: 0 dBi }"), 1e-9);
        Assert.Equal(plain + 7, Level(place + "power: 10 W, feedline: 0 dB, antenna: { gain: 7 dBi }"), 1e-9);
        Assert.Equal(
            plain + 4 + 2.15, Level(place + "power: 10 W, feedline: 0 dB, antenna: { gain: 0 dBi }",
                "antenna: { gain: 4 dBd, response: [0 dB at 145 MHz] }"), 1e-9);
    }

    /// <summary>A measured level is taken as it stands, whatever the emitter's entry would predict.</summary>
    [Fact]
    public void A_measured_level_wins_over_everything()
    {
        CarrierFinding carrier = Carrier(
            "frequency: 150 MHz, level: -47.3 dBm, power: 10 W, distance: 5 km, path: free space, antenna: { gain: 8 dBi }");
        Assert.Equal((-47.3, LevelOrigin.Measured), (carrier.LevelAtAntennaDbm!.Value, carrier.Origin));
        Assert.Equal(2, carrier.SigmaDb!.Value, 1e-12);
        Assert.Empty(carrier.Assumed);
    }

    /// <summary>A sigma that was stated holds as it stands; else 2 dB measured, 8 dB predicted, 10 where the ground is unknown.</summary>
    [Theory]
    [InlineData("level: -40 dBm", 2)]
    [InlineData("level: -40 dBm, uncertainty: 4 dB", 4)]
    [InlineData("eirp: 10 W, distance: 5 km, uncertainty: 3 dB", 3)]
    [InlineData("eirp: 10 W, distance: 5 km, path: free space", 8)]
    [InlineData("eirp: 10 W, distance: 5 km", 10)]
    public void Sigma_is_the_stated_one_or_the_usual(string emitter, double sigmaDb) =>
        Assert.Equal(sigmaDb, Carrier("frequency: 150 MHz, " + emitter).SigmaDb!.Value, 1e-9);

    /// <summary>What was assumed stands with the level: a gain, a feedline, the ground. What was given is not mentioned.</summary>
    [Fact]
    public void What_is_assumed_is_said_and_what_is_given_is_not()
    {
        CarrierFinding bare = Carrier("frequency: 150 MHz, power: 10 W, distance: 5 km, path: free space", "");
        Assert.Contains(new LevelNote.NoFeedlineLoss(), bare.Assumed);
        Assert.Contains(new LevelNote.GainNotGiven(PathEnd.Emitter), bare.Assumed);
        Assert.Contains(new LevelNote.GainNotGiven(PathEnd.Receiver), bare.Assumed);
        CarrierFinding full = Carrier(
            "frequency: 150 MHz, power: 10 W, feedline: 1 dB, distance: 5 km, path: free space, antenna: { gain: 0 dBi }",
            "antenna: { gain: 0 dBi }");
        Assert.DoesNotContain(full.Assumed, static n => n is LevelNote.NoFeedlineLoss or LevelNote.GainNotGiven);
    }

    /// <summary>What cannot be predicted is unknown, never 0 dB; and it says why.</summary>
    [Theory]
    [InlineData("")]
    [InlineData(", power: 10 W")]
    [InlineData(", distance: 5 km")]
    [InlineData(", power: 10 W, distance: 0.2 m, path: free space")]
    [InlineData(", power: 10 W, distance: 300 km, path: hata urban, antenna: { height: 40 m }")]
    [InlineData(", power: 10 W, path: hata urban")]
    public void What_cannot_be_predicted_is_unknown(string keys)
    {
        CarrierFinding carrier = Carrier("frequency: 460 MHz" + keys);
        Assert.Null(carrier.LevelAtAntennaDbm);
        Assert.Null(carrier.LevelAtReceiverDbm);
        Assert.Null(carrier.SigmaDb);
        Assert.Equal(LevelOrigin.Unknown, carrier.Origin);
        Assert.True(carrier.HowKnown is LevelNote.NothingGiven or LevelNote.NotPredicted { Refused.Length: > 0 }, $"{carrier.HowKnown}");
    }

    /// <summary>Coordinates give the distance that stands written out: 0.1 degrees of latitude at 45 degrees are 11,113 m (a degree is
    /// 111,131.8 m there: WGS-84's meridian, pi a (1 - e^2) / (180 (1 - e^2 sin^2)^1.5) by hand).</summary>
    [Fact]
    public void Coordinates_are_as_good_as_a_distance()
    {
        const string place = "place: { latitude: 45, longitude: 7 }\n";
        const double a = 6_378_137;
        const double e2 = 0.00669437999014;
        double degree = Math.PI * a * (1 - e2) / (180 * Math.Pow(1 - (e2 * Math.Pow(Math.Sin(45.05 * Math.PI / 180), 2)), 1.5));
        double byPlace = Level("frequency: 150 MHz, eirp: 10 W, at: { latitude: 45.1, longitude: 7 }, path: free space", null, place);
        double byDistance = Level(Inv($"frequency: 150 MHz, eirp: 10 W, distance: {degree / 10} m, path: free space"), null, place);
        Assert.Equal(byDistance, byPlace, 1e-5);
    }

    private static double Level(string emitter, string? receiver = null, string place = "") =>
        Carrier(emitter, receiver, place).LevelAtAntennaDbm!.Value;

    /// <summary>The one carrier of a site; its receiver's antenna has 0 dBi at every frequency where nothing is said.</summary>
    private static CarrierFinding Carrier(string emitter, string? receiver = null, string place = "")
    {
        receiver ??= "antenna: { gain: 0 dBi, height: 10 m, response: [0 dB at 145 MHz] }";
        string text = "spurless: 1\nsite: made for a test\n" + place + "receivers:\n  - { name: r, frequency: 145 MHz, channel: 12.5 kHz, "
            + "noise_figure: 6 dB, iip3: -8 dBm" + (receiver.Length > 0 ? ", " + receiver : "")
            + " }\nemitters:\n  - { name: a, bandwidth: 0 kHz, " + emitter + " }\n";
        LoadedSite? site = SiteLoader.Load(text, "levels.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return Assert.Single(Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers).Carriers);
    }

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
