using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Families;

public class TankFilterTests
{
    private const double Centre = 146e6, Coil = 40e-9;

    // Matthaei, Young, Jones' capacitively coupled design, worked independently: 0.1 dB Chebyshev, n = 3, 6 MHz, coils of 40 nH.
    [Fact]
    public void Make_of_the_three_tank_example_has_its_values()
    {
        Blueprint b = Make(Prototype.Chebyshev(3, 0.1), 6e6);
        double[] pf = [.. b.Circuit.Parts.OfType<Capacitor>().Select(static c => c.Capacitance.Require() * 1e12)];
        Assert.Equal([5.2235, 23.6460, 1.1222, 27.4637, 1.1222, 5.2235, 23.6460], pf, static (a, c) => Math.Abs(a - c) < 6e-5);
    }

    [Fact]
    public void Make_of_the_two_tank_example_has_its_values()
    {
        Blueprint b = Make(Prototype.Butterworth(2), 5e6);
        double[] pf = [.. b.Circuit.Parts.OfType<Capacitor>().Select(static c => c.Capacitance.Require() * 1e12)];
        Assert.Equal([4.0274, 25.0942, 0.7194, 4.0274, 25.0942], pf, static (a, c) => Math.Abs(a - c) < 6e-5);
    }

    // The same examples' responses by an independent chain-matrix computation: MHz, loss in dB lossless.
    [Theory]
    [InlineData(100, 85.050, 63.859)]
    [InlineData(130, 44.496, 36.176)]
    [InlineData(136, 29.734, 26.437)]
    [InlineData(140, 14.051, 16.623)]
    [InlineData(142, 2.894, 9.484)]
    [InlineData(144, 0.070, 1.559)]
    [InlineData(148, 0.057, 1.389)]
    [InlineData(150, 1.743, 8.007)]
    [InlineData(156, 23.224, 21.817)]
    [InlineData(200, 56.433, 42.787)]
    public void Make_of_the_examples_has_their_response(double megahertz, double three, double two)
    {
        Assert.Equal(three, Loss(Make(Prototype.Chebyshev(3, 0.1), 6e6), megahertz * 1e6), 1e-3);
        Assert.Equal(two, Loss(Make(Prototype.Butterworth(2), 5e6), megahertz * 1e6), 1e-3);
    }

    // As the band narrows every coupled filter becomes its prototype: the error falls with the width. Inverters are exact at the middle
    // alone, so there is no closed
    // form to 1e-9 away from it; at the middle itself the lossless odd filters lose nothing.
    [Theory]
    [MemberData(nameof(Coupled))]
    public void Coupled_families_become_their_prototype_as_the_band_narrows(string family, int order)
    {
        Prototype p = Prototype.Chebyshev(order, 0.1);
        double Error(double width)
        {
            Blueprint b = Build(family, p, width)!;
            double worst = 0;
            foreach (double w in new[] { -2.5, -1.5, -1, 0.5, 1, 1.5, 2.5 })
            {
                double half = w * width / (2 * Centre), f = Centre * (half + Math.Sqrt(1 + (half * half)));
                worst = Math.Max(worst, Math.Abs(Loss(b, f) - p.LossDb(Math.Abs(w))));
            }

            return worst;
        }

        double wide = Error(0.004 * Centre), narrow = Error(0.0004 * Centre);
        Assert.True(narrow < 0.12, $"{family}: {narrow} dB off at 0.04 % of width");
        Assert.True(narrow < 0.35 * wide, $"{family}: {wide} dB at 0.4 %, {narrow} dB at 0.04 %");
    }

    public static TheoryData<string, int> Coupled()
    {
        TheoryData<string, int> all = [];
        foreach (string family in new[]
        {
            "top", "tap", "coil tap", "top coils", "coil tap and coils", "coils", "notch", "mixed", "mesh", "helix",
        })
        {
            all.Add(family, 3);
        }

        all.Add("top", 5);
        all.Add("top", 4);
        all.Add("tap", 2);
        all.Add("mesh", 4);
        return all;
    }

    [Theory]
    [InlineData(153e6)]
    [InlineData(139e6)]
    public void NotchBranch_and_Mixed_have_their_notch_where_asked(double notch)
    {
        Prototype p = Prototype.Butterworth(2);
        foreach (TankJoint joint in new[] { TankJoint.NotchBranch, TankJoint.Mixed })
        {
            Blueprint b = TankFilters.Make(p, Centre, 1e6, Coil, 50, TankEnds.SeriesCapacitor, joint, [notch])!;
            double at = Loss(b, notch * (1 + 1e-7));
            Assert.True(at > 90, $"{joint}: {at} dB");
            Assert.True(at > Loss(b, notch * 1.01) + 20 && at > Loss(b, notch * 0.99) + 20);
        }
    }

    // A trap in a T or pi takes the place of the plain element in the middle of the band, so there the filter loses what the plain ladder
    // does.
    [Theory]
    [InlineData(190e6)]
    [InlineData(110e6)]
    public void Traps_are_the_plain_ladder_in_the_pass_band_and_short_the_notch(double notch)
    {
        Prototype p = Prototype.Chebyshev(3, 0.1);
        double edge = notch > Centre ? 1.3 * Centre : Centre / 1.3;
        double plain = p.LossDb(notch > Centre ? Centre / edge : edge / Centre);
        foreach (Blueprint b in new[] { TrapFilters.SeriesTraps(p, [notch], Centre, edge, 50),
            TrapFilters.ParallelTraps(p, [notch], Centre, edge, 50) })
        {
            Assert.Equal(plain, Loss(b, Centre), 1e-9);
            Assert.True(Loss(b, notch * (1 + 1e-8)) > 100);
        }
    }

    private static Blueprint Make(Prototype p, double width) => TankFilters.Make(
        p, Centre, width, Coil, 50, TankEnds.SeriesCapacitor, TankJoint.Capacitor)!;

    private static Blueprint? Build(string family, Prototype p, double width) => family switch
    {
        "top" => Make(p, width),
        "tap" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.CapacitorTap, TankJoint.Capacitor),
        "coil tap" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.CoilTap, TankJoint.Capacitor),
        "top coils" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.SeriesCapacitor, TankJoint.Coil),
        "coil tap and coils" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.CoilTap, TankJoint.Coil),
        "coils" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.SeriesCapacitor, TankJoint.Magnetic),
        "notch" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.SeriesCapacitor, TankJoint.NotchBranch, [190e6, 110e6]),
        "mixed" => TankFilters.Make(p, Centre, width, Coil, 50, TankEnds.SeriesCapacitor, TankJoint.Mixed, [190e6]),
        "mesh" => MeshFilters.Make(p, Centre, width, 4 * Coil, 50),
        _ => LineFilters.Tanks(
            p, Centre, width, new LineResonator("helical resonators", 200, 1e12, new ResonatorBuild.Cavity(0.01, 0.036, 0.5)), 50),
    };

    private static double Loss(Blueprint b, double f) => CircuitSolver.Create(b.Circuit).Solve([f])[0].InsertionLossDb;
}
