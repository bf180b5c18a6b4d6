using Spurless.Signals.Recognition.Paging;
using Spurless.Signals.Recognition.Squelch;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// Codewords of the standards against values computed apart from this project, or seen in public copies of the standards.
/// </summary>
public sealed class CodeTests
{
    /// <summary>
    /// ITU-R M.584: sync and idle (seen in public copies), address and message words (computed by two independent scripts).
    /// </summary>
    [Theory]
    [InlineData(0x7CD215D8u)]
    [InlineData(0x7A89C197u)]
    [InlineData(0x4B5A0780u)]
    [InlineData(0x4B5A1A25u)]
    [InlineData(0x000026ECu)]
    [InlineData(0x082919D5u)]
    [InlineData(0xC261572Cu)]
    [InlineData(0xB70C82D1u)]
    [InlineData(0x99999F47u)]
    [InlineData(0x95A393FCu)]
    [InlineData(0xCA8003E3u)]
    public void IsGood_publishedWord_isTrue(uint word)
    {
        Assert.True(PagingCode.IsGood(word));
        Assert.False(PagingCode.IsGood(word ^ 1));
        for (int bit = 1; bit < 32; bit++)
        {
            Assert.False(PagingCode.IsGood(word ^ 1u << bit));
            Assert.Equal(1, PagingCode.Errors(word ^ 1u << bit));
        }
    }

    /// <summary>Syndromes of single errors in idle (computed apart).</summary>
    [Theory]
    [InlineData(31, 0x3B4u)]
    [InlineData(16, 0x17Du)]
    [InlineData(1, 0x001u)]
    [InlineData(0, 0u)]
    public void Syndrome_singleError_isAsComputedApart(int bit, uint syndrome) =>
        Assert.Equal(syndrome, PagingCode.Syndrome(PagingSignal.Idle ^ 1u << bit));

    /// <summary>Two wrong bits are told from none and one (the code's distance is 6 with parity).</summary>
    [Fact]
    public void Errors_ofTwoBits_areTwo()
    {
        for (int a = 1; a < 32; a++)
        {
            for (int b = a + 1; b < 32; b++)
            {
                Assert.Equal(2, PagingCode.Errors(PagingCode.Sync ^ 1u << a ^ 1u << b));
            }
        }
    }

    /// <summary>Golay words, seen in public copies as independent vectors.</summary>
    [Theory]
    [InlineData("023", 0x763813)]
    [InlineData("031", 0x51F819)]
    [InlineData("114", 0x35E84C)]
    [InlineData("754", 0x20F9EC)]
    [InlineData("047", 0x0FD827)]
    [InlineData("431", 0x6C5919)]
    public void Word_ofACode_isThePublishedOne(string code, int word)
    {
        Assert.Equal(word, SquelchCode.Word(code));
        for (int turn = 0; turn < 23; turn++)
        {
            Assert.Equal(code, SquelchCode.Of((word >> turn | word << (23 - turn)) & 0x7FFFFF));
        }
    }

    /// <summary>Pairs of polarity seen in public copies.</summary>
    [Theory]
    [InlineData("023", "047")]
    [InlineData("025", "244")]
    [InlineData("754", "116")]
    [InlineData("172", "036")]
    public void TurnedOver_isThePublishedPartner(string code, string other)
    {
        Assert.Equal(other, SquelchCode.TurnedOver(code));
        Assert.Equal(code, SquelchCode.TurnedOver(other));
    }

    /// <summary>The table of squelch tones has 47 and steps by 1.5 to 3.6 % (the closest: 196.6 to 199.5, 206.5 to 203.5).</summary>
    [Fact]
    public void Tones_standApartByMoreThanTheTolerance()
    {
        double[] tones = CtcssRecogniser.Tones;
        Assert.Equal(47, tones.Length);
        for (int i = 1; i < tones.Length; i++)
        {
            Assert.True(tones[i] / tones[i - 1] > 1.0135, $"{tones[i]}");
        }
    }
}
