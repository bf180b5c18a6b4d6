using System.Globalization;

namespace Spurless.Fuzz.Pages;

/// <summary><c>fuzz/run pages</c>: many pages at once, then a long time of clicks.</summary>
internal static class PagesCommand
{
    public static async Task<int> RunAsync(string[] args, TextWriter to)
    {
        Arguments given = new(args);
        int seed = (int)(given.Number("--seed") ?? 1);
        bool good;
        using (ManyPages many = new((int)(given.Number("--emitters") ?? 300)))
        {
            PagesReport r = await many.RunAsync(
                (int)(given.Number("--pages") ?? 20), (int)(given.Number("--moves") ?? 60), given.Number("--pause") ?? 0, seed)
                .ConfigureAwait(false);
            to.WriteLine(Words(r));
            to.Flush();
            good = r is { Lost: 0, Refused: 0 };
        }

        double seconds = 60 * (given.Number("--minutes") ?? 10);
        if (seconds > 0)
        {
            using Clicks clicks = new(seed);
            ClicksReport r = await clicks.RunAsync(seconds, (s, mb) =>
                to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {s,6:0} s {mb,8:0.0} MB"))).ConfigureAwait(false);
            to.WriteLine(Words(r));
            good &= r.IsFlat;
        }

        return good ? 0 : 1;
    }

    /// <summary>A report in words.</summary>
    public static string Words(PagesReport r) => string.Create(CultureInfo.InvariantCulture,
        $"{r.Pages} pages, {r.Moves:#,0} moves to the picture: half within {r.MedianMs:0} ms, p95 {r.P95Ms:0} ms, p99 {r.P99Ms:0} ms; ")
        + string.Create(CultureInfo.InvariantCulture, $"{r.Edits} cells saved meanwhile, {r.Refused} refused, {r.Lost} lost");

    /// <summary>A report in words.</summary>
    public static string Words(ClicksReport r) => string.Create(CultureInfo.InvariantCulture,
        $"{r.Clicks:#,0} clicks in {r.Seconds:0} s: memory in use {r.FirstMb:0.0} MB in the second quarter, {r.LastMb:0.0} MB in the last")
        + (r.IsFlat ? "; flat" : "; it grows");
}
