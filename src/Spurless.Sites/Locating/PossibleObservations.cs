using Spurless.Mixing.Evidence;
using Spurless.Sites.Chains;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>
/// What can be looked at next with what a person has: pads, the folder's filters, emitters off or down, the offset, moments.
/// </summary>
internal sealed class PossibleObservations
{
    /// <summary>How many pieces of advice are given.</summary>
    public const int Given = 5;

    // A gain under this does not show in any figure.
    private const double LeastGainNats = 1e-3;
    private const int MostLeaders = 6;

    private static readonly double[] _padsDb = [3, 6, 10];

    private readonly WeighedEvidence _weighed;
    private readonly List<Observation> _asks = [];

    public PossibleObservations(
        LocateQuestion question, ReceiverFindings receiver, EvidenceReading reading, IReadOnlyList<ProductFinding> findings,
        WeighedEvidence weighed, double overNoiseDb)
    {
        _weighed = weighed;
        Filters = [.. question.Filters.Keys.Order(StringComparer.Ordinal)];
        IReadOnlyList<Observation> done = weighed.Case.Observations;
        foreach (int stage in new[] { 0, receiver.Chain.ActiveStages.Count - 1 }.Distinct())
        {
            _asks.AddRange(_padsDb.Where(a => !done.OfType<PadInLine>().Any(d => d.FirstStageBehind == stage && d.PadDb == a))
                .Select(a => new PadInLine { OverNoiseDb = overNoiseDb, PadDb = a, FirstStageBehind = stage }));
        }

        for (int f = 0; f < Filters.Count; f++)
        {
            Network network = question.Filters[Filters[f]];
            if (!question.Site.Document.Evidence.OfType<Documents.FilterTest>().Any(t => t.Inserted.Path == Filters[f]))
            {
                _asks.Add(reading.Filter(network, f, overNoiseDb, findings));
            }
        }

        HashSet<int> emitters = [.. weighed.Case.Products.SelectMany(static p => p.Terms).Select(static t => t.Emitter)];
        foreach (int emitter in emitters.Order().Where(e => !receiver.Carriers[e].HeldOff))
        {
            _asks.AddRange(new[] { double.PositiveInfinity, 3 }
                .Where(b => !done.OfType<EmitterDown>().Any(d => d.Emitter == emitter && d.ByDb == b))
                .Select(b => new EmitterDown { OverNoiseDb = overNoiseDb, Emitter = emitter, ByDb = b }));
        }

        if (!done.OfType<OffsetReading>().Any())
        {
            _asks.Add(new OffsetReading());
        }

        _asks.AddRange(Moments(weighed));
    }

    /// <summary>The filters at hand, by their index in advice.</summary>
    public IReadOnlyList<string> Filters { get; }

    /// <summary>The best of each kind, the greatest expected gain first.</summary>
    public IReadOnlyList<Advice> Best(CancellationToken cancellationToken)
    {
        HashSet<(int, int)> kinds = [];
        List<Advice> best = [];
        foreach (Advice advice in NextObservations.Rank(_weighed, _asks, cancellationToken))
        {
            if (best.Count == Given || advice.GainNats < LeastGainNats)
            {
                break;
            }

            if (kinds.Add(KindOf(advice.Ask)))
            {
                best.Add(advice);
            }
        }

        return best;
    }

    private static (int, int) KindOf(Observation ask) => ask switch
    {
        PadInLine pad => (0, pad.FirstStageBehind),
        FilterInLine => (1, 0),
        EmitterDown down => (2, down.Emitter),
        MomentToWaitFor moment => (3, moment.Off),
        _ => (4, 0),
    };

    /// <summary>Moments at which all emitters of one leading product are on and one that only another has is off.</summary>
    private static List<Observation> Moments(WeighedEvidence weighed)
    {
        int[] leaders =
        [
            .. Enumerable.Range(0, weighed.Case.Products.Count).OrderByDescending(weighed.OfProduct).Take(MostLeaders),
        ];
        List<Observation> moments = [];
        foreach (int one in leaders)
        {
            EvidenceProduct product = weighed.Case.Products[one];
            int[] on = [.. product.Terms.Select(static t => t.Emitter).Order()];
            foreach (int off in leaders.SelectMany(o => weighed.Case.Products[o].Terms).Select(static t => t.Emitter).Distinct().Order()
                .Where(e => !on.Contains(e)))
            {
                moments.Add(new MomentToWaitFor(on, off));
            }
        }

        return moments;
    }
}
