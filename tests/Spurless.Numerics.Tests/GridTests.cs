using CsCheck;

namespace Spurless.Numerics.Tests;

public sealed class GridTests
{
    private static readonly Gen<double[]> Grids = Gen.Double[0.01, 5].Array[1, 30].Select(static steps =>
    {
        double at = 0;
        return steps.Select(s => at += s).ToArray();
    });

    [Fact]
    public void Locate_and_Of_give_a_straight_line_back() => Gen.Select(Grids, Gen.Double[0, 1]).Sample(static (grid, part) =>
    {
        double x = Math.Clamp(grid[0] + (part * (grid[^1] - grid[0])), grid[0], grid[^1]);
        double[] line = [.. grid.Select(static g => (3 * g) - 7)];
        Assert.Equal((3 * x) - 7, Grid.Locate(grid, x).Of(line), 1e-11);
    });

    [Fact]
    public void Locate_on_an_entry_has_no_part() => Grids.Sample(static grid =>
    {
        for (int i = 0; i < grid.Length; i++)
        {
            Assert.Equal(new GridPlace(i, 0), Grid.Locate(grid, grid[i]));
        }
    });

    [Fact]
    public void Locate_outside_is_refused() => Grids.Sample(static grid =>
    {
        foreach (double x in (double[])[grid[0] - 1, grid[^1] + 1, double.NaN, double.PositiveInfinity])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => Grid.Locate(grid, x));
        }
    });
}
