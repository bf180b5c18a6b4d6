using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class SameStructureTests
{
    /// <summary>Source: docs/checks.md 2.4, computed there from formulas seen in a repeater maker's manual.</summary>
    [Theory]
    [InlineData(146, 3.048, 34.86, 25.43, 21.13)]
    [InlineData(146, 6.096, 46.90, 31.45, 27.15)]
    [InlineData(155, 10, 56.54, 36.27, 31.97)]
    [InlineData(440, 3.048, 54.03, 35.01, 30.71)]
    [InlineData(146, 30, 70, 45.29, 40.99)]
    public void Isolation_vertical_and_horizontal(double megahertz, double spacing, double vertical, double isotropic, double dipoles)
    {
        Assert.Equal(vertical, SameStructure.VerticalDb(spacing, megahertz * 1e6), 0.006);
        Assert.Equal(isotropic, SameStructure.HorizontalDb(spacing, megahertz * 1e6, 0, 0), 0.006);
        Assert.Equal(dipoles, SameStructure.HorizontalDb(spacing, megahertz * 1e6, 2.15, 2.15), 0.006);
    }

    [Fact]
    public void Isolation_slant_at_45_degrees_is_half_way()
    {
        // docs/checks.md 2.4, computed
        Assert.Equal(43.93, SameStructure.VerticalDb(5, 150e6), 0.006);
        Assert.Equal(29.96, SameStructure.HorizontalDb(5, 150e6, 0, 0), 0.006);
        Assert.Equal(36.95, SameStructure.SlantDb(5, 5, 150e6, 0, 0), 0.006);
    }

    /// <summary>Free space is 20 lg(4 pi s / lambda) = 21.98 dB and more: the horizontal formula is it, rounded up.</summary>
    [Fact]
    public void Isolation_horizontal_is_free_space_within_rounding() => Gen.Double[2, 50].Sample(static spacing =>
        Assert.Equal(FreeSpace.LossDb(spacing, 150e6), SameStructure.HorizontalDb(spacing, 150e6, 0, 0), 0.02));

    [Fact]
    public void Isolation_slant_meets_both_ends_and_lies_between_0_and_the_cap() =>
        Gen.Select(Gen.Double[0.01, 60], Gen.Double[0.01, 60], Gen.Double[50e6, 1e9], Gen.Double[-3, 15]).Sample(static (v, h, f, gain) =>
        {
            Assert.InRange(SameStructure.SlantDb(v, h, f, gain, gain), 0, SameStructure.CapDb);
            Assert.Equal(SameStructure.VerticalDb(v, f), SameStructure.SlantDb(v, 1e-9, f, gain, gain), 1e-4);
            Assert.Equal(SameStructure.HorizontalDb(h, f, gain, gain), SameStructure.SlantDb(1e-9, h, f, gain, gain), 1e-4);
            Assert.True(SameStructure.VerticalDb(2 * v, f) >= SameStructure.VerticalDb(v, f));
            Assert.True(SameStructure.HorizontalDb(2 * h, f, gain, gain) >= SameStructure.HorizontalDb(h, f, gain, gain));
        });

    [Fact]
    public void Predict_is_between_connectors_and_has_its_remarks()
    {
        PathGeometry geometry = new() { FrequencyHz = 146e6, TransmitterGainDbi = 6, ReceiverGainDbi = 6 };
        PathResult above = SameStructure.Spaced(6.096, 0).Predict(geometry);
        Assert.Equal(46.90, above.ConnectorLossDb!.Value, 0.006);
        Assert.Null(above.BasicLossDb);
        Assert.IsType<PathRemark.IsolationApproximate>(Assert.Single(above.Remarks));
        Assert.Equal(new PathBasis.OnOneStructure(6.096, 0), above.Basis);

        PathResult beside = SameStructure.Spaced(0, 3).Predict(geometry);
        Assert.Contains(new PathRemark.GainAntennasNear(), beside.Remarks);
        PathRemark.SpacingUnderWavelength near = Assert.Single(
            SameStructure.Spaced(1, 1).Predict(geometry).Remarks.OfType<PathRemark.SpacingUnderWavelength>());
        Assert.Equal((Math.Sqrt(2), geometry.WavelengthM), (near.SpacingM, near.WavelengthM));
        Assert.Contains(new PathRemark.IsolationCapped(), SameStructure.Spaced(30, 0).Predict(geometry).Remarks);
        Assert.NotNull(SameStructure.Spaced(0, 0).Predict(geometry).Refused);
        Assert.Throws<ArgumentOutOfRangeException>(() => SameStructure.Spaced(-1, 0));
    }
}
