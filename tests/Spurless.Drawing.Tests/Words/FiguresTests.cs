using Spurless.Drawing.Words;

namespace Spurless.Drawing.Tests.Words;

public class FiguresTests
{
    [Theory]
    [InlineData(-94.84, "-94.8")]
    [InlineData(-0.04, "0.0")]
    [InlineData(0.05, "0.1")]
    [InlineData(7616, "7 616.0")]
    public void Db_prints_one_decimal(double value, string expected) => Assert.Equal(expected, Figures.Db(value, Typography.Plain));

    [Theory]
    [InlineData(33.94, "+33.9")]
    [InlineData(-1.94, "\u22121.9")]
    [InlineData(0, "+0.0")]
    public void SignedDb_always_carries_a_sign(double value, string expected) =>
        Assert.Equal(expected, Figures.SignedDb(value, Typography.Fine));

    [Theory]
    [InlineData(145_050_000, "145.0500")]
    [InlineData(145_056_250, "145.05625")]
    [InlineData(145_056_251, "145.056251")]
    public void MegahertzExact_prints_four_decimals_or_as_many_as_needed(long hertz, string expected) =>
        Assert.Equal(expected, Figures.MegahertzExact(hertz));

    [Theory]
    [InlineData(12_500, "12.5")]
    [InlineData(8_000, "8.0")]
    [InlineData(7_616_000, "7\u202F616.0")]
    [InlineData(6_250, "6.25")]
    public void Kilohertz_prints_grouped(long hertz, string expected) => Assert.Equal(expected, Figures.Kilohertz(hertz, Typography.Fine));

    [Theory]
    [InlineData(-12_500, "\u221212.5")]
    [InlineData(0, "0")]
    [InlineData(6_250, "+6.25")]
    public void OffsetKilohertz_prints_sign(long hertz, string expected) =>
        Assert.Equal(expected, Figures.OffsetKilohertz(hertz, Typography.Fine));

    [Theory]
    [InlineData(1, "1st")]
    [InlineData(3, "3rd")]
    [InlineData(11, "11th")]
    [InlineData(22, "22nd")]
    public void Ordinal_follows_english(long position, string expected) => Assert.Equal(expected, Figures.Ordinal(position));

    [Theory]
    [InlineData(0.06, "6 %")]
    [InlineData(0.0225, "2.3 %")]
    [InlineData(0.15, "15 %")]
    [InlineData(0.0025, "0.25 %")]
    [InlineData(0.00001, "under 0.01 %")]
    public void Percent_prints_two_figures(double fraction, string expected) => Assert.Equal(expected, Figures.Percent(fraction));

    [Fact]
    public void Count_groups_thousands() => Assert.Equal("12 345 678", Figures.Count(12_345_678, Typography.Plain));

    [Theory]
    [InlineData("by usual ones, -140 to -160 dBc/Hz far out (-3 dB)", "by usual ones, \u2212140 to \u2212160 dBc/Hz far out (\u22123 dB)")]
    [InlineData("-2 dBm at co-op base 3-4, 12-metre", "\u22122 dBm at co-op base 3-4, 12-metre")]
    [InlineData("two - three", "two - three")]
    public void Signed_writes_the_minus_sign_before_figures_only(string plain, string fine)
    {
        Assert.Equal(fine, Typography.Fine.Signed(plain));
        Assert.Equal(plain, Typography.Plain.Signed(plain));
    }

    [Theory]
    [InlineData(14.007, "14.1")] // 42.021 dB over the noise, a third of it at each carrier: 14.0 would leave 0.02 dB
    [InlineData(14.0, "14.0")]
    [InlineData(14.0000000001, "14.0")] // nothing but the rounding of a double
    [InlineData(0.01, "0.1")]
    [InlineData(0, "0.0")]
    public void AtLeastDb_is_never_rounded_down(double value, string printed) => Assert.Equal(printed, Figures.AtLeastDb(value));
}
