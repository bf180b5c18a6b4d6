using CsCheck;
using Spurless.Circuits.Series;

namespace Spurless.Circuits.Tests.Series;

/// <summary>IEC 60063, seen in public copies.</summary>
public sealed class ESeriesTests
{
    [Fact]
    public void Decade_E12_and_E24_are_the_standard_s()
    {
        Assert.Equal([1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2], ESeries.Decade(12));
        Assert.Equal([1.1, 1.3, 1.6, 2.0, 2.4, 3.0, 3.6, 4.3, 5.1, 6.2, 7.5, 9.1], ESeries.Decade(24).Except(ESeries.Decade(12)));
        Assert.Equal([1.0, 1.5, 2.2, 3.3, 4.7, 6.8], ESeries.Decade(6));
        Assert.Equal([1.0, 2.2, 4.7], ESeries.Decade(3));
    }

    [Fact]
    public void Decade_E96_and_E192()
    {
        Assert.Equal([1.00, 1.02, 1.05, 1.07, 1.10, 1.13, 1.15, 1.18, 1.21, 1.24], ESeries.Decade(96).Take(10));
        Assert.Equal(9.76, ESeries.Decade(96)[^1]);
        Assert.Contains(9.20, ESeries.Decade(192));
        Assert.DoesNotContain(9.19, ESeries.Decade(192));
        Assert.Equal(ESeries.Decade(48), ESeries.Decade(96).Where((_, i) => i % 2 == 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ESeries.Decade(25));
    }

    [Theory]
    [InlineData(27.6e-12, 24, 27e-12)]
    [InlineData(9.6, 12, 10)]
    [InlineData(0.0098, 24, 0.01)]
    [InlineData(4.7e-12, 24, 4.7e-12)]
    public void Nearest_is_nearest_in_ratio(double value, int size, double expected) =>
        Assert.Equal(expected, ESeries.Nearest(value, size));

    [Fact]
    public void Nearest_of_any_value_has_no_nearer_neighbour() =>
        Gen.Select(Gen.Double[-13, 7], Gen.Int[0, 6].Select(i => ESeries.Sizes[i])).Sample((lg, size) =>
    {
        double value = Math.Pow(10, lg);
        double nearest = ESeries.Nearest(value, size);
        (double low, double high) = ESeries.Bin(nearest, size);
        Assert.InRange(value, low * (1 - 1e-9), high * (1 + 1e-9));
        Assert.Equal(nearest, ESeries.Nearest(nearest, size));
    });

    [Fact]
    public void Bin_ends_at_the_geometric_means_with_the_neighbours()
    {
        (double low, double high) = ESeries.Bin(1.0, 12);
        Assert.Equal(Math.Sqrt(0.82), low, 1e-12);
        Assert.Equal(Math.Sqrt(1.2), high, 1e-12);
    }

    [Fact]
    public void Within_a_range_gives_all_of_them() => Assert.Equal([8.2e-12, 10e-12, 12e-12], ESeries.Within(8e-12, 12e-12, 12));
}
