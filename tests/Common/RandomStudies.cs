using CsCheck;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Tests.Common;

/// <summary>
/// Study results by chance, wilder than a site makes them: names of every kind of trouble, unknown levels, crowds, nothing at all, levels
/// beside every threshold and far beyond what a receiver bears. Only what the writers rely on holds: verdicts follow from levels by
/// docs/formats/results.md, products are sorted worst first, terms by magnitude, and their sum is the product's frequency.
/// </summary>
internal static class RandomStudies
{
    private const double NoiseDbm = -128.94;

    // The demo's real chain: it has stages and intercepts to ask.
    private static readonly Lazy<ReceiveChain> _chain = new(static () => DemoSites.Study("quernmoss.site.yaml").Receivers[0].Chain);

    private static readonly Gen<string> _name = Gen.Frequency<string>(
        (4, Gen.String[Gen.Char['a', 'z'], 1, 14]),
        (1, Gen.OneOf(
            "=1+1", "-2", "@SUM(A1)", "a,b", "semi; colon", "say \"so\"", "turn\nover", "\u001b[31mred", "\u202eturned", "<b>&amp;'",
            "Zwölf Türme", "Ωmega", "\uD83D\uDCE1 dish", "x", new string('w', 120), "two words and a long tail of words that goes on")));

    // Near the thresholds, at the digits' edges, and anywhere.
    private static readonly Gen<double> _over = Gen.OneOf<double>(
        Gen.OneOf(-0.04, 0.04, -0.05, 0.05, -9.96, -10.04, 0.0, 7.5, -200.0, 149.95),
        Gen.Double[-30, 40],
        Gen.Double[-12, 10]);

    /// <summary>A study of one to three receivers.</summary>
    public static Gen<StudyResult> Study { get; } =
        from receivers in Receiver().Array[1, 3]
        from site in _name
        select DemoStudy.Result(receivers) with { Site = site, KeysNotUsedYet = [site] };

    /// <summary>One receiver: with or without a filter, and with a filter the same mixtures before and after.</summary>
    public static Gen<ReceiverFindings> Receiver(int most = 12) =>
        from names in _name.Array[1, 9]
        from frequencies in Gen.Long[30_000_000, 470_000_000].Array[names.Length]
        from levels in Gen.Double[-90, 10].Nullable(0.2).Array[names.Length]
        from products in Made(names.Length).Array[0, most]
        from causes in Cause(names[0]).Array[0, 3]
        from filter in Gen.Bool
        from fall in Gen.Double[0, 60]
        from name in _name
        select Build(name, names, frequencies, levels, products, causes, filter ? fall : null);

    private static Gen<MadeBy> Made(int emitters) =>
        from terms in Gen.Select(Gen.Int[0, emitters - 1], Gen.OneOf(-3, -2, -1, 1, 2, 3)).Array[1, 3]
        from over in _over
        from transmitter in Gen.Bool
        from sigma in Gen.Double[0.5, 20]
        from chance in Gen.Double[0, 1]
        from share in Gen.OneOf<double>(Gen.Const(1.0), Gen.Double[0, 1], Gen.OneOf(0.9996, 1e-6, 0.15))
        from saturated in Gen.Bool
        select new MadeBy(terms, over, transmitter, sigma, chance, share, saturated);

    private static Gen<OtherCause> Cause(string emitter) =>
        from kind in Gen.OneOf(CauseKind.Direct, CauseKind.TransmitterNoise, CauseKind.Blocking, CauseKind.Outside)
        from over in _over.Nullable(0.3)
        select new OtherCause(
            new CauseFinding
            {
                Cause = kind,
                Emitter = kind == CauseKind.Outside ? null : emitter,
                LevelDbm = over + NoiseDbm,
                OverNoiseDb = over,
                SigmaDb = over is null ? null : 2,
                Missing = over is null && kind != CauseKind.Outside ? [new MissingInput(MissingKind.LevelHere, emitter)] : [],
            },
            VerdictOf(over));

    private static Verdict VerdictOf(double? over) =>
        over switch { null => Verdict.Unknown, >= 0 => Verdict.Harmful, >= -10 => Verdict.Marginal, _ => Verdict.Clear };

    private static ReceiverFindings Build(
        string name, string[] names, long[] frequencies, double?[] levels, MadeBy[] made, OtherCause[] causes, double? fallDb)
    {
        CarrierFinding[] Carriers(double fall) =>
        [
            .. names.Select((n, i) => new CarrierFinding
            {
                Emitter = n,
                FrequencyHz = frequencies[i],
                BandwidthHz = 11_200,
                LevelAtAntennaDbm = levels[i],
                LevelAtReceiverDbm = levels[i] - fall,
                Origin = i % 2 == 0 ? LevelOrigin.Measured : LevelOrigin.Predicted,
                HowKnown = levels[i] is null ? new LevelNote.NothingGiven() : new LevelNote.FilterEnds(n),
                SigmaDb = levels[i] is null ? null : 2 + i,
                Assumed = i == 1 ? [new LevelNote.FilterEnds(n)] : [],
                Rejection = fall > 0 ? new FilterRejection(fall, fall - 1, fall + 1) : null,
                Follows = i == 0 ? name : null,
            }),
        ];
        ReceiverFindings One(double fall, bool filter) => DemoStudy.Receiver(filter, []) with
        {
            Name = name,
            Carriers = Carriers(fall),
            Products = Sorted(made.Select(m => Product(name, names, frequencies, levels, m, fall))),
            OtherCauses = causes,
            Chain = _chain.Value,
            SumOverNoiseDb = made.Length == 0 ? null : 12.3,
        };
        return One(fallDb ?? 0, fallDb is not null) with
        {
            WithoutFilter = fallDb is null ? null : One(0, false),
            WantedLossDb = fallDb is null ? null : 2.92,
        };
    }

    private static ProductFinding[] Sorted(IEnumerable<ProductFinding?> products) =>
    [
        .. products.OfType<ProductFinding>().DistinctBy(static p => p.Row)
            .OrderByDescending(static p => p.InChannelLevelDbm ?? double.NegativeInfinity)
            .ThenByDescending(static p => p.OverNoiseDb), // two levels can be one number where two heights over the noise are not
    ];

    private static ProductFinding? Product(
        string receiver, string[] names, long[] frequencies, double?[] levels, MadeBy by, double fall)
    {
        Term[] terms =
        [
            .. by.Terms.GroupBy(static t => t.Item1)
                .Select(g => new Term(g.Key, names[g.Key], frequencies[g.Key], g.Sum(static t => t.Item2)))
                .Where(static t => t.Coefficient != 0)
                .OrderByDescending(static t => Math.Abs(t.Coefficient)).ThenBy(static t => t.Name, StringComparer.Ordinal),
        ];
        long at = terms.Sum(static t => t.Coefficient * t.FrequencyHz);
        if (terms.Length == 0 || at == 0)
        {
            return null;
        }

        terms = at > 0 ? terms : [.. terms.Select(static t => t with { Coefficient = -t.Coefficient })];
        int order = terms.Sum(static t => Math.Abs(t.Coefficient));
        double? over = terms.Any(t => levels[t.Emitter] is null) ? null : by.Over - (by.Transmitter ? 0 : order * fall);
        double? level = over + NoiseDbm;
        MixingPlace place = new()
        {
            Mechanism = by.Transmitter ? Mechanism.Transmitter : Mechanism.Receiver,
            Stage = by.Transmitter ? null : 0,
            Emitter = by.Transmitter ? terms[0].Emitter : null,
            Name = by.Transmitter ? terms[0].Name : receiver,
            LevelDbm = level,
            SigmaDb = level is null ? null : by.Sigma,
        };
        return new ProductFinding
        {
            Receiver = receiver,
            Terms = terms,
            Order = order,
            FrequencyHz = Math.Abs(at),
            OffsetHz = Math.Abs(at) % 12_501 - 6_250,
            BandwidthHz = order * 11_200,
            Made = place,
            Places = [place],
            LevelDbm = level,
            LevelWorstDbm = level,
            InChannelLevelDbm = level,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : by.Sigma,
            NextDegreeErrorDb = level is null ? null : 1.6,
            Verdict = VerdictOf(over),
            Effects = over is { } o ? new Effects(o >= 7.5, ProductEffects.NoiseRiseDb(o), null) : null,
            Assumed = by.Saturated && level is not null ? [new Assumption(AssumptionKind.Saturated) { Of = receiver, Value = -0.04 }] : [],
            KeepsItselfUp = terms.Any(static t => t.Emitter == 0),
            OnCarrierOfItsOwn = false,
            Chance = level is null ? null : by.Chance,
            OnTogether = by.Share,
            Heard = [.. terms.Select(static t => new HeardModulation(t.Name, Sound.Speech, Math.Abs(t.Coefficient)))],
        };
    }

    private sealed record MadeBy(
        (int, int)[] Terms, double Over, bool Transmitter, double Sigma, double Chance, double Share, bool Saturated);
}
