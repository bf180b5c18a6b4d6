using Spurless.CommandLine;

namespace Spurless.Acceptance.Frame;

public class ProgressLineTests
{
    [Fact]
    public void Report_short_work_shows_nothing()
    {
        StringWriter to = new();
        Clock clock = new();
        using (ProgressLine line = new(to, "searching", clock))
        {
            clock.Pass(0.4);
            line.Report(0.5);
        }

        Assert.Empty(to.ToString());
    }

    [Fact]
    public void Report_long_work_says_how_long_still_and_wipes_itself_out()
    {
        StringWriter to = new();
        Clock clock = new();
        using (ProgressLine line = new(to, "searching", clock))
        {
            clock.Pass(2);
            line.Report(0.25); // a quarter took 2 s: three quarters take 6 s
            Assert.Equal("\rsearching ... 25 %, 6 s left", to.ToString());
            line.Report(0.26); // at once again: not drawn
            Assert.Equal("\rsearching ... 25 %, 6 s left", to.ToString());
        }

        Assert.Equal("\rsearching ... 25 %, 6 s left\r" + new string(' ', "searching ... 25 %, 6 s left".Length) + "\r", to.ToString());
    }

    [Fact]
    public void Report_with_what_it_has_so_far_says_it_behind_the_time()
    {
        StringWriter to = new();
        Clock clock = new();
        using ProgressLine line = new(to, "fitting", clock);
        clock.Pass(2);
        line.Report(0.25, "best so far -40.2 dB of difference");
        Assert.Equal("\rfitting ... 25 %, 6 s left, best so far -40.2 dB of difference", to.ToString());
    }

    [Fact]
    public void Report_no_place_to_draw_does_nothing()
    {
        Clock clock = new();
        using ProgressLine line = new(null, "searching", clock);
        clock.Pass(100);
        line.Report(0.5);
    }

    private sealed class Clock : TimeProvider
    {
        private long _now;

        public override long TimestampFrequency => 1000;

        public void Pass(double seconds) => _now += (long)(seconds * 1000);

        public override long GetTimestamp() => _now;
    }
}
