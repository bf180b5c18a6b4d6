using System.Collections.Immutable;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>One plan: a search of the whole band, scored channel by channel by the study's own scorer.</summary>
internal sealed class PlanRun
{
    private readonly PlanQuestion _question;
    private readonly int _receiver;
    private readonly IProgress<SearchProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly PlanGrid _grid;
    private readonly Retuning _retuning;
    private readonly FastSearch _search = new();
    private readonly PlanTaken?[] _taken;
    private readonly ImmutableArray<ImmutableArray<int>> _exclusive;
    private readonly SiteDocument _document;
    private ProductRecord[] _onAll = [];

    public PlanRun(PlanQuestion question, int receiver, IProgress<SearchProgress>? progress, CancellationToken cancel)
    {
        (_question, _receiver, _progress, _cancel) = (question, receiver, progress, cancel);
        _document = question.Site.Document;
        _grid = new PlanGrid(question, receiver);
        _retuning = new Retuning(question);
        _taken = [.. Enumerable.Range(0, _grid.Count).Select(_grid.Taken)];
        _exclusive = [.. _retuning.Exclusive.Select(static g => (ImmutableArray<int>)[.. g])];
    }

    public Outcome<PlanAnswer> Run()
    {
        if (Tallies(_receiver) is not { } tallies)
        {
            return new Refusal(
                FormattableString.Invariant($"more than {PlanHits.Most:N0} mixtures can land on the channels of this band"),
                "write a higher floor or fewer orders under search in the site file, or a narrower band");
        }

        Tell(0.6);
        List<PlanElsewhere>?[] elsewhere = _question.ChannelsOnly ? new List<PlanElsewhere>?[_grid.Count] : Elsewhere();
        Tell(0.75);
        int[] offered = [.. Enumerable.Range(0, _grid.Count).Where(j => _taken[j] is null)];
        Array.Sort(offered, (a, b) => Compare(tallies, a, b));
        PlanChannel[] channels = [.. offered.Select(j => Channel(j, tallies[j], elsewhere[j]))];
        PlanTogether? together = _question.Count is { } count
            ? new PlanSets(_retuning, _grid, _receiver, offered, tallies, _question.Options, _search, _cancel).Best(count)
            : null;
        Tell(0.9);
        return new PlanAnswer
        {
            Question = _question,
            Receiver = _grid.Entry.Name,
            PresentHz = _grid.Entry.Frequency.Hertz,
            Transmitters =
            [
                .. _grid.Own.Select((o, i) => new PlanTransmitter(
                    _document.Emitters[o].Name, _document.Emitters[o].Frequency.Hertz, _grid.ShiftsHz[i])),
            ],
            Channels = _grid.Count,
            Offered = channels,
            NotOffered = [.. _taken.OfType<PlanTaken>()],
            Looks = [.. channels.Take(_question.ChannelsOnly ? 0 : PlanQuestion.Looked).Select(Look)],
            Together = together,
            Orders = _retuning.Orders,
            Signals = _retuning.Signals,
            Marks = _grid.Marks(),
            WithTheShift =
            [
                .. (offered.Length == 0 ? [] : _onAll.Select(p => tallies[offered[0]].Harms(p)).OfType<PlanProduct>())
                    .OrderByDescending(static p => p.OverNoiseDb)
                    .ThenBy(static p => string.Join(' ', p.Terms.Select(static t => t.Name)), StringComparer.Ordinal),
            ],
        };
    }

    /// <summary>By harmful, marginal, worst level, frequency.</summary>
    private static int Compare(PlanTally[] tallies, int a, int b)
    {
        int c = tallies[a].Harmful.CompareTo(tallies[b].Harmful);
        c = c != 0 ? c : tallies[a].Marginal.CompareTo(tallies[b].Marginal);
        c = c != 0 ? c : (tallies[a].WorstMicroDb ?? long.MinValue).CompareTo(tallies[b].WorstMicroDb ?? long.MinValue);
        return c != 0 ? c : a.CompareTo(b);
    }

    private void Tell(double fraction)
    {
        _cancel.ThrowIfCancellationRequested();
        _progress?.Report(new SearchProgress(fraction, 0));
    }

    private PlanChannel Channel(int channel, PlanTally tally, List<PlanElsewhere>? elsewhere)
    {
        (double? sum, bool bound) = tally.Sum(_cancel);
        return new PlanChannel
        {
            FrequencyHz = _grid.FrequencyHz(channel),
            Harmful = tally.Harmful,
            Marginal = tally.Marginal,
            Unknown = tally.Unknown,
            SumOverNoiseDb = sum,
            SumIsBound = bound,
            Worst = tally.Worst,
            Nearest = tally.Nearest,
            Elsewhere = elsewhere ?? [],
        };
    }

    /// <summary>All emitters as they stand while the receiver is on a channel.</summary>
    private (int Index, long FrequencyHz)[] EmittersOn(int channel)
    {
        (int Index, long FrequencyHz)[] all = [.. _retuning.Emitters.Select(static (e, i) => (i, e.FrequencyHz))];
        for (int i = 0; i < _grid.Own.Count; i++)
        {
            all[_grid.Own[i]].FrequencyHz = _grid.FrequencyHz(channel) + _grid.ShiftsHz[i];
        }

        return all;
    }

    /// <summary>
    /// What is made in a receiver on every channel: all mixtures for the one that is moved, those with our own transmitter for another.
    /// Null where there are too many.
    /// </summary>
    private PlanTally[]? Tallies(int receiver)
    {
        bool moves = receiver == _receiver;
        long stands = _document.Receivers[receiver].Frequency.Hertz;
        (int[] Greatest, bool Flat) referral = moves
            ? _retuning.Referral(receiver, _question.FromHz, _question.ToHz)
            : _retuning.Referral(receiver, stands, stands);
        IReadOnlyList<EmitterSetup>[] emitters = new IReadOnlyList<EmitterSetup>[_grid.Count];
        ProductScorer?[] scorers = new ProductScorer?[_grid.Count];
        Parallel.For(0, _grid.Count, new ParallelOptions { CancellationToken = _cancel }, j =>
        {
            if (_taken[j] is null)
            {
                (int Index, long FrequencyHz)[] on = EmittersOn(j);
                emitters[j] = _retuning.At(on);
                ReceiverSetup setup = _retuning.Receiver(receiver, moves ? _grid.FrequencyHz(j) : stands, on);
                scorers[j] = new ProductScorer(setup, emitters[j], referral);
            }
        });
        if (Array.TrueForAll(scorers, static s => s is null))
        {
            return new PlanTally[_grid.Count];
        }

        PlanHits hits = new();
        Find(receiver, Retuning.Bound(scorers.OfType<ProductScorer>()), hits);
        if (moves)
        {
            _onAll = _grid.Count > 1 && _grid.Own.Count == 1 ? [.. hits.OnAll(_grid.Count).Where(With)] : [];
        }

        return hits.Overflowed ? null : hits.Score(scorers, j => emitters[j], _exclusive, _question.Options, _cancel);
    }

    private bool With(ProductRecord record) => Enumerable.Range(0, record.Signals).Any(t => record.Emitter(t) == _grid.Own[0]);

    private void Find(int receiver, SearchReceiver bound, PlanHits hits)
    {
        bool moves = receiver == _receiver;
        SearchProblem problem = new()
        {
            Emitters = [.. _retuning.At(EmittersOn(0)).Select(static e => new SearchEmitter(e.FrequencyHz, e.BandwidthHz, e.NoiseLike))],
            Receivers = [bound with { FrequencyHz = moves ? _question.FromHz : bound.FrequencyHz }],
            ExclusiveGroups = _exclusive,
            MinOrder = _retuning.Orders.Lowest,
            MaxOrder = _retuning.Orders.Highest,
            MaxSignals = _retuning.Signals,
        };
        if (_grid.Own.Count < 2)
        {
            BandProblem band = new()
            {
                Search = problem,
                Channels = _grid.Count,
                StepHz = moves ? _question.RasterHz : 0,
                Moving = _grid.Own.Count == 0 ? null : _grid.Own[0],
                MovingStepHz = _question.RasterHz,
                OnlyWithMoving = !moves,
            };
            BandSearch.Run(band, _search, hits, moves ? new Share(_progress, 0.5) : null, _cancel);
            return;
        }

        // Several that move have no straight line in common: channel by channel.
        for (int j = 0; j < _grid.Count && !hits.Overflowed; j++)
        {
            if (_taken[j] is null)
            {
                SearchProblem one = problem with
                {
                    Emitters =
                    [
                        .. _retuning.At(EmittersOn(j)).Select(static e => new SearchEmitter(e.FrequencyHz, e.BandwidthHz, e.NoiseLike)),
                    ],
                    Receivers = [problem.Receivers[0] with { FrequencyHz = moves ? _grid.FrequencyHz(j) : bound.FrequencyHz }],
                };
                _search.Run(one, new OnOne(hits, j, moves ? null : [.. _grid.Own]), null, _cancel);
            }
        }
    }

    private List<PlanElsewhere>?[] Elsewhere()
    {
        List<PlanElsewhere>?[] all = new List<PlanElsewhere>?[_grid.Count];
        for (int r = 0; _grid.Own.Count > 0 && r < _document.Receivers.Count; r++)
        {
            if (r == _receiver || Tallies(r) is not { } tallies)
            {
                continue;
            }

            for (int j = 0; j < _grid.Count; j++)
            {
                if (_taken[j] is null && tallies[j].Any)
                {
                    PlanScore score = tallies[j].Score;
                    (all[j] ??= []).Add(new PlanElsewhere(
                        _document.Receivers[r].Name, score.Harmful, score.Marginal, score.Unknown, score.WorstOverNoiseDb));
                }
            }
        }

        return all;
    }

    /// <summary>A whole study of one channel.</summary>
    private PlanLook Look(PlanChannel channel)
    {
        _cancel.ThrowIfCancellationRequested();
        StudyOptions options = _question.Options with { Top = 1_000 };
        StudyResult study = StudyService.Run(
            MovedSite.Of(_question.Site, _receiver, channel.FrequencyHz, _question.ShiftHz), options, null, _cancel);
        HashSet<string> own = [.. _grid.Own.Select(i => _document.Emitters[i].Name)];
        return new PlanLook(
            channel.FrequencyHz,
            study.Receivers[_receiver].Products.TakeWhile(static p => p.Verdict == Verdict.Harmful)
                .Count(static p => p.Mechanism == Mechanism.Transmitter),
            [.. study.Receivers[_receiver].OtherCauses.Where(static c => c.Verdict == Verdict.Harmful)],
            [
                .. study.Receivers.Where((_, r) => r != _receiver)
                    .SelectMany(r => r.OtherCauses.Where(c => c.Verdict == Verdict.Harmful && c.Emitter is { } e && own.Contains(e))
                        .Select(c => (r.Name, c))),
            ]);
    }

    /// <summary>A channel's own search, where several emitters move.</summary>
    private sealed class OnOne(PlanHits hits, int channel, HashSet<int>? with) : IProductSink
    {
        public bool Add(in ProductRecord product)
        {
            for (int t = 0; with is not null && t < product.Signals; t++)
            {
                if (with.Contains(product.Emitter(t)))
                {
                    return hits.Add(product, channel, channel + 1);
                }
            }

            return with is not null || hits.Add(product, channel, channel + 1);
        }
    }

    /// <summary>Tells of a part of the work as the share of the whole that it is.</summary>
    private sealed class Share(IProgress<SearchProgress>? whole, double share) : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value) => whole?.Report(value with { Fraction = share * value.Fraction });
    }
}
