using Spurless.Mixing.Evidence;

namespace Spurless.Sites.Locating;

/// <summary>Finds the few moments of a log that speak most for the likeliest product and against the others.</summary>
internal static class DecidingMoments
{
    private const int Most = 3;
    private const int MostRivals = 12;

    /// <summary>Indices of rows, in the order of time: each leaves fewer rivals that see it as the likeliest product does.</summary>
    public static IReadOnlyList<int> Of(WeighedEvidence weighed, LoggedRows logged)
    {
        if (logged.Moments is not { } moments || weighed.Hypotheses[weighed.Leader].Product < 0)
        {
            return [];
        }

        int leading = weighed.Hypotheses[weighed.Leader].Product;
        EvidenceProduct leader = weighed.Case.Products[leading];
        List<EvidenceProduct> rivals =
        [
            .. weighed.Case.Products.Where((_, p) => p != leading).Take(MostRivals),
        ];
        List<int> rows = [];
        while (rows.Count < Most && rivals.Count > 0)
        {
            int best = -1;
            List<EvidenceProduct> struck = [];
            for (int r = 0; r < moments.Rows; r++)
            {
                if (moments.HeardAt(r) is { } heard && Fits(moments.ClassOf(leader, r), heard) && !rows.Contains(r))
                {
                    List<EvidenceProduct> against = rivals.FindAll(p => Strikes(moments.ClassOf(p, r), heard));
                    if (against.Count > struck.Count)
                    {
                        (best, struck) = (r, against);
                    }
                }
            }

            if (best < 0)
            {
                break;
            }

            rows.Add(best);
            rivals.RemoveAll(struck.Contains);
        }

        rows.Sort();
        return rows;
    }

    /// <summary>
    /// Emitters whose own signal on the channel the log makes a hundred times less likely than anything else; those of the likeliest
    /// product are left out, where it is that they are not alone.
    /// </summary>
    public static IReadOnlyList<(int Emitter, LogCounts Counts)> RuledOut(WeighedEvidence weighed, LoggedRows logged)
    {
        if (logged.Moments is not { } moments)
        {
            return [];
        }

        int leading = weighed.Hypotheses[weighed.Leader].Product;
        double other = moments.CountsOf(null).LogLikelihood - Math.Log(100);
        return
        [
            .. Enumerable.Range(0, logged.Emitters)
                .Where(e => moments.Observes(e) && (leading < 0 || weighed.Case.Products[leading].TimesOf(e) == 0))
                .Select(e => (Emitter: e, Counts: moments.CountsOf(Alone(e))))
                .Where(c => c.Counts.LogLikelihood < other)
                .OrderBy(static c => c.Counts.LogLikelihood),
        ];
    }

    private static EvidenceProduct Alone(int emitter) => new()
    {
        Terms = [new EvidenceTerm(emitter, 1)],
        Places = [new EvidencePlace { Kind = MakingPlace.Outside }],
    };

    private static bool Fits(MomentClass moment, bool heard) => moment != (heard ? MomentClass.Off : MomentClass.On);

    private static bool Strikes(MomentClass moment, bool heard) => moment == (heard ? MomentClass.Off : MomentClass.On);
}
