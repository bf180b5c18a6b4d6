using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Sources;

/// <summary>Finds logs of one receiver that cover the same time: their moments would count twice.</summary>
internal static class LogOverlaps
{
    public static void Report(SiteDocument site, IReadOnlyDictionary<string, ObservationLog> logs, DiagnosticBag diagnostics)
    {
        HashSet<string> receivers = [.. site.Receivers.Select(static r => r.Name)];
        List<ObservationLog> before = [];
        HashSet<string> paths = new(StringComparer.Ordinal);
        foreach (FileReference reference in site.Evidence.OfType<LogEvidence>().Select(static l => l.Log))
        {
            if (!paths.Add(reference.Path))
            {
                diagnostics.Error(
                    reference.NamedIn, reference.At.Line, reference.At.Column, $"'{reference.Path}' is named twice", "keep one of the two");
            }
            else if (logs.TryGetValue(reference.Path, out ObservationLog? log) && log.Rows.Count > 0)
            {
                if (before.Find(b => b.Names.Any(n => receivers.Contains(n) && log.Names.Contains(n))
                    && b.Rows[0].Time < log.Rows[^1].Time && log.Rows[0].Time < b.Rows[^1].Time) is { } other)
                {
                    diagnostics.Error(
                        reference.NamedIn, reference.At.Line, reference.At.Column,
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"'{reference.Path}' covers time that '{other.File}' covers too, "
                                + $"until {Earlier(other, log):yyyy-MM-ddTHH:mm:ss}"),
                        "put both into one file, a column for each name");
                }

                before.Add(log);
            }
        }
    }

    private static DateTimeOffset Earlier(ObservationLog a, ObservationLog b) =>
        a.Rows[^1].Time < b.Rows[^1].Time ? a.Rows[^1].Time : b.Rows[^1].Time;
}
