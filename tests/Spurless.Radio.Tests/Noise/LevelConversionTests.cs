using CsCheck;
using Spurless.Radio.Noise;

namespace Spurless.Radio.Tests.Noise;

public sealed class LevelConversionTests
{
    /// <summary>Source: docs/checks.md 1.6, computed.</summary>
    [Theory]
    [InlineData(0.1, -126.99)]
    [InlineData(0.25, -119.03)]
    [InlineData(1, -106.99)]
    [InlineData(50, -73.01)]
    public void DbmFromMicrovolts_across_50_ohm_and_open(double microvolts, double dbm)
    {
        Assert.Equal(dbm, LevelConversion.DbmFromMicrovoltsPd(microvolts), 0.006);
        Assert.Equal(6.0206, LevelConversion.DbmFromMicrovoltsPd(microvolts) - LevelConversion.DbmFromMicrovoltsEmf(microvolts), 0.0001);
    }

    [Fact]
    public void MicrovoltsPd_of_0_dbm_is_223607() => Assert.Equal(223_607, LevelConversion.MicrovoltsPd(0), 0.5); // docs/checks.md 1.6

    [Fact]
    public void Conversions_there_and_back_change_nothing() => Gen.Double[-150, 60].Sample(static dbm =>
    {
        Assert.Equal(dbm, LevelConversion.DbmFromMicrovoltsPd(LevelConversion.MicrovoltsPd(dbm)), 1e-9);
        Assert.Equal(dbm, LevelConversion.DbmFromMicrovoltsEmf(LevelConversion.MicrovoltsEmf(dbm)), 1e-9);
        Assert.Equal(dbm, LevelConversion.DbmFromWatts(LevelConversion.Watts(dbm)), 1e-9);
    });

    /// <summary>Source: 3GPP 05.05 / 45.005 clause 5, rounded to 0.1 dB (docs/checks.md 2.1: seen); 146 MHz and the constant computed there
    /// with 77.2 and with 120 pi ohm for the impedance of space, which is 0.003 dB more than the 376.730 ohm used here.</summary>
    [Theory]
    [InlineData(460e6, 130.5, 0.06)]
    [InlineData(859e6, 135.9, 0.06)]
    [InlineData(925e6, 136.5, 0.06)]
    [InlineData(1795e6, 142.3, 0.06)]
    [InlineData(1920e6, 142.9, 0.06)]
    [InlineData(146e6, 120.49, 0.02)]
    [InlineData(1e6, 77.219, 0.0035)]
    public void FieldStrength_of_0_dbm_from_an_isotropic_antenna(double hertz, double expected, double tolerance) =>
        Assert.Equal(expected, LevelConversion.FieldStrengthDbuvPerMetre(0, hertz), tolerance);
}
