using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

public sealed class SightLineTests
{
    private const double Huge = 1e9;

    [Fact]
    public void Of_clear_ground_has_no_edge_and_says_how_much_is_free()
    {
        SightLine sight = SightLine.Of(Shapes.Even(10_000, 101, static _ => 0), 200, 200, 145e6, Huge);
        Assert.True(sight.IsClear && sight.IsFresnelClear);
        Assert.Empty(sight.Edges);
        Assert.Equal(0, sight.EdgesLossDb);

        // In the middle the zone is widest: sqrt(lambda d / 4) = 71.9 m of 200.
        Assert.Equal(5000, sight.Worst.DistanceM, 1e-6);
        Assert.Equal(200 / KnifeEdge.FirstFresnelRadiusM(5000, 5000, 145e6), sight.Worst.ClearanceInRadii, 1e-6);
    }

    /// <summary>P.526 cascaded edges with one edge: J + (1 - exp(-J/6)) (10 + 0.04 d).</summary>
    [Fact]
    public void Of_one_edge_is_its_J_and_the_printed_addition()
    {
        TerrainProfile profile = Shapes.Even(10_000, 101, static d => Math.Abs(d - 4000) < 1 ? 300 : 0);
        SightLine sight = SightLine.Of(profile, 50, 50, 145e6, Huge);
        double j = KnifeEdge.LossDb(KnifeEdge.Parameter(250, 4000, 6000, 145e6));
        PathObstacle edge = Assert.Single(sight.Edges);
        Assert.False(sight.IsClear);
        Assert.Equal(250, edge.OverLineM, 1e-3);
        Assert.Equal(300, edge.TopM);
        Assert.Equal(j, edge.EdgeLossDb, 1e-4);
        Assert.Equal(j + (1 - Math.Exp(-j / 6)) * (10 + 0.04 * 10), sight.EdgesLossDb, 1e-3);
    }

    /// <summary>Three separate ridges: the highest v leads, one more on each side, by rising distance.</summary>
    [Fact]
    public void Of_three_ridges_finds_all_and_adds_them()
    {
        TerrainProfile profile = Shapes.Even(
            30_000, 301, static d => Math.Abs(d - 7000) < 1 ? 180 : Math.Abs(d - 15_000) < 1 ? 300 : Math.Abs(d - 24_000) < 1 ? 160 : 0);
        SightLine sight = SightLine.Of(profile, 20, 20, 145e6, Huge);
        Assert.Equal([7000, 15_000, 24_000], sight.Edges.Select(static e => Math.Round(e.DistanceM)));
        double principal = KnifeEdge.LossDb(KnifeEdge.Parameter(280, 15_000, 15_000, 145e6));
        double before = KnifeEdge.LossDb(KnifeEdge.Parameter(180 - (20 + 280 * 7 / 15.0), 7000, 8000, 145e6));
        double after = KnifeEdge.LossDb(KnifeEdge.Parameter(160 - (20 + 280 * 6 / 15.0), 9000, 6000, 145e6));
        Assert.Equal(principal + (1 - Math.Exp(-principal / 6)) * (before + after + 10 + 0.04 * 30), sight.EdgesLossDb, 1e-3);
    }

    [Fact]
    public void Of_the_same_path_from_the_other_end_has_the_same_loss()
    {
        TerrainProfile profile = Shapes.Even(30_000, 301, static d => 100 + 90 * Math.Sin(d / 900) + 60 * Math.Sin(d / 2300));
        SightLine there = SightLine.Of(profile, 20, 10, 433e6, 8495);
        SightLine back = SightLine.Of(profile.Reversed(), 10, 20, 433e6, 8495);
        Assert.Equal(there.EdgesLossDb, back.EdgesLossDb, 1e-9);
    }

    /// <summary>The bulge of the earth: d1 d2 / (2 a), 500 d1 d2 / a in km and m.</summary>
    [Fact]
    public void Of_flat_ground_over_a_round_earth_is_hidden_by_the_bulge()
    {
        SightLine sight = SightLine.Of(Shapes.Even(60_000, 601, static _ => 0), 10, 10, 145e6, 8500);
        Assert.Equal(500.0 / 8500 * 30 * 30 - 10, sight.Worst.OverLineM, 1e-6);
        Assert.False(sight.IsClear);
    }
}
