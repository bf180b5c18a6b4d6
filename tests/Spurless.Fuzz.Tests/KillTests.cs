using Spurless.Fuzz.Kills;

namespace Spurless.Fuzz.Tests;

/// <summary>What was said to be saved is there after a kill, and a file is the old text or the new one.</summary>
[Trait("Category", "Long")]
public class KillTests
{
    private const int Kills = 25;

    [Theory]
    [InlineData("pages")]
    [InlineData("out")]
    public async Task Save_that_is_killed_leaves_the_old_file_or_the_new_one(string way)
    {
        KillReport report = await KillRun.RunAsync(way, Kills, seed: 17);

        TestContext.Current.TestOutputHelper!.WriteLine(report.ToString());
        Assert.Equal(Kills, report.Kills);
        Assert.Equal((0, 0), (report.Lost, report.Torn));
        Assert.True(report.Saves >= Kills, $"{report.Saves} saves");
    }

    [Fact]
    public void Save_in_trouble_loses_nothing()
    {
        (string What, string Outcome, bool Held)[] all = [.. Trouble.Run(40, seed: 17)];

        Assert.Equal(3, all.Length);
        Assert.True(all.All(static t => t.Held), string.Join('\n', all.Select(static t => $"{t.What}: {t.Outcome}")));
    }
}
