using CsCheck;
using Spurless.Circuits.Series;

namespace Spurless.Circuits.Tests.Series;

/// <summary>
/// Laws of the preferred values against a plain list of all of them (IEC 60063; the E24 table is typed in here once more).
/// </summary>
public sealed class PreferredValueLawsTests
{
    private const string E24 = "10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91";

    private static readonly Gen<int> _size = Gen.Int[0, 6].Select(static i => ESeries.Sizes[i]);
    private static readonly Gen<double> _value = Gen.Double[-12, 7].Select(static lg => Math.Pow(10, lg));

    /// <summary>All values from 1e-14 to 1e9, as exact decimals.</summary>
    private static decimal[] All(int size)
    {
        decimal[] decade = size <= 24
            ? [.. E24.Split(' ').Where((_, i) => i % (24 / size) == 0).Select(static v =>
                decimal.Parse(v, System.Globalization.CultureInfo.InvariantCulture) / 10)]
            : [.. Enumerable.Range(0, size).Select(i => size == 192 && i == 185 ? 9.20m
                : Math.Round((decimal)Math.Pow(10, i / (double)size), 2))];
        List<decimal> all = [];
        for (int power = -14; power <= 9; power++)
        {
            decimal scale = 1;
            for (int i = 0; i < Math.Abs(power); i++)
            {
                scale = power < 0 ? scale / 10 : scale * 10;
            }

            all.AddRange(decade.Select(v => v * scale));
        }

        return [.. all];
    }

    private static readonly Dictionary<int, double[]> _lists = ESeries.Sizes.ToDictionary(
        static s => s, static s => All(s).Select(static v => (double)v).ToArray());

    [Fact]
    public void Nearest_is_the_nearest_of_the_whole_list() => Gen.Select(_value, _size).Sample(static (value, size) =>
    {
        double best = _lists[size].MinBy(v => Math.Abs(Math.Log(v / value)));
        double found = ESeries.Nearest(value, size);

        // Right between two either is as near.
        Assert.Equal(Math.Abs(Math.Log(best / value)), Math.Abs(Math.Log(found / value)), 1e-12);
        Assert.Contains(found, _lists[size]);
    }, iter: 500);

    [Fact]
    public void Within_is_the_part_of_the_list_that_lies_there() =>
        Gen.Select(_value, Gen.Double[1, 40], _size).Sample(static (low, ratio, size) =>
        {
            // An end that is a preferred value but for rounding counts as that value.
            double[] plain = [.. _lists[size].Where(v => v >= low * (1 - 1e-12) && v <= low * ratio * (1 + 1e-12))];
            Assert.Equal(plain, ESeries.Within(low, low * ratio, size));
        }, iter: 150);

    /// <summary>Bins of neighbours touch and do not lap: together they are the whole line.</summary>
    [Fact]
    public void Bins_of_one_series_cover_every_value_once() => _size.Sample(static size =>
    {
        double[] list = _lists[size];
        int from = Array.IndexOf(list, 1.0);
        for (int i = from; i < from + size; i++)
        {
            (double low, double high) = ESeries.Bin(list[i], size);
            Assert.True(low < list[i] && list[i] < high);
            Assert.Equal(1, ESeries.Bin(list[i + 1], size).Low / high, 1e-12);
            Assert.Equal(list[i], ESeries.Nearest(low * (1 + 1e-9), size));
            Assert.Equal(list[i], ESeries.Nearest(high * (1 - 1e-9), size));
        }
    }, iter: 7);

    /// <summary>Ten times the value is ten times the answer, to the last digit that a decimal text has.</summary>
    [Fact]
    public void Nearest_of_ten_times_as_much_is_ten_times_as_much() => Gen.Select(_value, _size).Sample(static (value, size) =>
        Assert.Equal(1, ESeries.Nearest(10 * value, size) / (10 * ESeries.Nearest(value, size)), 1e-14));

    /// <summary>
    /// E3 to E24 are nested, and so are E48 to E192 but for 9.20; a value of a finer series is never further off.
    /// </summary>
    [Fact]
    public void Nearest_in_a_finer_series_of_the_family_is_no_further_off() => _value.Sample(static value =>
    {
        foreach (int[] family in new int[][] { [3, 6, 12, 24], [48, 96, 192] })
        {
            double last = double.PositiveInfinity;
            foreach (int size in family)
            {
                double off = Math.Abs(Math.Log(ESeries.Nearest(value, size) / value));
                Assert.True(off <= last + 1e-12, $"E{size} at {value}: {off} after {last}");
                last = off;
            }
        }
    });

    /// <summary>
    /// As many values as the name says, each about the n-th root of ten over the one before: rounding moves a step by under 5 %.
    /// </summary>
    [Fact]
    public void Steps_of_a_series_are_about_one_ratio()
    {
        foreach (int size in ESeries.Sizes)
        {
            IReadOnlyList<double> decade = ESeries.Decade(size);
            Assert.Equal(size, decade.Distinct().Count());
            for (int i = 0; i < size; i++)
            {
                double next = i + 1 < size ? decade[i + 1] : 10;
                Assert.InRange(next / decade[i] / Math.Pow(10, 1.0 / size), 0.95, 1.05);
            }
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-4.7)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_value_that_is_none_is_refused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ESeries.Nearest(value, 24));
        Assert.Throws<ArgumentOutOfRangeException>(() => ESeries.Within(value, 1, 24));
        Assert.Throws<ArgumentOutOfRangeException>(() => ESeries.Bin(value, 24));
    }
}
