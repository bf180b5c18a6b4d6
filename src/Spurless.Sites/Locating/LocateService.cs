using Spurless.Mixing.Evidence;
using Spurless.Mixing.Search;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>Weighs what was observed at a site: which mixture it is, and where it is made.</summary>
public static class LocateService
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far the search of the study has come, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The weighed evidence; a refusal where the study has none.</returns>
    public static Outcome<LocateAnswer> Ask(
        LocateQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        Outcome<StudyResult> study = StudyService.Ask(
            new StudyQuestion { Site = question.Site, Options = question.Options }, progress, cancellationToken);
        return study.Answer is { } result ? Weigh(question, result, cancellationToken) : study.Refusal!;
    }

    /// <summary>Weighs the evidence by a study that is at hand.</summary>
    /// <param name="question">The question.</param>
    /// <param name="study">The study of its site.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static LocateAnswer Weigh(LocateQuestion question, StudyResult study, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(study);
        return new LocateAnswer(question, study, [.. study.Receivers.Select(r => Weigh(question, r, advise: true, cancellationToken))]);
    }

    /// <summary>The same where the site file has evidence; null where it has none.</summary>
    /// <param name="site">The site.</param>
    /// <param name="study">Its study.</param>
    /// <param name="filters">Filters at hand.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static LocateAnswer? WithStudy(
        LoadedSite site, StudyResult study, IReadOnlyDictionary<string, Network> filters, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Document.Evidence.Count == 0
            ? null
            : Weigh(new LocateQuestion { Site = site, Options = study.Options, Filters = filters }, study, cancellationToken);
    }

    /// <summary>
    /// The evidence of one receiver weighed alone and without asking what to look at next: quick enough to follow what is being typed.
    /// </summary>
    /// <param name="question">The question; its site differs from the study's in its evidence alone.</param>
    /// <param name="receiver">What the study found on the receiver.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static LocatedReceiver Try(LocateQuestion question, ReceiverFindings receiver, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(receiver);
        return Weigh(question, receiver, advise: false, cancellationToken);
    }

    private static LocatedReceiver Weigh(
        LocateQuestion question, ReceiverFindings receiver, bool advise, CancellationToken cancellationToken)
    {
        EvidenceReading reading = new(question.Site, receiver);
        (List<ProductFinding> findings, int leftOut) = reading.Candidates();
        LoggedRows logged = LoggedRows.Of(question.Site, receiver);
        List<(Observation Observation, EvidenceEntry Entry)> observed = reading.Readings(findings, logged.Moments);
        if (logged.Moments is { } moments)
        {
            observed.Add((new LogReading(moments), question.Site.Document.Evidence.OfType<LogEvidence>().First()));
        }

        EvidenceCase evidence = new()
        {
            Products = reading.Products(findings),
            Observations = [.. observed.Select(static o => o.Observation)],
            ChannelHz = receiver.ChannelHz,
            Prior = question.Prior,
        };
        WeighedEvidence weighed = Weighing.Weigh(evidence, cancellationToken);
        int[] ranked = [.. Enumerable.Range(0, weighed.Hypotheses.Count)];
        Array.Sort(ranked, (a, b) => weighed.Posterior[a] != weighed.Posterior[b]
            ? weighed.Posterior[b].CompareTo(weighed.Posterior[a])
            : a.CompareTo(b));
        (double over, bool read) = OverNoise(weighed, ranked);
        PossibleObservations possible = new(question, receiver, reading, findings, weighed, over);
        return new LocatedReceiver
        {
            Findings = receiver,
            Products = findings,
            ProductsLeftOut = leftOut,
            Weighed = weighed,
            Entries = [.. observed.Select(static o => o.Entry)],
            Logged = logged,
            Ranked = ranked,
            Next = advise ? possible.Best(cancellationToken) : [],
            OverNoiseDb = over,
            OverNoiseRead = read,
            Misfits = weighed.Misfits(),
            Deciding = DecidingMoments.Of(weighed, logged),
            RuledOut = DecidingMoments.RuledOut(weighed, logged),
            Filters = possible.Filters,
        };
    }

    /// <summary>What is read now: the largest reading, else what the likeliest hypothesis with a level predicts, else 20 dB.</summary>
    private static (double OverNoiseDb, bool Read) OverNoise(WeighedEvidence weighed, int[] ranked)
    {
        if (weighed.Case.LevelFrom is >= 0 and var from)
        {
            return (((FallObservation)weighed.Case.Observations[from]).OverNoiseDb, true);
        }

        foreach (int h in ranked)
        {
            if (weighed.Hypotheses[h].OverNoiseDb is { } over)
            {
                return (Math.Clamp(over, 10, EvidenceCase.MostOverNoiseDb), false);
            }
        }

        return (20, false);
    }
}
