using CsCheck;
using Spurless.Radio.Feedlines;

namespace Spurless.Radio.Tests.Feedlines;

public sealed class FeedlineTypeTests
{
    /// <summary>
    /// Source: docs/checks.md 4.6, typical dB per 100 m at 150 MHz, from memory (there and here): the range, not the middle, is what
    /// counts.
    /// </summary>
    [Theory]
    [InlineData("rg58", 19, 21)]
    [InlineData("rg213", 8.5, 9.5)]
    [InlineData("foam10", 4.7, 5.2)]
    [InlineData("corrugated-1/2", 2.6, 2.9)]
    [InlineData("corrugated-7/8", 1.4, 1.6)]
    public void LossDb_at_150_MHz_is_typical(string name, double least, double most)
    {
        Assert.True(FeedlineType.TryParse(name, out FeedlineType type, out string problem), problem);
        Assert.InRange(type.LossDb(100, 150e6), least, most);
    }

    [Fact]
    public void LossDb_grows_with_frequency_faster_than_the_root_and_slower_than_in_proportion() =>
        Gen.Select(Gen.Int[0, FeedlineType.All.Count - 1], Gen.Double[10e6, 500e6]).Sample(static (index, hertz) =>
        {
            FeedlineType type = FeedlineType.All[index];
            Assert.InRange(type.LossDb(30, 2 * hertz) / type.LossDb(30, hertz), Math.Sqrt(2), 2);
            Assert.Equal(2 * type.LossDb(15, hertz), type.LossDb(30, hertz), 1e-12);
        });

    /// <summary>Thicker lines of the list lose no more than thinner ones at VHF and UHF.</summary>
    [Fact]
    public void All_are_listed_by_falling_loss()
    {
        foreach (double hertz in new[] { 50e6, 145e6, 435e6 })
        {
            Assert.Equal(
                FeedlineType.All.Select(static t => t.Name),
                FeedlineType.All.OrderByDescending(t => t.LossDb(100, hertz)).Select(static t => t.Name));
        }
    }

    [Theory]
    [InlineData("RG-213", "rg213")]
    [InlineData("Rg 58", "rg58")]
    [InlineData("corrugated 1/2", "corrugated-1/2")]
    public void TryParse_takes_the_usual_spellings(string text, string name)
    {
        Assert.True(FeedlineType.TryParse(text, out FeedlineType type, out _));
        Assert.Equal(name, type.Name);
    }

    [Fact]
    public void TryParse_of_an_unknown_type_lists_the_known_ones()
    {
        Assert.False(FeedlineType.TryParse("rg999", out _, out string problem));
        Assert.StartsWith("'rg999' is no known type of feedline; write one of rg174, rg58,", problem, StringComparison.Ordinal);
    }

    /// <summary>The demo's feedline: 1.2 dB at 145 MHz by the square root of frequency (docs/checks.md 9).</summary>
    [Fact]
    public void ScaledLossDb_grows_with_the_square_root()
    {
        Assert.Equal(1.2, FeedlineType.ScaledLossDb(1.2, 145e6, 145e6), 1e-12);
        Assert.Equal(2.4, FeedlineType.ScaledLossDb(1.2, 145e6, 4 * 145e6), 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => FeedlineType.ScaledLossDb(1.2, 0, 145e6));
    }
}
