using Spurless.Signals.Listening;
using Spurless.Sites.Recordings;

namespace Spurless.Sites.Tests.Recordings;

public sealed class HeardLogTests
{
    private static Transmission On(double fromS, double toS, double? hz = null) =>
        new() { StartS = fromS, EndS = toS, CentreHz = hz, Kinds = [] };

    private static string Row(HeardRow row) => row.Time.ToString("HH:mm:ss.f", System.Globalization.CultureInfo.InvariantCulture) + " "
        + string.Concat(row.On.Select(static on => on switch { true => '1', false => '0', _ => '-' }));

    [Fact]
    public void Make_ofAudio_isOneColumnThatEnds()
    {
        Heard heard = new(10, null, false, 0, 4_800, [On(1.5, 4), On(6, 10.2)], null);

        HeardLog log = HeardLogs.Make(heard, null, null);

        Assert.Equal(["interference"], log.Names);
        Assert.False(log.TimeKnown);
        Assert.Equal(["00:00:00.0 0", "00:00:01.5 1", "00:00:04.0 0", "00:00:06.0 1", "00:00:10.0 -"], log.Rows.Select(Row));
    }

    [Fact]
    public void Make_ofABand_hasAColumnACarrierInRealTime()
    {
        DateTimeOffset start = new(2031, 3, 4, 19, 2, 0, TimeSpan.Zero);
        Heard heard = new(10, start, true, 144e6, 146e6, [On(0, 5, 145.050_1e6), On(2, 5, 145.6e6), On(6, 8, 145.049_9e6)], null);

        HeardLog log = HeardLogs.Make(heard, null, null);

        Assert.Equal(["145.0499 MHz", "145.6000 MHz"], log.Names);
        Assert.True(log.TimeKnown);
        Assert.Equal(
            ["19:02:00.0 10", "19:02:02.0 11", "19:02:05.0 00", "19:02:06.0 10", "19:02:08.0 00", "19:02:10.0 --"], log.Rows.Select(Row));
    }

    /// <summary>Between the stretches that a recorder kept nobody looked: neither on nor off.</summary>
    [Fact]
    public void Make_ofARecordingWithGaps_leavesThemOpen()
    {
        Heard heard = new(20, null, true, 144e6, 146e6, [On(1, 4, 145.1e6), On(14, 16, 145.6e6)], null)
        {
            Recorded = [(0, 5), (12, 20)],
        };

        HeardLog log = HeardLogs.Make(heard, null, null);

        Assert.Equal(
            ["00:00:00.0 00", "00:00:01.0 10", "00:00:04.0 00", "00:00:05.0 --", "00:00:12.0 00", "00:00:14.0 01", "00:00:16.0 00",
                "00:00:20.0 --"],
            log.Rows.Select(Row));
    }

    /// <summary>
    /// Two that end together, one measured 40 ms behind the other: what changes there is left open, who stays on is still on.
    /// </summary>
    [Fact]
    public void Make_ofEndsAtOnce_leavesOpenWhatChanges()
    {
        Heard heard = new(
            10, null, true, 144e6, 146e6, [On(0, 10, 145.1e6), On(2, 5, 145.3e6), On(2, 5.04, 145.6e6)], null);

        HeardLog log = HeardLogs.Make(heard, null, null);

        Assert.Equal(["00:00:00.0 100", "00:00:02.0 111", "00:00:05.0 1--", "00:00:05.0 100", "00:00:10.0 ---"], log.Rows.Select(Row));
    }
}
