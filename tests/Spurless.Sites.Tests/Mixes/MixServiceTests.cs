using Spurless.Sites.Mixes;

namespace Spurless.Sites.Tests.Mixes;

public class MixServiceTests
{
    /// <summary>By hand: 466.1 - 2 x 160.525 = 145.05 MHz, of order 3.</summary>
    [Fact]
    public void Ask_finds_the_sum_and_keeps_the_question()
    {
        MixQuestion question = new() { FrequencyHz = 145_050_000, CarriersHz = [160_525_000, 466_100_000] };
        MixAnswer answer = MixService.Ask(question, null, TestContext.Current.CancellationToken).Answer!;
        Assert.Same(question, answer.Question);
        Assert.Contains(answer.Mixtures, static m =>
            m is { Order: 3, OffsetHz: 0 } && m.Terms.Any(static t => t is { FrequencyHz: 160_525_000, Coefficient: -2 }));
    }

    [Fact]
    public void Ask_more_than_are_listed_is_refused()
    {
        // Sixty carriers on a raster of 25 kHz: their sums and differences of order 9 lie on it, far more than the two million of a list.
        MixQuestion question = new()
        {
            FrequencyHz = 145_000_000,
            CarriersHz = [.. Enumerable.Range(0, 60).Select(static i => 145_025_000L + (25_000 * i))],
            Orders = (9, 9),
            Signals = 5,
        };
        Outcome<MixAnswer> outcome = MixService.Ask(question, null, TestContext.Current.CancellationToken);
        Assert.Null(outcome.Answer);
        Assert.Contains("mixtures land there", outcome.Refusal!.What, StringComparison.Ordinal);
    }
}
