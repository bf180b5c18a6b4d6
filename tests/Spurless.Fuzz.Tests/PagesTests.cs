using Spurless.Fuzz.Pages;

namespace Spurless.Fuzz.Tests;

[Trait("Category", "Long")]
public class PagesTests
{
    [Fact]
    public async Task Pages_that_move_and_write_at_once_lose_nothing()
    {
        using ManyPages many = new(emitters: 300);
        PagesReport report = await many.RunAsync(pages: 20, moves: 10, pauseS: 0, seed: 17);

        TestContext.Current.TestOutputHelper!.WriteLine(PagesCommand.Words(report));
        Assert.Equal(200, report.Moves);
        Assert.True(report.Edits >= 20, PagesCommand.Words(report));
        Assert.Equal((0, 0), (report.Refused, report.Lost));
    }
}
