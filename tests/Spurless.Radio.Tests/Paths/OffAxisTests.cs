using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class OffAxisTests
{
    /// <summary>By definition of the half-power beamwidth 3 dB at half of it (common practice: a parabola in dB); floor 20 dB.</summary>
    [Theory]
    [InlineData(0, 65, 0)]
    [InlineData(32.5, 65, 3)]
    [InlineData(-32.5, 65, 3)]
    [InlineData(327.5, 65, 3)]
    [InlineData(65, 65, 12)]
    [InlineData(180, 65, 20)]
    [InlineData(180, 360, 0)]
    public void LossDb_from_the_beamwidth(double angle, double beamwidth, double expected) =>
        Assert.Equal(expected, OffAxis.LossDb(angle, beamwidth), 1e-9);

    [Fact]
    public void GainDbi_towards_a_bearing()
    {
        Assert.Equal(8.15 - 3, OffAxis.GainDbi(8.15, 350, 40, 10), 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => OffAxis.LossDb(10, 0));
    }

    [Fact]
    public void Differences_and_opposites_wrap() => Gen.Select(Gen.Double[-720, 720], Gen.Double[-720, 720]).Sample(static (a, b) =>
    {
        Assert.InRange(OffAxis.Difference(a, b), 0, 180);
        Assert.Equal(Math.Cos((a - b) * Math.PI / 180), Math.Cos(OffAxis.Difference(a, b) * Math.PI / 180), 1e-9);
        Assert.InRange(OffAxis.Opposite(a), 0, 359.9999999999999);
        Assert.Equal(180, OffAxis.Difference(a, OffAxis.Opposite(a)), 1e-9);
    });

    [Fact]
    public void LossDb_never_falls_away_from_the_axis() =>
        Gen.Select(Gen.Double[0, 180], Gen.Double[0, 180], Gen.Double[5, 359]).Sample(static (a, b, width) => Assert.True(
            OffAxis.LossDb(Math.Min(a, b), width) <= OffAxis.LossDb(Math.Max(a, b), width)));
}
