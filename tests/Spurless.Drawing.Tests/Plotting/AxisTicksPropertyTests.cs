using System.Globalization;
using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>Ticks of any axis: round figures in order, no nearer than asked, and a figure that prints as what it is.</summary>
public sealed class AxisTicksPropertyTests
{
    private static readonly Gen<(double Low, double High)> _range = Gen.Select(
        Gen.Double[-1, 1], Gen.Double[-6, 8], Gen.Double[0.001, 3]).Select(static (at, decade, span) =>
        {
            double scale = Math.Pow(10, decade);
            return (at * scale, (at + span) * scale);
        });

    [Fact]
    public void Ticks_of_any_linear_axis_are_multiples_of_a_round_step() => Gen.Select(_range, Gen.Double[60, 900], Gen.Bool).Sample(
        static (range, length, down) =>
        {
            Axis axis = down ? Axis.Linear(range.Low, range.High, length, 0) : Axis.Linear(range.Low, range.High, 0, length);
            double[] values = [.. axis.Ticks(48).Select(static t => t.Value)];
            if (values.Length < 2)
            {
                return;
            }

            double step = values[1] - values[0], span = range.High - range.Low;
            double mantissa = step / Math.Pow(10, Math.Floor(Math.Log10(step) + 1e-9));
            Assert.True(
                ((double[])[1, 2, 5, 10]).Any(m => Math.Abs(mantissa - m) < 1e-6), $"a step of {step}");
            for (int i = 0; i < values.Length; i++)
            {
                Assert.Equal(Math.Round(values[i] / step) * step, values[i], 1e-6 * step);
                Assert.True(i == 0 || values[i] > values[i - 1]);
                Assert.False(values[i] == 0 && double.IsNegative(values[i]));
            }

            // As many as fit and no fewer: one step finer would stand closer than asked.
            Assert.True(Math.Abs(axis.Map(values[1]) - axis.Map(values[0])) >= 48 - 1e-6);
            Assert.True(step <= 10.0001 * 48 * span / length);
            Assert.True(values[0] - range.Low < step * (1 + 1e-6) && range.High - values[^1] < step * (1 + 1e-6));
        });

    [Fact]
    public void TicksEvery_of_any_raster_is_a_part_of_it_with_nothing_in_the_middle_left_out() => Gen.Select(
        Gen.OneOf(5_000.0, 6_250, 8_333.33, 12_500, 25_000), Gen.Int[1, 60], Gen.Double[100, 900], Gen.Double[10, 90]).Sample(
        static (step, half, length, spacing) =>
        {
            Axis axis = Axis.Linear(-half * step, half * step, 0, length);
            double[] values = [.. axis.TicksEvery(step, spacing).Select(static t => t.Value)];

            // The channel's own centre is always there, and the picture is even about it.
            Assert.Contains(0, values);
            Assert.Equal(values.Select(static v => -v).Order(), values);
            Assert.All(values, v => Assert.Equal(0, Math.IEEERemainder(v, step), 1e-6 * step));
            if (values.Length > 1)
            {
                double[] gaps = [.. values.Zip(values.Skip(1), static (a, b) => b - a)];
                Assert.All(gaps, g => Assert.Equal(gaps[0], g, 1e-6 * step));
                Assert.True(axis.Map(values[1]) - axis.Map(values[0]) >= spacing - 1e-6);
            }
        });

    [Fact]
    public void RoundStep_is_the_least_of_its_kind_that_is_no_smaller() => Gen.Double[-12, 12].Sample(static power =>
    {
        double least = Math.Pow(10, power), step = Axis.RoundStep(least);
        Assert.True(step >= least * (1 - 1e-6));
        Assert.True(step <= 2.5001 * least, $"{step} for {least}");
    });

    [Fact]
    public void Map_of_any_axis_is_monotone_and_keeps_its_ends() => Gen.Select(
        Gen.Double[0.001, 1e9], Gen.Double[1.001, 1e4], Gen.Bool, Gen.Double[-500, 500], Gen.Double[-500, 500]).Sample(
        static (low, ratio, logarithmic, from, to) =>
        {
            if (Math.Abs(to - from) < 1)
            {
                return;
            }

            Axis axis = logarithmic ? Axis.Logarithmic(low, low * ratio, from, to) : Axis.Linear(low, low * ratio, from, to);
            Assert.Equal(from, axis.Map(low), 1e-6);
            Assert.Equal(to, axis.Map(low * ratio), 1e-6);
            double[] places = [.. Enumerable.Range(0, 30).Select(i => axis.Map(low * Math.Pow(ratio, i / 29.0)))];
            Assert.Equal(to > from ? places.Order() : places.OrderDescending(), places);
        });

    [Fact]
    public void Path_data_of_any_shape_is_read_back_to_a_tenth() => Gen.Select(
        Gen.Double[-900, 900], Gen.Double[-900, 900]).Array[1, 12].Sample(
        static points =>
        {
            string data = new SvgPath().Through([.. points.Select(static p => new PlotPoint(p.Item1, p.Item2))]).ToString();
            double[] n = [.. data.Split(['M', 'L', ' '], StringSplitOptions.RemoveEmptyEntries).Select(static t =>
                double.Parse(t, CultureInfo.InvariantCulture))];
            Assert.Equal(2 * points.Length, n.Length);
            Assert.Equal(1, data.Count(static c => c == 'M'));
            for (int i = 0; i < points.Length; i++)
            {
                Assert.Equal(points[i].Item1, n[2 * i], 0.0500001);
                Assert.Equal(points[i].Item2, n[(2 * i) + 1], 0.0500001);
            }
        });

    [Fact]
    public void Shapes_of_marks_are_centred_and_as_wide_as_said() => Gen.Select(
        Gen.Double[-300, 300], Gen.Double[-300, 300], Gen.Double[1, 12]).Sample(static (x, y, half) =>
        {
            foreach (string data in (string[])
                [SvgPath.TriangleUp(x, y, half), SvgPath.TriangleDown(x, y, half), SvgPath.Diamond(x, y, half)])
            {
                Assert.EndsWith("Z", data, StringComparison.Ordinal);
                double[] n = [.. data.TrimEnd('Z').Split(['M', 'L', ' '], StringSplitOptions.RemoveEmptyEntries).Select(static t =>
                    double.Parse(t, CultureInfo.InvariantCulture))];
                double[] xs = [.. n.Where(static (_, i) => i % 2 == 0)], ys = [.. n.Where(static (_, i) => i % 2 == 1)];
                Assert.Equal(2 * half, xs.Max() - xs.Min(), 0.11);
                Assert.Equal(x, (xs.Max() + xs.Min()) / 2, 0.11);
                Assert.InRange(y, ys.Min() - 0.1, ys.Max() + 0.1);
            }
        });
}
