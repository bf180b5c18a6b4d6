using System.Collections.Immutable;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>Takes what the search of a band finds, and scores it channel by channel as a study would.</summary>
internal sealed class PlanHits : IBandSink
{
    /// <summary>Most mixtures that are kept, each with the channels that it can hit: 230 MB.</summary>
    public const int Most = 4_000_000;

    private readonly List<(ProductRecord Record, int From, int To)> _hits = [];

    /// <summary>Whether there were more than are kept.</summary>
    public bool Overflowed { get; private set; }

    public bool Add(in ProductRecord product, int from, int after)
    {
        Overflowed = _hits.Count >= Most;
        if (!Overflowed)
        {
            _hits.Add((product, from, after));
        }

        return !Overflowed;
    }

    /// <summary>What can hit on all of so many channels alike: it comes with the distance of the transmitter.</summary>
    public IEnumerable<ProductRecord> OnAll(int channels) =>
        _hits.Where(h => h.From == 0 && h.To == channels).Select(static h => h.Record);

    /// <summary>What lands on every channel.</summary>
    /// <param name="scorers">The receiver on every channel; null for one that is not asked about.</param>
    /// <param name="emitters">The emitters on every channel.</param>
    /// <param name="exclusive">Emitters of which at most one is on.</param>
    /// <param name="options">The thresholds.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public PlanTally[] Score(
        IReadOnlyList<ProductScorer?> scorers,
        Func<int, IReadOnlyList<EmitterSetup>> emitters,
        ImmutableArray<ImmutableArray<int>> exclusive,
        StudyOptions options,
        CancellationToken cancellationToken)
    {
        PlanTally[] tallies = [.. scorers.Select((s, j) => new PlanTally(s, s is null ? [] : emitters(j), exclusive, options))];

        // Each worker has channels of its own, so that what a channel comes to does not depend on who is quicker.
        int block = Math.Max(16, (scorers.Count / (8 * Environment.ProcessorCount)) + 1);
        int blocks = (scorers.Count + block - 1) / block;
        ParallelOptions parallel = new() { CancellationToken = cancellationToken };
        Parallel.For(0, blocks, parallel, b =>
        {
            (int first, int end) = (b * block, Math.Min(scorers.Count, (b + 1) * block));
            foreach ((ProductRecord record, int from, int to) in _hits)
            {
                for (int j = Math.Max(from, first); j < Math.Min(to, end); j++)
                {
                    if (scorers[j] is not null)
                    {
                        tallies[j].Add(record);
                    }
                }
            }
        });
        return tallies;
    }
}

/// <summary>What lands on one channel, product by product. Whatever the order in which they come, it comes to the same.</summary>
internal sealed class PlanTally(
    ProductScorer? scorer, IReadOnlyList<EmitterSetup> emitters, ImmutableArray<ImmutableArray<int>> exclusive, StudyOptions options)
{
    // Power is added up in whole units of so many milliwatts, far under any noise: the sum then does not depend on an order.
    private const double UnitMw = 1e-27;

    private readonly List<ScoredProduct> _kept = [];
    private UInt128 _sum;
    private ScoredProduct? _worst;
    private ScoredProduct? _nearest;
    private long _nearestOffset;

    public int Harmful { get; private set; }

    public int Marginal { get; private set; }

    public int Unknown { get; private set; }

    /// <summary>The worst over the noise in micro-dB; null for none.</summary>
    public long? WorstMicroDb => _worst?.InChannel - scorer?.NoiseFloor;

    public PlanScore Score => new(Harmful, Marginal, Unknown, WorstMicroDb is { } worst ? MicroDb.ToDecibels(worst) : null);

    public bool Any => Harmful + Marginal + Unknown > 0 || _worst is not null;

    public void Add(in ProductRecord record)
    {
        // The search was told a bound for all channels; an emitter may be known on some of them only.
        bool known = scorer!.Knows(record);
        ScoredProduct scored = scorer.Score(known == record.HasLevel ? record : record.Told(known));
        if (!scorer.Reaches(scored))
        {
            return;
        }

        if (!scored.HasLevel)
        {
            Unknown++;
            return;
        }

        Verdict verdict = FindingBuilder.VerdictOf(options, scored.InChannel - scorer.NoiseFloor);
        Harmful += verdict == Verdict.Harmful ? 1 : 0;
        Marginal += verdict == Verdict.Marginal ? 1 : 0;
        _sum += (UInt128)(Math.Pow(10, MicroDb.ToDecibels(scored.InChannel) / 10) / UnitMw);
        if (exclusive.Length > 0)
        {
            _kept.Add(scored);
        }

        if (_worst is not { } worst || Before(scored, worst))
        {
            _worst = scored;
        }

        long offset = Math.Abs(FrequencyHz(record) - scorer.FrequencyHz);
        if (_nearest is not { } nearest || offset < _nearestOffset || (offset == _nearestOffset && Before(scored, nearest)))
        {
            (_nearest, _nearestOffset) = (scored, offset);
        }
    }

    /// <summary>The sum over the noise in dB, the greatest of what can be on together, and whether it is a bound.</summary>
    public (double? OverNoiseDb, bool IsBound) Sum(CancellationToken cancellationToken)
    {
        double milliwatts = (double)_sum * UnitMw;
        bool bound = false;
        if (_kept.Count > 0)
        {
            _kept.Sort(static (x, y) => Before(x, y) ? -1 : Before(y, x) ? 1 : 0);
            (milliwatts, _, bound) = SumOnTogether.Of(_kept, exclusive, cancellationToken);
        }

        return milliwatts > 0
            ? ((10 * Math.Log10(milliwatts)) - MicroDb.ToDecibels(scorer!.NoiseFloor), bound)
            : (null, false);
    }

    public PlanProduct? Worst => Product(_worst);

    public PlanProduct? Nearest => Product(_nearest);

    /// <summary>A product as it stands on this channel, where it is harmful there; else null.</summary>
    public PlanProduct? Harms(in ProductRecord record)
    {
        if (scorer is null || !scorer.Knows(record))
        {
            return null;
        }

        ScoredProduct scored = scorer.Score(record);
        bool harms = scorer.Reaches(scored)
            && FindingBuilder.VerdictOf(options, scored.InChannel - scorer.NoiseFloor) == Verdict.Harmful;
        return harms ? Product(scored) : null;
    }

    private PlanProduct? Product(ScoredProduct? scored) => scored is not { } one
        ? null
        : new PlanProduct(
            new ProductOrder(emitters).Terms(one.Record),
            FrequencyHz(one.Record),
            MicroDb.ToDecibels(one.InChannel - scorer!.NoiseFloor));

    private long FrequencyHz(in ProductRecord record)
    {
        long sum = 0;
        for (int t = 0; t < record.Signals; t++)
        {
            sum += record.Coefficient(t) * emitters[record.Emitter(t)].FrequencyHz;
        }

        return sum;
    }

    /// <summary>By level, then order, then terms: a total order of distinct products.</summary>
    private static bool Before(in ScoredProduct x, in ScoredProduct y)
    {
        if (x.InChannel != y.InChannel)
        {
            return x.InChannel > y.InChannel;
        }

        if (x.Record.Order != y.Record.Order)
        {
            return x.Record.Order < y.Record.Order;
        }

        for (int t = 0; t < Math.Min(x.Record.Signals, y.Record.Signals); t++)
        {
            int c = x.Record.Emitter(t) != y.Record.Emitter(t)
                ? x.Record.Emitter(t).CompareTo(y.Record.Emitter(t))
                : y.Record.Coefficient(t).CompareTo(x.Record.Coefficient(t));
            if (c != 0)
            {
                return c < 0;
            }
        }

        return x.Record.Signals < y.Record.Signals;
    }
}
