using Spurless.Radio.Noise;

namespace Spurless.Radio.Tests.Noise;

public sealed class ExternalNoiseTests
{
    /// <summary>Source: docs/checks.md 2.6, computed from the constants of ITU-R P.372, which are from memory.</summary>
    [Theory]
    [InlineData("city", 146e6, 16.85)]
    [InlineData("residential", 146e6, 12.55)]
    [InlineData("rural", 146e6, 7.25)]
    [InlineData("quiet rural", 146e6, -8.30)]
    [InlineData("quiet  rural", 1e6, 53.6)]
    [InlineData("6 dB", 146e6, 6)]
    [InlineData("-3.5 dB", 440e6, -3.5)]
    public void OverKt0Db_by_surroundings(string text, double hertz, double expected)
    {
        ExternalNoise noise = ExternalNoise.Parse(text);
        Assert.Equal(expected, noise.OverKt0Db(hertz)!.Value, 0.006);
        Assert.Equal(noise, ExternalNoise.Parse(noise.ToString()));
        Assert.False(noise.IsExtrapolatedAt(146e6));
    }

    [Fact]
    public void None_counts_nothing()
    {
        Assert.Null(ExternalNoise.Parse("none").OverKt0Db(146e6));
        Assert.Equal(default, ExternalNoise.Parse("none"));
    }

    [Theory]
    [InlineData("city", 435e6, true)]
    [InlineData("quiet rural", 0.29e6, true)]
    [InlineData("rural", 250e6, false)]
    [InlineData("6 dB", 435e6, false)]
    [InlineData("none", 435e6, false)]
    public void IsExtrapolatedAt_out_of_the_formulas_range(string text, double hertz, bool expected) =>
        Assert.Equal(expected, ExternalNoise.Parse(text).IsExtrapolatedAt(hertz));

    [Theory]
    [InlineData("town", "'town' is no kind of surroundings; write none, quiet rural, rural, residential, city, or dB over kT0 like 6 dB")]
    [InlineData("6", "'6' has no unit; write 6 dB")]
    [InlineData("", "nothing stands here; write none, quiet rural, rural, residential, city, or dB over kT0 like 6 dB")]
    public void TryParse_of_something_else_says_what_instead(string text, string expected)
    {
        Assert.False(ExternalNoise.TryParse(text, out _, out string problem));
        Assert.Equal(expected, problem);
    }
}
