using Spurless.Pages.Shell;

namespace Spurless.Pages.Tests.Shell;

public class HowFarTests
{
    [Theory]
    [InlineData(0, null, "0 % done")]
    [InlineData(0.409, null, "40 % done")]
    [InlineData(0.409, 2.2, "40 % done, about 3 s left")]
    [InlineData(0.409, 0.2, "40 % done")] // over before it is read
    [InlineData(0.995, 0.01, "almost done")] // '100 % done, about 0 s left' would be said while it still runs
    [InlineData(1.0, 0.0, "almost done")]
    [InlineData(1.7, null, "almost done")]
    [InlineData(-0.2, null, "0 % done")]
    [InlineData(double.NaN, null, "0 % done")]
    public void Run_is_told_by_what_is_done_and_left(double fraction, double? seconds, string says) =>
        Assert.Equal(says, HowFar.Says(fraction, seconds is { } s ? TimeSpan.FromSeconds(s) : null));
}
