using Spurless.Radio.Paths;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>The single steps worth trying for one receiver.</summary>
internal static class CureCandidates
{
    private const int GreatestPadDb = 20;
    private const int WorstEmitters = 3;
    private static readonly double[] _qualities = [150, 300, 800, 2500];
    private static readonly double[] _lossesDb = [1, 2.5];
    private static readonly int[] _all = [1, 2, 3, 4, 5];
    private static readonly int[] _steeper = [3, 4, 5];
    private const double RippleDb = 0.1;
    private static readonly double[] _antennaMetres = [3, 6, 10, 20];
    private static readonly double[] _powerDb = [3, 6];
    private const double BetterInterceptDb = 10;

    /// <summary>All of them, in an order that depends on nothing but the site.</summary>
    /// <param name="question">The question.</param>
    /// <param name="entry">The receiver as the site file has it.</param>
    /// <param name="before">The receiver as it is.</param>
    public static IReadOnlyList<CureStep> Of(CureQuestion question, ReceiverEntry entry, ReceiverFindings before)
    {
        List<CureStep> all = [];
        ChainPlace[] places = entry.Chain.Any(static s => s is AmplifierStage)
            ? [ChainPlace.BeforeAmplifier, ChainPlace.AtReceiver]
            : [ChainPlace.AtReceiver];
        foreach (ChainPlace place in places)
        {
            all.AddRange(question.Filters.OrderBy(static f => f.Key, StringComparer.Ordinal).Select(
                f => new FileFilterStep(
                    f.Key, f.Value.Name, f.Key.EndsWith(".circuit.yaml", StringComparison.OrdinalIgnoreCase), place)));
            all.AddRange(Enumerable.Range(1, GreatestPadDb).Select(db => new PadStep(db, place)));
            all.AddRange(BandPasses(before).Concat(Traps(before)).Select(f => new UsualFilterStep(f, place)));
        }

        if (places.Length > 1)
        {
            all.Add(new AmplifierStep(BehindFilter: false));
            all.Add(new AmplifierStep(BehindFilter: true));
        }

        all.Add(new InterceptStep(BetterInterceptDb));
        foreach (EmitterEntry emitter in question.Site.Document.Emitters)
        {
            bool own = emitter.Follows == before.Name;
            ProductFinding[] made =
            [
                .. before.Products.Where(
                    p => p.Mechanism == Mechanism.Transmitter && p.MadeIn == emitter.Name && p.Verdict == Verdict.Harmful),
            ];
            if (made.Length > 0)
            {
                all.AddRange(AtTransmitter(emitter, own, made));
            }

            if (own && before.Products.Any(p => p.Verdict == Verdict.Harmful && p.Terms.Any(t => t.Name == emitter.Name)))
            {
                all.AddRange(_powerDb.Select(db => new PowerStep(emitter.Name, db)));
            }
        }

        if (before.Harmful > 0)
        {
            all.Add(new ToneSquelchStep());
        }

        return all;
    }

    // Of one or two resonators a little ripple changes next to nothing.
    private static IEnumerable<UsualFilter> BandPasses(ReceiverFindings before) =>
        from ripple in (double[])[0, RippleDb]
        from quality in _qualities
        from resonators in ripple > 0 ? _steeper : _all
        from loss in _lossesDb
        select new UsualBandPass(resonators, quality, before.FrequencyHz, loss, before.ChannelHz, ripple);

    /// <summary>Traps against the emitters that take part most in what is harmful and made in the receiver.</summary>
    private static IEnumerable<UsualFilter> Traps(ReceiverFindings before)
    {
        Term[] worst =
        [
            .. before.Products.Where(static p => p.Verdict == Verdict.Harmful && p.Mechanism == Mechanism.Receiver)
                .SelectMany(static p => p.Terms.Select(t => (Term: t, Weight: Math.Abs(t.Coefficient) * Math.Max(0, p.OverNoiseDb ?? 0))))
                .GroupBy(static t => t.Term.Name, StringComparer.Ordinal)
                .OrderByDescending(static g => g.Sum(static t => t.Weight)).ThenBy(static g => g.Key, StringComparer.Ordinal)
                .Select(static g => g.First().Term).Take(WorstEmitters),
        ];
        foreach (Term one in worst)
        {
            yield return new UsualTrap([one.FrequencyHz], before.FrequencyHz, [one.Name]);
            yield return new UsualTrap([one.FrequencyHz, one.FrequencyHz], before.FrequencyHz, [one.Name]);
        }

        for (int i = 0; i < worst.Length; i++)
        {
            for (int j = i + 1; j < worst.Length; j++)
            {
                if (worst[i].FrequencyHz > before.FrequencyHz == worst[j].FrequencyHz > before.FrequencyHz)
                {
                    yield return new UsualTrap(
                        [worst[i].FrequencyHz, worst[j].FrequencyHz], before.FrequencyHz, [worst[i].Name, worst[j].Name]);
                }
            }
        }
    }

    private static IEnumerable<CureStep> AtTransmitter(EmitterEntry emitter, bool own, ProductFinding[] made)
    {
        IncomingCarrier[] incoming =
        [
            .. made.SelectMany(static p => p.Sum?.Incoming ?? []).DistinctBy(static i => i.Emitter)
                .OrderBy(static i => i.FrequencyHz).ThenBy(static i => i.Emitter, StringComparer.Ordinal),
        ];
        if (incoming.Length == 0)
        {
            yield break;
        }

        double has = incoming.Min(static i => i.IsolatorDb);
        foreach (Isolators kind in Enum.GetValues<Isolators>())
        {
            IsolatorStep step = new(emitter.Name, own, kind, [.. incoming.Select(static i => i.FrequencyHz).Distinct()]);
            if (step.Db > has)
            {
                yield return step;
            }
        }

        yield return new OutputCavityStep(emitter.Name, own, emitter.Frequency.Hertz);
        foreach (double metres in _antennaMetres)
        {
            (string, double)[] better =
            [
                .. incoming.Select(i => (i.Emitter, i.CouplingDb, Db: SameStructure.VerticalDb(metres, i.FrequencyHz)))
                    .Where(static i => i.Db > i.CouplingDb).Select(static i => (i.Emitter, Math.Round(i.Db, 1))),
            ];
            if (better.Length > 0)
            {
                yield return new AntennaStep(emitter.Name, own, metres, better);
            }
        }
    }
}
