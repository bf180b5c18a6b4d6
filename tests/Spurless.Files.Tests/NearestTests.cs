namespace Spurless.Files.Tests;

public sealed class NearestTests
{
    // Distances counted by hand: one swap, one deletion, one insertion, two substitutions, case, and too far.
    [Theory]
    [InlineData("frequnecy", "frequency")]
    [InlineData("chanel", "channel")]
    [InlineData("leveel", "level")]
    [InlineData("pamer", "power")]
    [InlineData("LEVEL", "level")]
    [InlineData("freq", "frequency")]
    [InlineData("fr", null)]
    [InlineData("colour", null)]
    [InlineData("", null)]
    [InlineData("x", null)]
    public void Find_word_gives_the_nearest_known_one(string word, string? expected) =>
        Assert.Equal(expected, Nearest.Find(word, ["frequency", "channel", "level", "power", "at"]));
}
