using CsCheck;
using Spurless.Signals.Listening;
using Spurless.Sites.Recordings;

namespace Spurless.Sites.Tests.Recordings;

/// <summary>A log of what was on against asking each moment by itself.</summary>
public sealed class HeardLogPropertyTests
{
    [Fact]
    public void Make_of_any_transmissions_says_at_every_moment_what_was_on() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[0.01, 20], Gen.OneOf(145.05e6, 145.6e6, 145.7e6)).Array[0, 8].Sample(static spans =>
        {
            const double duration = 110;
            Transmission[] all = [.. spans.Select(static s => new Transmission
            {
                StartS = s.Item1, EndS = Math.Min(duration, s.Item1 + s.Item2), CentreHz = s.Item3, Kinds = [],
            })];
            HeardLog log = HeardLogs.Make(new Heard(duration, null, true, 144e6, 146e6, all, null), null, null);
            Assert.Equal(all.Select(static t => t.CentreHz).Distinct().Count(), log.Names.Count);
            Assert.Equal(log.Rows.Select(static r => r.Time).Order(), log.Rows.Select(static r => r.Time));
            Assert.All(log.Rows[^1].On, static on => Assert.Null(on));
            double[] carriers = [.. all.Select(static t => t.CentreHz!.Value).Distinct().Order()];
            for (int i = 0; i + 1 < log.Rows.Count; i++)
            {
                double from = Second(log.Rows[i]), to = Second(log.Rows[i + 1]);
                Assert.True(to > from);
                // Between two rows nothing changes: the middle stands for all of it. Times are in milliseconds.
                double middle = (from + to) / 2;
                for (int c = 0; c < carriers.Length; c++)
                {
                    bool on = all.Any(t => t.CentreHz == carriers[c] && middle > t.StartS + 0.0006 && middle < t.EndS - 0.0006);
                    bool maybe = all.Any(t => t.CentreHz == carriers[c] && middle > t.StartS - 0.0006 && middle < t.EndS + 0.0006);
                    bool open = carriers.Length > 1 && to - from < 0.1 && log.Rows[i].On[c] is null;
                    Assert.True(log.Rows[i].On[c] == on || maybe || open, $"{carriers[c]} at {middle}");
                }
            }

            static double Second(HeardRow row) => (row.Time - new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero)).TotalSeconds;
        });
}
