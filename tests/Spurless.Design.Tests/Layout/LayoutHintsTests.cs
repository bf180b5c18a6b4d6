using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Design.Layout;
using Spurless.Design.Winding;

namespace Spurless.Design.Tests.Layout;

/// <summary>
/// What neighbouring coils couple without meaning to, against the field of a magnetic dipole (textbook: on its axis twice what it is beside
/// it, both falling with the third power) and the laws of scale.
/// </summary>
public sealed class LayoutHintsTests
{
    private const double Mu0 = 4e-7 * Math.PI;

    public static TheoryData<int, double, double, double> Coils => new()
    {
        { 4, 6e-3, 5e-3, 80e-9 }, { 8, 10e-3, 12e-3, 350e-9 }, { 3, 20e-3, 8e-3, 200e-9 }, { 12, 4e-3, 14e-3, 160e-9 },
    };

    /// <summary>Beside each other: mu0 (N A)^2 / (4 pi d^3 L), d three times the greater of diameter and length.</summary>
    [Theory]
    [MemberData(nameof(Coils))]
    public void Strays_side_by_side_are_those_of_dipoles(int turns, double diameterM, double lengthM, double henries)
    {
        WoundCoil coil = Wound("L1", turns, diameterM, lengthM, henries);
        StrayCoupling stray = Assert.Single(Strays(coil, coil with { Part = "L2" }));
        double distance = 3 * Math.Max(diameterM, lengthM);
        double moment = turns * Math.PI * diameterM * diameterM / 4;
        Assert.Equal(distance, stray.DistanceM, 1e-12);
        Assert.Equal(Mu0 * moment * moment / (4 * Math.PI * Math.Pow(distance, 3)) / henries, stray.Coefficient, 1e-9);

        // End to end a dipole's field is twice that beside it; coils of some length at three of them, within a third.
        Assert.InRange(stray.EndToEnd / (2 * stray.Coefficient), 0.67, 1.34);
    }

    /// <summary>A filter built twice as large, of coils with twice the inductance, couples as much at twice the distance.</summary>
    [Theory]
    [MemberData(nameof(Coils))]
    public void Strays_of_everything_larger_are_the_same_further_off(int turns, double diameterM, double lengthM, double henries)
    {
        foreach (double scale in (double[])[0.5, 2, 7])
        {
            StrayCoupling small = Assert.Single(Strays(
                Wound("L1", turns, diameterM, lengthM, henries), Wound("L2", turns + 1, diameterM, lengthM, henries)));
            StrayCoupling large = Assert.Single(Strays(
                Wound("L1", turns, scale * diameterM, scale * lengthM, scale * henries),
                Wound("L2", turns + 1, scale * diameterM, scale * lengthM, scale * henries)));
            Assert.Equal(small.Coefficient, large.Coefficient, 1e-9);
            Assert.Equal(small.EndToEnd, large.EndToEnd, 1e-9);
            Assert.Equal(small.DistanceM * scale, large.DistanceM, 1e-12);
        }
    }

    /// <summary>What the first does to the second the second does to the first.</summary>
    [Fact]
    public void Strays_are_the_same_from_either_coil()
    {
        WoundCoil one = Wound("L1", 4, 6e-3, 5e-3, 80e-9);
        WoundCoil other = Wound("L2", 9, 12e-3, 10e-3, 600e-9);
        StrayCoupling there = Assert.Single(Strays(one, other));
        StrayCoupling back = Assert.Single(Strays(other, one));
        Assert.Equal((there.Coefficient, there.DistanceM), (back.Coefficient, back.DistanceM));
        Assert.Equal(there.EndToEnd, back.EndToEnd, 1e-15);
        Assert.True(there.Coefficient is > 0 and < 1);
    }

    /// <summary>Neighbours of those to ground, each pair once; a coil in the line stands apart.</summary>
    [Fact]
    public void Strays_are_of_neighbouring_coils_to_ground()
    {
        WoundCoil[] coils = [.. Enumerable.Range(1, 4).Select(static i => Wound($"L{i}", 4, 6e-3, 5e-3, 80e-9))];
        Circuit circuit = Drawn(coils);
        circuit = circuit with
        {
            Parts = [.. circuit.Parts.Select(static p => p.Name == "L2" ? (Inductor)p with { To = "z" } : p)],
        };
        Assert.Equal(
            [("L1", "L3"), ("L3", "L4")], LayoutHints.Strays(circuit, coils).Select(static s => (s.First, s.Second)));
        Assert.Empty(LayoutHints.Strays(circuit, coils[..1]));
        Assert.Empty(LayoutHints.Strays(circuit, []));
    }

    private static IReadOnlyList<StrayCoupling> Strays(params WoundCoil[] coils) => LayoutHints.Strays(Drawn(coils), coils);

    private static Circuit Drawn(WoundCoil[] coils) => new()
    {
        Name = "made for a test",
        PortIn = "a",
        PortOut = "b",
        Parts =
        [
            .. coils.Select(static (c, i) => (Part)new Inductor
            {
                Name = c.Part,
                From = $"n{i}",
                To = Circuit.Ground,
                Inductance = PartValue.Known(c.InductanceH),
            }),
        ],
    };

    private static WoundCoil Wound(string name, int turns, double diameterM, double lengthM, double henries) =>
        new(name, henries, henries, diameterM - 1e-3, new CoilGeometry(turns, diameterM, lengthM, 1e-3), 200, 0.3e-12);
}
