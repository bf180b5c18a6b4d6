using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// Transmitters on different sites: the coupling from one to the other, worked by hand from ITU-R P.525 and the lobe of
/// docs/method/paths.md.
/// </summary>
public sealed class SeparateSitesTests
{
    // a stands 1 km north of the site, b 1 km east: 1,414.2 m from each other, b from a at 135 degrees, a from b at 315 degrees.
    private const string A =
        "  - { name: a, frequency: 158.3 MHz, bandwidth: 0 kHz, power: 2 W, level: -31 dBm, turn_round_loss: 12 dB, feedline: 1 dB, "
        + "antenna: { gain: 6 dBi, bearing: 135, beamwidth: 65 }, distance: 1 km, bearing: 0 }\n";

    private const string B = "  - { name: b, frequency: 171.55 MHz, bandwidth: 0 kHz, power: 5 W, level: -33 dBm, feedline: 2 dB, "
        + "antenna: { gain: 6 dBi, bearing: 0, beamwidth: 60 }, distance: 1 km, bearing: 90 }\n";

    // 20 lg 1414.2 + 20 lg 171.55e6 - 147.55 = 80.15 dB; less 6 dBi, less 6 dBi with 12 (45/60)^2 = 6.75 dB beside the main direction; 3 dB
    // of feedlines.
    private const double CouplingDb = 80.15 - 6 - 6 + 6.75 + 3;

    [Fact]
    public void Coupling_between_two_sites_is_the_path_with_both_lobes_and_feedlines()
    {
        ProductFinding product = Made(A + B);
        IncomingCarrier incoming = Assert.Single(product.Sum!.Incoming);
        Assert.Equal(CouplingDb, incoming.CouplingDb, 0.01);
        Assert.Equal(36.99 - CouplingDb, incoming.ArrivesDbm, 0.01);
        Assert.Equal(8, incoming.SigmaDb, 1e-9);
        Assert.Contains(
            product.Assumed,
            static a => a.Note is LevelNote.OfCoupling { From: "b", At: "a", Note: LevelNote.Predicted { Basis: PathBasis.InFreeSpace } });
    }

    [Fact]
    public void Coupling_by_coordinates_agrees_with_distances_and_bearings()
    {
        // 1 km north and 1 km east of 40.5 N on WGS-84: 111,045.6 m and 84,763 m a degree there (radii of curvature at 40.5 degrees:
        // 6,362.5 and 6,387.1 km).
        string places = (A + B)
            .Replace("distance: 1 km, bearing: 0 }", "at: { latitude: 40.509005, longitude: -35.2 } }", StringComparison.Ordinal)
            .Replace("distance: 1 km, bearing: 90 }", "at: { latitude: 40.5, longitude: -35.188203 } }", StringComparison.Ordinal);
        Assert.Equal(CouplingDb, Made(places).Sum!.Incoming[0].CouplingDb, 0.05);
    }

    [Fact]
    public void Coupling_that_was_measured_wins_over_the_path()
    {
        string measured = A.Replace("power: 2 W", "power: 2 W, coupling: { b: 45 dB }", StringComparison.Ordinal) + B;
        Assert.Equal(45, Made(measured).Sum!.Incoming[0].CouplingDb, 1e-9);
    }

    [Fact]
    public void Radiated_power_gives_the_output_power_where_the_gain_is_known()
    {
        // 36.99 - 2 + 6 = 40.99 dBm over isotropic are 12.56 W.
        IncomingCarrier incoming = Assert.Single(
            Made(A + B.Replace("power: 5 W", "eirp: 12.56 W", StringComparison.Ordinal)).Sum!.Incoming);
        Assert.Equal(36.99, incoming.PowerDbm, 0.01);
    }

    [Theory]
    [InlineData("distance: 1 km, bearing: 90", "distance: 1 km", NotComputedKind.Arrivals, NotComputedKind.Couplings)]
    [InlineData("power: 5 W", "erp: 5 W")]
    [InlineData("power: 5 W, ", "", NotComputedKind.OutputPowers)]
    [InlineData("turn_round_loss: 12 dB, ", "", NotComputedKind.TurnRoundLoss)]
    public void What_lacks_an_input_is_unknown_and_says_what_would_tell(string good, string bad, params NotComputedKind[] gaps)
    {
        ReceiverFindings receiver = Study((A + B).Replace(good, bad, StringComparison.Ordinal));
        if (gaps.Length == 0)
        {
            Assert.Contains(receiver.Products, static p => p.Mechanism == Mechanism.Transmitter);
            return;
        }

        Assert.DoesNotContain(receiver.Products, static p => p.Mechanism == Mechanism.Transmitter);
        Assert.Contains(receiver.NotComputed, n => gaps.Contains(n.Kind));
    }

    [Fact]
    public void Obstacle_takes_the_loss_of_a_knife_edge()
    {
        // 10 km at 146 MHz: 80 + 163.29 - 147.55 = 95.74 dB; 20 m in the middle: v = 0.395, J = 9.42 dB (ITU-R P.526). 100 W over isotropic
        // are 50 dBm.
        CarrierFinding carrier = Study(
            "  - { name: c, frequency: 146 MHz, bandwidth: 0 kHz, eirp: 100 W, distance: 10 km, path: "
                + "{ obstacle: { height: 20 m, distance: 5 km } } }\n").Carriers.Single();
        Assert.Equal(50 - 95.74 - 9.42, carrier.LevelAtAntennaDbm!.Value, 0.02);
        Assert.IsType<PathBasis.OverOneEdge>(Assert.IsType<LevelNote.Predicted>(carrier.HowKnown).Basis);
    }

    [Fact]
    public void Obstacle_that_does_not_stand_between_leaves_the_level_unknown()
    {
        CarrierFinding carrier = Study(
            "  - { name: c, frequency: 146 MHz, bandwidth: 0 kHz, eirp: 100 W, distance: 10 km, path: "
                + "{ obstacle: { height: 20 m, distance: 12 km } } }\n").Carriers.Single();
        Assert.Null(carrier.LevelAtAntennaDbm);
        Assert.Contains(
            "does not stand between the antennas",
            Assert.IsType<LevelNote.NotPredicted>(carrier.HowKnown).Refused,
            StringComparison.Ordinal);
    }

    private static ProductFinding Made(string emitters) =>
        Assert.Single(
            Study(emitters).Products,
            static p => p.Mechanism == Mechanism.Transmitter && p.MadeIn == "a" && p.Order == 3 && p.OffsetHz == 0);

    private static ReceiverFindings Study(string emitters)
    {
        string text = """
            spurless: 1
            site: invented
            place: { latitude: 40.5, longitude: -35.2 }
            receivers:
              - { name: input, frequency: 145.05 MHz, channel: 12.5 kHz, if_bandwidth: 8 kHz, noise_figure: 6 dB,
                  iip2: 150 dBm, iip3: 100 dBm }
            search: { floor: none }
            emitters:

            """ + emitters;
        LoadedSite? site = SiteLoader.Load(text, "invented.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions()).Receivers.Single();
    }
}
