namespace Spurless.Sites.Newcomers;

/// <summary>
/// Finds the least that makes a receiver pass: kind by kind, each in tenths of a dB, each tried by studying the receiver again with it put
/// in. Path loss comes first, for a filter does not help there; then what leaves transmitters, what is made in them, and last the carriers.
/// </summary>
/// <param name="study">The study to ask again.</param>
/// <param name="receiver">Index of the receiver.</param>
/// <param name="siteEmitters">The site's emitters by name.</param>
/// <param name="harmfulFromDb">From where over the noise something is harmful.</param>
internal sealed class NeedSearch(JointStudy study, int receiver, IReadOnlySet<string> siteEmitters, double harmfulFromDb)
{
    // More than any attenuation that can be written.
    private const int MostTenths = 3000;

    private readonly IReadOnlyList<string> _others = study.OtherSide(receiver);
    private readonly List<NewcomerNeed> _needs = [];
    private readonly HashSet<string> _onChannel = new(StringComparer.Ordinal);
    private Treatment _treatment = Treatment.None;

    /// <summary>The needs of a receiver that does not pass.</summary>
    /// <param name="asItIs">What is new on it.</param>
    public IReadOnlyList<NewcomerNeed> Of(NewcomerReceiver asItIs)
    {
        IReadOnlyList<NewHarm> harms = Harms(asItIs);
        _onChannel.UnionWith(harms.Where(static h => h.Kind == NewcomerNeedKind.PathLoss).SelectMany(static h => h.Others.Keys));
        if (_onChannel.Count > 0)
        {
            harms = Add(NewcomerNeedKind.PathLoss, [.. _others.Where(_onChannel.Contains)], harms, OnlyPathLoss);
        }

        foreach (NewcomerNeedKind kind in (NewcomerNeedKind[])[NewcomerNeedKind.OutputFilter, NewcomerNeedKind.Isolator])
        {
            string[] makers = [.. harms.Where(h => h.Kind == kind).Select(static h => h.Maker!).Distinct(StringComparer.Ordinal)];
            foreach (string maker in makers)
            {
                harms = Add(kind, [maker], harms, h => h.Kind == kind && h.Maker == maker);
            }
        }

        string[] carriers =
        [
            .. harms.Where(static h => h.Kind == NewcomerNeedKind.CarrierAttenuation).SelectMany(static h => h.Others.Keys)
                .Where(e => !_onChannel.Contains(e)).Distinct(StringComparer.Ordinal),
        ];
        if (carriers.Length > 0)
        {
            string[] inOrder = [.. _others.Where(carriers.Contains)];
            Add(NewcomerNeedKind.CarrierAttenuation, inOrder, harms, static h => h.Kind == NewcomerNeedKind.CarrierAttenuation);
        }

        return _needs;
    }

    // What carriers do that stand on the channel or beside it a filter cannot end either.
    private bool OnlyPathLoss(NewHarm harm) => harm.Kind == NewcomerNeedKind.PathLoss
        || (harm.Kind == NewcomerNeedKind.CarrierAttenuation && harm.Others.Keys.All(_onChannel.Contains));

    private IReadOnlyList<NewHarm> Harms(NewcomerReceiver found) => NewHarm.Of(found, _others, harmfulFromDb);

    /// <summary>Puts in the least of a kind that ends some harms.</summary>
    /// <returns>What is harmful with it.</returns>
    private IReadOnlyList<NewHarm> Add(
        NewcomerNeedKind kind, string[] emitters, IReadOnlyList<NewHarm> harms, Func<NewHarm, bool> ends)
    {
        NewHarm[] ended = [.. harms.Where(ends)];
        bool atSite = kind is NewcomerNeedKind.OutputFilter or NewcomerNeedKind.Isolator
            ? siteEmitters.Contains(emitters[0])
            : kind == NewcomerNeedKind.CarrierAttenuation && !siteEmitters.Contains(emitters[0]);
        int guess = (int)Math.Clamp(ended.Max(static h => Math.Floor(10 * h.FallsDb / h.AllTimes)) + 1, 1, MostTenths);
        if (emitters.Length > 1 && !ended.Any(static h => h.IsSum))
        {
            int[] each = Lowered(ended, emitters, guess);
            Treatment treated = _treatment;
            for (int i = 0; i < emitters.Length; i++)
            {
                treated = each[i] > 0 ? treated.With(kind, [emitters[i]], each[i] / 10.0) : treated;
            }

            IReadOnlyList<NewHarm> left = Harms(study.One(receiver, treated));
            if (!left.Any(ends))
            {
                _needs.AddRange(emitters.Select((e, i) => new NewcomerNeed(kind, [e], atSite, each[i] / 10.0))
                    .Where(static n => n.Db > 0));
                _treatment = treated;
                return left;
            }
        }

        int? least = Least(guess, tenths => !Harms(study.One(receiver, With(tenths))).Any(ends));
        _needs.Add(new NewcomerNeed(kind, emitters, atSite, least / 10.0));
        _treatment = With(least ?? MostTenths);
        return Harms(study.One(receiver, _treatment));

        Treatment With(int tenths) => _treatment.With(kind, emitters, tenths / 10.0);
    }

    /// <summary>
    /// From one figure for all, each emitter's lowered as far as the law of each harm lets it: those first that the least harm needs. None
    /// can then be lowered while the others stay.
    /// </summary>
    private static int[] Lowered(NewHarm[] harms, string[] emitters, int all)
    {
        int[] tenths = [.. emitters.Select(_ => all)];
        int[] order =
        [
            .. Enumerable.Range(0, emitters.Length)
                .OrderBy(i => harms.Where(h => h.Others.ContainsKey(emitters[i])).Max(static h => (double?)h.FallsDb) ?? 0)
                .ThenBy(static i => i),
        ];
        foreach (int i in order)
        {
            double least = 0;
            foreach (NewHarm harm in harms.Where(h => h.Others.ContainsKey(emitters[i])))
            {
                int rest = emitters.Select((e, j) => j == i ? 0 : tenths[j] * harm.Others.GetValueOrDefault(e)).Sum();
                least = Math.Max(least, Math.Floor(((10 * harm.FallsDb) - rest) / harm.Others[emitters[i]]) + 1);
            }

            tenths[i] = (int)Math.Min(least, MostTenths);
        }

        return tenths;
    }

    /// <summary>The least number of tenths that is enough, from a guess that mostly is; nought is not enough. Null where none is.</summary>
    private static int? Least(int guess, Func<int, bool> enough)
    {
        int low = 0;
        int high = guess;
        if (enough(high))
        {
            if (high == 1 || !enough(high - 1))
            {
                return high;
            }

            high--;
        }
        else
        {
            do
            {
                if (high == MostTenths)
                {
                    return null;
                }

                (low, high) = (high, Math.Min(MostTenths, (2 * high) - low + 8));
            }
            while (!enough(high));
        }

        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = enough(middle) ? (low, middle) : (middle, high);
        }

        return high;
    }
}
