using Spurless.Files.Diagnostics;
using Spurless.Sites.Locating;
using Spurless.Sites.Plans;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>Finds what would make a site's receivers quiet: every way out is put into the site and the site studied again.</summary>
public static class CureService
{
    /// <summary>So many sets of steps are studied at most; beyond, the list says that it was cut.</summary>
    private const int MostSets = 600;

    /// <summary>Channels looked at on each side of the present one for another, and how many of the best are tried.</summary>
    private const int ChannelsEachSide = 40;
    private const int BestChannels = 3;

    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far it is, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The ways out; a refusal where there is no such receiver, or the site cannot be studied.</returns>
    public static Outcome<CureAnswer> Ask(
        CureQuestion question, IProgress<CureProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        int[] asked =
        [
            .. question.Site.Document.Receivers.Select(static (r, i) => (r, i))
                .Where(p => question.Receiver is null || p.r.Name == question.Receiver).Select(static p => p.i),
        ];
        if (asked.Length == 0)
        {
            return new Refusal(
                $"there is no receiver named '{question.Receiver}'",
                "name one of: " + string.Join(", ", question.Site.Document.Receivers.Select(static r => r.Name)));
        }

        Outcome<StudyResult> study = StudyService.Ask(
            new StudyQuestion { Site = question.Site, Options = question.Options }, null, cancellationToken);
        if (study.Answer is not { } result)
        {
            return study.Refusal!;
        }

        LocateAnswer? evidence = LocateService.WithStudy(question.Site, result, question.Filters, cancellationToken);
        return new CureAnswer(
            question,
            result,
            evidence,
            [.. asked.Select(i => Of(question, i, result.Receivers[i], evidence?.Receivers[i], progress, cancellationToken))]);
    }

    /// <summary>
    /// A way out studied again, for its picture: the receiver with it, and as it is in the place of 'without the filter'.
    /// </summary>
    /// <param name="question">What was asked.</param>
    /// <param name="cured">The receiver's ways out.</param>
    /// <param name="cure">One of them.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static ReceiverFindings After(
        CureQuestion question, CuredReceiver cured, Cure cure, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(cured);
        ArgumentNullException.ThrowIfNull(cure);
        CureTrial trial = new(question, cured.Index, cured.Before, null);
        return (trial.Studied(cure.Steps, new StudyMemory(), cancellationToken)?.Found
            ?? throw new ArgumentException("It is no way out of this list.", nameof(cure))) with
        {
            WithoutFilter = cured.Before with { WithoutFilter = null },
            WantedLossDb = cure.WantedLossDb,
        };
    }

    private static CuredReceiver Of(
        CureQuestion question,
        int receiver,
        ReceiverFindings before,
        LocatedReceiver? evidence,
        IProgress<CureProgress>? progress,
        CancellationToken cancellation)
    {
        CureTrial trial = new(question, receiver, before, evidence);
        ProductFinding[] harmful = [.. before.Products.Where(static p => p.Verdict == Verdict.Harmful)];
        AttenuationNeeds needs = AttenuationNeeds.Of(before, question.Options.HarmfulFromDb);
        CuredReceiver none = new()
        {
            Before = before,
            Index = receiver,
            Needs = needs,
            Cures = [],
            Tried = 0,
            Dominated = 0,
            Useless = 0,
            Combined = false,
            MadeElsewhere = [.. harmful.Where(static p => p.Mechanism != Mechanism.Receiver)],
        };
        if (harmful.Length == 0)
        {
            return none;
        }

        CureWork work = new(trial, none, harmful.Length, progress, cancellation);
        TriedStep[] Alone(IEnumerable<CureStep> steps) =>
        [
            .. work.Try([.. steps.Select(static s => new[] { s })]).Select(t => new TriedStep(
                t.Cure.Steps[0], t.Cure, [.. harmful.Select(h => h.OverNoiseDb!.Value - Level(t.Levels, h))])),
        ];

        // A band is weighed before another channel is tried: whoever looks on has a list by then.
        TriedStep[] tried =
        [
            .. Alone(CureCandidates.Of(question, question.Site.Document.Receivers[receiver], before)),
            .. Alone(OtherChannels(question, before, cancellation)),
        ];
        double[] over = [.. harmful.Select(h => h.OverNoiseDb!.Value - question.Options.HarmfulFromDb)];
        bool combined = !work.Ends;
        IReadOnlyList<TriedStep> useful = combined ? CureCombination.Undominated(tried) : [];
        for (int size = 2; size <= 3 && !work.Ends; size++)
        {
            work.Try([.. CureCombination.Sets(useful, over, size).Take(MostSets).Select(static s => s.ToArray())]);
        }

        return work.List() with { Combined = combined };
    }

    /// <summary>The best channels round the present one.</summary>
    private static IEnumerable<CureStep> OtherChannels(CureQuestion question, ReceiverFindings before, CancellationToken cancellation)
    {
        Outcome<PlanAnswer> plan = PlanService.Ask(
            new PlanQuestion
            {
                Site = question.Site,
                FromHz = Math.Max(before.FrequencyHz % before.ChannelHz, before.FrequencyHz - (ChannelsEachSide * before.ChannelHz)),
                ToHz = before.FrequencyHz + (ChannelsEachSide * before.ChannelHz),
                RasterHz = before.ChannelHz,
                Receiver = before.Name,
                Options = question.Options,
                ChannelsOnly = true,
            },
            cancellationToken: cancellation);
        return plan.Answer is not { } answer
            ? []
            : answer.Offered.Where(c => c.Harmful < before.Harmful && c.FrequencyHz != before.FrequencyHz).Take(BestChannels)
                .Select(c => new ChannelStep(c.FrequencyHz, c.FrequencyHz - before.FrequencyHz));
    }

    private static double Level(Dictionary<ProductRow, double> levels, ProductFinding product) =>
        levels.TryGetValue(product.Row, out double over) ? over : double.NegativeInfinity;
}
