using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

public class AxisTests
{
    [Fact]
    public void Map_linear_axis_puts_ends_and_middle_where_they_belong()
    {
        Axis axis = Axis.Linear(-100, 0, 238, 86);
        Assert.Equal(238, axis.Map(-100), 9);
        Assert.Equal(162, axis.Map(-50), 9);
        Assert.Equal(86, axis.Map(0), 9);
    }

    [Fact]
    public void Map_logarithmic_axis_puts_the_geometric_mean_in_the_middle()
    {
        // sqrt(50 * 200) = 100.
        Axis axis = Axis.Logarithmic(50, 200, 0, 100);
        Assert.Equal(50, axis.Map(100), 9);
    }

    [Fact]
    public void Unmap_undoes_map() => Gen.Select(Gen.Double[1, 1000], Gen.Double[1.1, 1000], Gen.Double[0, 1], Gen.Bool)
        .Sample(static (low, ratio, part, logarithmic) =>
        {
            Axis axis = logarithmic ? Axis.Logarithmic(low, low * ratio, 40, 640) : Axis.Linear(low, low * ratio, 640, 40);
            double value = low + (part * ((low * ratio) - low));
            return Math.Abs(axis.Unmap(axis.Map(value)) - value) <= 1e-9 * value;
        });

    [Fact]
    public void Ticks_logarithmic_axis_are_1_2_3_5_7_a_decade_with_the_rest_unlabelled()
    {
        Axis axis = Axis.Logarithmic(47, 510, 0, 600);
        Assert.Equal([50, 70, 100, 200, 300, 500], axis.Ticks().Where(static t => t.Labelled).Select(static t => t.Value));
        Assert.Equal([60, 80, 90, 400], axis.Ticks().Where(static t => !t.Labelled).Select(static t => t.Value));
    }

    [Fact]
    public void Ticks_short_logarithmic_axis_take_linear_steps()
    {
        Axis axis = Axis.Logarithmic(140, 150, 0, 600);
        Assert.Equal([140, 141, 142, 143, 144, 145, 146, 147, 148, 149, 150], axis.Ticks().Select(static t => t.Value));
    }

    [Theory]
    [InlineData(0, 1, 480, new[] { 0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1 })]
    [InlineData(-110, 0, 150, new[] { -100, -50.0, 0 })]
    public void Ticks_linear_axis_are_round(double low, double high, double length, double[] expected) =>
        Assert.Equal(expected, Axis.Linear(low, high, 0, length).Ticks(48).Select(static t => t.Value));

    [Fact]
    public void Ticks_are_on_the_axis_round_and_far_enough_apart() =>
        Gen.Select(Gen.Double[-1000, 1000], Gen.Double[0.01, 5000], Gen.Double[60, 900])
        .Sample(static (low, span, length) =>
        {
            Axis axis = Axis.Linear(low, low + span, 0, length);
            IReadOnlyList<Tick> ticks = axis.Ticks(48);
            double slack = span * 1e-9;
            return ticks.All(t => t.Value >= low - slack && t.Value <= low + span + slack)
                && ticks.Zip(ticks.Skip(1)).All(p => axis.Map(p.Second.Value) - axis.Map(p.First.Value) > 48 - 1e-6);
        });

    [Fact]
    public void TicksEvery_channel_raster_thins_out_where_it_is_too_dense()
    {
        Axis axis = Axis.Linear(-62_500, 62_500, 40, 640);
        Assert.Equal(11, axis.TicksEvery(12_500, 44).Count);
        Assert.Equal([-50_000, -25_000, 0, 25_000, 50_000], axis.TicksEvery(12_500, 90).Select(static t => t.Value));
    }

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(1, 1)]
    [InlineData(0, 10)]
    public void Logarithmic_impossible_range_is_refused(double low, double high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Axis.Logarithmic(low, high, 0, 1));
}
