using Spurless.Mixing.Causes;
using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>
/// Studies the joint site and leaves of it what neither side has by itself. A product is new where an emitter of the other side takes part:
/// on the site's receivers one of the newcomer's, on the newcomer's one of the site's. So is a cause that concerns such an emitter.
/// </summary>
/// <remarks>
/// Causes that all carriers make together (blocking, oscillator noise) are there without the newcomer too, only weaker. Such a one is new
/// as a whole where its verdict is worse than without the other side; else the other side's share in it counts: what its carriers alone
/// make.
/// </remarks>
internal sealed class JointStudy
{
    private readonly NewcomerSites _sites;
    private readonly StudyOptions _options;
    private readonly IProgress<SearchProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly IReadOnlyList<ReceiverFindings> _alone;

    public JointStudy(
        NewcomerSites sites, StudyOptions options, IProgress<SearchProgress>? progress, CancellationToken cancellationToken)
    {
        (_sites, _options, _progress, _cancel) = (sites, options, progress, cancellationToken);
        // Of the separate studies only the other causes are wanted, and whether anything lands at all.
        StudyOptions causes = options with { Top = 1, LongLists = null };
        SiteDocument joint = sites.Joint.Document;
        LoadedSite newcomer = sites.Part(
            [.. joint.Receivers.Skip(sites.SiteReceivers)], [.. joint.Emitters.Skip(sites.SiteEmitters)]);
        _alone = [.. Whole(sites.Site, causes, Treatment.None), .. Whole(newcomer, causes, Treatment.None)];
    }

    /// <summary>What is new on every receiver.</summary>
    public IReadOnlyList<NewcomerReceiver> All() =>
        Study([.. Enumerable.Range(0, _sites.Joint.Document.Receivers.Count)], Treatment.None, _options);

    /// <summary>What is new on one receiver with something put in.</summary>
    public NewcomerReceiver One(int receiver, Treatment treatment) =>
        Study([receiver], treatment, _options with { LongLists = null })[0];

    /// <summary>The names of the emitters that a receiver does not have without the other side.</summary>
    public IReadOnlyList<string> OtherSide(int receiver) =>
        [.. _sites.Joint.Document.Emitters.Where((_, e) => IsOther(receiver, e)).Select(static e => e.Name)];

    private bool IsOther(int receiver, int emitter) => receiver < _sites.SiteReceivers
        ? emitter >= _sites.SiteEmitters
        : emitter < _sites.SiteEmitters;

    private List<NewcomerReceiver> Study(int[] which, Treatment treatment, StudyOptions options)
    {
        StudyPart part = new()
        {
            Receivers = which,
            Choice = (int receiver, in ProductRecord product) =>
            {
                for (int i = 0; i < product.Signals; i++)
                {
                    if (IsOther(which[receiver], product.Emitter(i)))
                    {
                        return true;
                    }
                }

                return false;
            },
            Fall = (_, emitter) => treatment.FallOf(emitter),
        };
        StudyResult joint = StudyService.RunPart(treatment.In(_sites.Joint), part, options, _progress, _cancel);
        List<NewcomerReceiver> all = [];
        for (int i = 0; i < which.Length; i++)
        {
            all.Add(Of(which[i], joint.Receivers[i], Share(which[i], treatment)));
        }

        return all;
    }

    private NewcomerReceiver Of(int receiver, ReceiverFindings joint, ReceiverFindings? share)
    {
        HashSet<string> others = new(OtherSide(receiver), StringComparer.Ordinal);
        ReceiverFindings alone = _alone[receiver];
        List<NewCause> causes = [];
        foreach (OtherCause cause in joint.OtherCauses)
        {
            OtherCause? before = alone.OtherCauses.FirstOrDefault(c => IsSame(c, cause));
            bool isNew = cause.Finding.Cause switch
            {
                CauseKind.Outside => before is null,
                _ when IsSum(cause) => before is null || Badness(cause.Verdict) > Badness(before.Verdict),
                _ => EmittersOf(cause).Any(others.Contains),
            };
            if (isNew)
            {
                causes.Add(new NewCause(cause, IsSum(cause) ? SumOf.All : null));
            }
        }

        causes.AddRange((share?.OtherCauses ?? []).Where(c => IsSum(c) && !causes.Exists(n => IsSame(n.Cause, c)))
            .Select(static c => new NewCause(c, SumOf.OtherSide)));
        causes =
        [
            .. causes.OrderBy(static c => c.Cause.Verdict)
                .ThenByDescending(static c => c.Cause.DesenseDb ?? 0)
                .ThenBy(static c => c.Cause.Cause, StringComparer.Ordinal)
                .ThenBy(static c => c.Cause.Emitter, StringComparer.Ordinal),
        ];
        return new NewcomerReceiver
        {
            Findings = joint with { OtherCauses = [.. causes.Select(static c => c.Cause)] },
            OfNewcomer = receiver >= _sites.SiteReceivers,
            Causes = causes,
        };
    }

    /// <summary>What the other side's carriers alone do to a receiver; null where it has none.</summary>
    private ReceiverFindings? Share(int receiver, Treatment treatment)
    {
        SiteDocument joint = _sites.Joint.Document;
        EmitterEntry[] others = [.. joint.Emitters.Where((_, e) => IsOther(receiver, e))];
        // The products do not matter here: the shortest search there is.
        StudyOptions causes = _options with { Top = 1, LongLists = null, Orders = (2, 2), Signals = 1 };
        return others.Length == 0 ? null : Whole(_sites.Part([joint.Receivers[receiver]], others), causes, treatment)[0];
    }

    private IReadOnlyList<ReceiverFindings> Whole(LoadedSite site, StudyOptions options, Treatment treatment) =>
        site.Document.Receivers.Count == 0 ? [] : StudyService.RunPart(
            site,
            new StudyPart
            {
                Receivers = [.. Enumerable.Range(0, site.Document.Receivers.Count)],
                Fall = (_, emitter) => treatment.FallOf(emitter),
            },
            options,
            null,
            _cancel).Receivers;

    /// <summary>The emitters that a cause concerns by name.</summary>
    internal static IEnumerable<string> EmittersOf(OtherCause cause) => ((string?[])[cause.Emitter, cause.Finding.Modulated])
        .OfType<string>()
        .Concat(cause.Product?.Terms.Select(static t => t.Name) ?? []);

    /// <summary>Whether a cause is a sum over all carriers.</summary>
    internal static bool IsSum(OtherCause cause) => cause.Finding.Cause is CauseKind.Blocking or CauseKind.ReciprocalMixing;

    private static bool IsSame(OtherCause one, OtherCause other) =>
        one.Finding.Cause == other.Finding.Cause && one.Stage == other.Stage;

    // Not known may be harmful.
    private static int Badness(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => 3,
        Verdict.Unknown => 2,
        Verdict.Marginal => 1,
        _ => 0,
    };
}
