using CsCheck;
using Spurless.Radio.Emissions;

namespace Spurless.Radio.Tests.Emissions;

/// <summary>
/// Source of figures: ITU Radio Regulations Appendix 1 and 47 CFR 2.202 as listed in docs/checks.md 5.5 (there marked seen or seen
/// (secondary)).
/// </summary>
public sealed class EmissionTests
{
    [Theory]
    [InlineData("16K0F3E", 16_000, 'F', '3', 'E')]
    [InlineData("11K2F3E", 11_200, 'F', '3', 'E')]
    [InlineData("7K60FXW", 7_600, 'F', 'X', 'W')]
    [InlineData("8K10F1E", 8_100, 'F', '1', 'E')]
    [InlineData("2K70J3E", 2_700, 'J', '3', 'E')]
    [InlineData("100HA1A", 100, 'A', '1', 'A')]
    [InlineData("249HF1B", 249, 'F', '1', 'B')]
    [InlineData("25K0D7W", 25_000, 'D', '7', 'W')]
    [InlineData("180KF8E", 180_000, 'F', '8', 'E')]
    [InlineData("5G65W7D", 5_650_000_000, 'W', '7', 'D')]
    [InlineData("N0N", 0, 'N', '0', 'N')]
    [InlineData("H100N0N", 1, 'N', '0', 'N')]
    public void TryParse_good_designator_gives_bandwidth_and_symbols(string text, long hertz, char first, char second, char third)
    {
        Assert.True(Emission.TryParse(text, out Emission emission, out string problem), problem);
        Assert.Equal(
            (hertz, first, second, third), (emission.BandwidthHz, emission.Modulation, emission.SignalNature, emission.Information));
        Assert.Null(emission.Detail);
        Assert.Equal(text, emission.ToString());
    }

    [Fact]
    public void TryParse_with_fourth_and_fifth_symbol_keeps_them()
    {
        Emission emission = Emission.Parse("11K0G3EJN");
        Assert.Equal((11_000, 'J', 'N', "G3E"), (emission.BandwidthHz, emission.Detail, emission.Multiplexing, emission.Class));
        Assert.Null(Emission.Parse("11K0G3EJ").Multiplexing);
    }

    [Theory]
    [InlineData("11K2Z3E", 'Z', 5)]
    [InlineData("11K25F3E", '5', 5)]
    [InlineData("11K2F4E", '4', 6)]
    [InlineData("11K2F3Z", 'Z', 7)]
    [InlineData("11K2F3EI", 'I', 8)]
    [InlineData("11K2F3EJZ", 'Z', 9)]
    [InlineData("11K2F3EJNN", 'N', 10)]
    [InlineData("1KK2F3E", 'K', 3)]
    [InlineData("1112F3E", '2', 4)]
    [InlineData("0K50F3E", '0', 1)]
    [InlineData("K500F3E", 'K', 1)]
    [InlineData("11k2F3E", 'k', 3)]
    [InlineData("11K2f3e", 'f', 5)]
    [InlineData("11K2 F3E", ' ', 5)]
    [InlineData("11.2F3E", '.', 3)]
    public void TryParse_bad_designator_names_the_bad_character(string text, char bad, int place)
    {
        Assert.False(Emission.TryParse(text, out _, out string problem));
        Assert.Contains($"'{bad}' as character {place}:", problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "nothing stands here; write an emission designator like 11K2F3E")]
    [InlineData("F3E", "'F3E' has no necessary bandwidth; write it in front, like 11K2F3E")]
    [InlineData(
        "NON", "'NON' has no necessary bandwidth; write it in front, like 11K2F3E (an unmodulated carrier is N0N, with the digit 0)")]
    [InlineData("11K2F3", "'11K2F3' ends within the class of emission; write three symbols after the bandwidth, like 11K2F3E")]
    [InlineData("11K", "'11K' ends within the bandwidth; write three digits and one of H, K, M, G, then the class, like 11K2F3E")]
    [InlineData("H000F3E", "'H000F3E' has the bandwidth 0; write a bandwidth above 0, or N0N for an unmodulated carrier")]
    public void TryParse_incomplete_designator_says_what_is_missing(string text, string expected)
    {
        Assert.False(Emission.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }

    /// <summary>The examples of RR Appendix 1 (docs/checks.md 5.5: seen, secondary); 999.6 Hz is computed by the rounding rule.</summary>
    [Theory]
    [InlineData(0.002, "H002")]
    [InlineData(0.1, "H100")]
    [InlineData(25.3, "25H3")]
    [InlineData(400, "400H")]
    [InlineData(2_400, "2K40")]
    [InlineData(6_000, "6K00")]
    [InlineData(12_500, "12K5")]
    [InlineData(180_400, "180K")]
    [InlineData(180_500, "181K")]
    [InlineData(180_700, "181K")]
    [InlineData(1_250_000, "1M25")]
    [InlineData(2_000_000, "2M00")]
    [InlineData(10_000_000, "10M0")]
    [InlineData(202_000_000, "202M")]
    [InlineData(5_650_000_000, "5G65")]
    [InlineData(999.6, "1K00")]
    public void FormatBandwidth_follows_the_regulations_examples(double hertz, string expected) =>
        Assert.Equal(expected, Emission.FormatBandwidth(hertz));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(1e12)]
    public void FormatBandwidth_out_of_range_is_refused(double hertz) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Emission.FormatBandwidth(hertz));

    /// <summary>
    /// Three significant digits: what is written reads back within half a digit (0.5 %), and writing that again changes nothing.
    /// </summary>
    [Fact]
    public void FormatBandwidth_reads_back_within_half_a_digit() =>
        Gen.Double[0, 11.9].Select(static lg => Math.Pow(10, lg)).Sample(
            static hertz =>
            {
                string written = Emission.FormatBandwidth(hertz);
                double read = Emission.Parse(written + "F3E").BandwidthMillihertz / 1000.0;
                Assert.InRange(read, hertz * 0.995, hertz * 1.005);
                Assert.Equal(written, Emission.FormatBandwidth(read));
            },
            iter: 5_000);
}
