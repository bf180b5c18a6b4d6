using Spurless.Pages.Shell;

namespace Spurless.Pages.Tests.Shell;

/// <summary>What one page may tell before it is slowed down. Expected figures: PerSecond and AtOnce by hand.</summary>
public class EventRateTests
{
    [Fact]
    public void Take_beyond_what_is_taken_at_once_waits_for_its_share()
    {
        SetClock clock = new();
        EventRate.Allowance allowance = new(clock);
        for (int i = 0; i < EventRate.AtOnce; i++)
        {
            Assert.Equal(TimeSpan.Zero, allowance.Take());
        }

        Assert.Equal(1.0 / EventRate.PerSecond, allowance.Take().TotalSeconds, 6);
        Assert.Equal(2.0 / EventRate.PerSecond, allowance.Take().TotalSeconds, 6);
    }

    [Fact]
    public void Take_at_the_pace_of_a_hand_never_waits()
    {
        SetClock clock = new();
        EventRate.Allowance allowance = new(clock);
        for (int i = 0; i < 10_000; i++)
        {
            Assert.Equal(TimeSpan.Zero, allowance.Take());
            clock.Pass(TimeSpan.FromSeconds(1.0 / 60)); // a slider in motion tells with every picture
        }
    }

    /// <summary>A page that waits as it is told gets 200 a second through, however long it goes on.</summary>
    [Fact]
    public void Take_without_end_lets_the_stated_rate_through()
    {
        SetClock clock = new();
        EventRate.Allowance allowance = new(clock);
        TimeSpan passed = TimeSpan.Zero;
        const int Messages = 5_000;
        for (int i = 0; i < Messages; i++)
        {
            TimeSpan wait = allowance.Take();
            clock.Pass(wait);
            passed += wait;
        }

        // (5,000 - 400 at once) / 200 a second = 23 s; a tick of the clock is lost now and then.
        Assert.Equal((Messages - EventRate.AtOnce) / (double)EventRate.PerSecond, passed.TotalSeconds, 0.01);
    }

    private sealed class SetClock : TimeProvider
    {
        private long _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => _now;

        public void Pass(TimeSpan time) => _now += time.Ticks;
    }
}
