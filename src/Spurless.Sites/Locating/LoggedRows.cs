using Spurless.Mixing.Evidence;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>The rows of all logs that listened to one receiver, one after the other.</summary>
/// <param name="Logs">The logs.</param>
/// <param name="Rows">The rows with the log that each stands in; null between two logs.</param>
/// <param name="Moments">What they say; null without a log.</param>
public sealed record LoggedRows(
    IReadOnlyList<ObservationLog> Logs, IReadOnlyList<(ObservationLog Log, ObservationRow Row)?> Rows, LogMoments? Moments)
{
    /// <summary>Number of the site's emitters, observed or not.</summary>
    public int Emitters { get; init; }

    internal static LoggedRows Of(LoadedSite site, ReceiverFindings receiver)
    {
        ObservationLog[] logs =
        [
            .. site.Document.Evidence.OfType<LogEvidence>().Select(l => site.Logs.GetValueOrDefault(l.Log.Path)).OfType<ObservationLog>()
                .Where(l => l.Names.Contains(receiver.Name)),
        ];
        if (logs.Length == 0)
        {
            return new LoggedRows([], [], null);
        }

        string[] names = [.. logs.SelectMany(static l => l.Names).Distinct(StringComparer.Ordinal)];
        Dictionary<string, int> columnOf = names.Select(static (n, i) => (n, i)).ToDictionary(
            static p => p.n, static p => p.i, StringComparer.Ordinal);
        List<(ObservationLog, ObservationRow)?> rows = [];
        List<IReadOnlyList<bool?>> states = [];
        foreach (ObservationLog log in logs)
        {
            if (rows.Count > 0)
            {
                rows.Add(null);
                states.Add(new bool?[names.Length]);
            }

            int[] to = [.. log.Names.Select(n => columnOf[n])];
            bool asItStands = log.Names.SequenceEqual(names);
            foreach (ObservationRow row in log.Rows)
            {
                rows.Add((log, row));
                states.Add(asItStands ? row.On : Spread(row.On, to, names.Length));
            }
        }

        return new LoggedRows(logs, rows, LogMoments.Of(
            states, columnOf[receiver.Name],
            [.. receiver.Carriers.Select(c => columnOf.GetValueOrDefault(c.Emitter, -1))],
            [.. receiver.Carriers.Select(c => c.Follows == receiver.Name)]))
        {
            Emitters = receiver.Carriers.Count,
        };
    }

    private static bool?[] Spread(IReadOnlyList<bool?> on, int[] to, int width)
    {
        bool?[] spread = new bool?[width];
        for (int i = 0; i < to.Length; i++)
        {
            spread[to[i]] = on[i];
        }

        return spread;
    }
}
