using Spurless.Radio.Quantities;
using Spurless.Signals.Listening;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Recordings;

/// <summary>What a recording witnesses, as the log that <c>locate</c> takes.</summary>
/// <param name="Names">Receivers and emitters that were observed.</param>
/// <param name="Rows">From each moment on, until the next: who was on, by <paramref name="Names"/>; the last row, all null, ends the
/// log.</param>
/// <param name="TimeKnown">Whether the moments are real; else they count from 2000-01-01T00:00:00Z, and only their differences mean
/// anything.</param>
public sealed record HeardLog(IReadOnlyList<string> Names, IReadOnlyList<HeardRow> Rows, bool TimeKnown);

/// <summary>What was observed from a moment on.</summary>
/// <param name="Time">The moment.</param>
/// <param name="On">On (for a receiver: the interference was heard), off, or null for not observed.</param>
public sealed record HeardRow(DateTimeOffset Time, IReadOnlyList<bool?> On);

/// <summary>
/// Makes the log of a recording: of audio the interference on one receiver, of a band every emitter and receiver of the site that lies in
/// it.
/// </summary>
public static class HeardLogs
{
    private const double EdgeShare = 0.02;

    // What the begins and ends of transmissions in a band scatter by.
    private const double EdgeS = 0.1;
    private const double LeastReachHz = 3_000;

    /// <summary>Makes the log.</summary>
    /// <param name="heard">What was heard.</param>
    /// <param name="site">The site whose names the columns have, or null.</param>
    /// <param name="receiver">The receiver on whose channel audio was recorded; null for the site's first.</param>
    public static HeardLog Make(Heard heard, SiteDocument? site, string? receiver)
    {
        ArgumentNullException.ThrowIfNull(heard);
        List<(string Name, List<(double FromS, double ToS)> On)> columns = heard.IsBand ? Band(heard, site) : [(
            receiver ?? site?.Receivers[0].Name ?? "interference", [.. heard.Transmissions.Select(static t => (t.StartS, t.EndS))])];
        DateTimeOffset start = heard.Start ?? new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);
        SortedSet<double> moments = [0];
        foreach ((double fromS, double toS) in columns.SelectMany(static c => c.On))
        {
            moments.Add(Math.Round(Math.Max(0, fromS), 3));
            moments.Add(Math.Round(Math.Min(heard.DurationS, toS), 3));
        }

        // Between the stretches that were recorded nobody looked.
        (double FromS, double ToS)[] recorded = [.. heard.Recorded.Select(static r => (Math.Round(r.FromS, 3), Math.Round(r.ToS, 3)))];
        foreach ((double fromS, double toS) in recorded)
        {
            moments.Add(fromS);
            moments.Add(toS);
        }

        double end = Math.Round(heard.DurationS, 3);
        List<HeardRow> rows =
        [
            .. moments.Where(m => m < end).Select(m => new HeardRow(
                start.AddSeconds(m), [.. columns.Select(c => recorded.Any(r => m >= r.FromS && m < r.ToS)
                    ? c.On.Exists(on => m >= Math.Round(on.FromS, 3) && m < Math.Round(on.ToS, 3)) : (bool?)null)])),
            new HeardRow(start.AddSeconds(end), [.. columns.Select(static _ => (bool?)null)]),
        ];
        if (columns.Count > 1)
        {
            LeaveOpen(rows);
        }

        return new HeardLog([.. columns.Select(static c => c.Name)], rows, heard.Start is not null);
    }

    /// <summary>
    /// Two that come or go together are measured some hundredths of a second apart: what changes at either end of a row shorter than that
    /// is left open in it, for it must not stand as 'heard while one was off'.
    /// </summary>
    private static void LeaveOpen(List<HeardRow> rows)
    {
        List<HeardRow> seen = [.. rows];
        for (int i = 1; i + 1 < seen.Count; i++)
        {
            if ((seen[i + 1].Time - seen[i].Time).TotalSeconds < EdgeS)
            {
                rows[i] = new HeardRow(seen[i].Time, [.. seen[i].On.Select(
                    (on, c) => on == seen[i - 1].On[c] && on == seen[i + 1].On[c] ? on : null)]);
            }
        }
    }

    private static List<(string, List<(double, double)>)> Band(Heard heard, SiteDocument? site)
    {
        double edge = EdgeShare * (heard.HighHz - heard.LowHz);
        bool InBand(double hz) => hz > heard.LowHz + edge && hz < heard.HighHz - edge;
        List<(double, double)> On(double hz, double reach) =>
            [.. heard.Transmissions.Where(t => Math.Abs(t.CentreHz!.Value - hz) <= reach).Select(static t => (t.StartS, t.EndS))];
        if (site is null)
        {
            // Without names: a column a carrier, those within 3 kHz are one.
            List<double> carriers = [];
            foreach (double hz in heard.Transmissions.Select(static t => t.CentreHz!.Value).Order())
            {
                if (carriers.Count == 0 || hz - carriers[^1] > LeastReachHz)
                {
                    carriers.Add(hz);
                }
            }

            return [.. carriers.Select(hz => (MegahertzText.Of(hz, 4) + " MHz", On(hz, LeastReachHz)))];
        }

        return
        [
            .. site.Receivers.Where(r => InBand(r.Frequency.Hertz))
                .Select(r => (r.Name, On(r.Frequency.Hertz, Math.Max(LeastReachHz, r.Channel.Hertz / 2.0)))),
            .. site.Emitters.Where(e => InBand(e.Frequency.Hertz))
                .Select(e => (e.Name, On(e.Frequency.Hertz, Math.Max(LeastReachHz, e.BandwidthHz / 4.0)))),
        ];
    }
}
