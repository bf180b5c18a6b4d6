using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

/// <summary>Random cases in both forms: the program's and the plain one's.</summary>
internal static class RandomCases
{
    public sealed record Both(
        EvidenceCase Case, PlainEvidence.Product[] Products, PlainEvidence.Fall[] Falls, (double, double)[] Offsets, bool?[][] Rows,
        int[] Columns, bool[] Follows, bool ByLevel)
    {
        public List<double> Plain() =>
            PlainEvidence.Posterior(Products, Falls, Offsets, Rows, 0, Columns, Follows, Case.ChannelHz, ByLevel);
    }

    public static Both Make(int seed)
    {
        Random random = new(seed);
        int emitters = random.Next(3, 9);
        PlainEvidence.Product[] products = [.. Enumerable.Range(0, random.Next(1, 9)).Select(_ => Product(random, emitters))];
        PlainEvidence.Fall[] falls = [.. Enumerable.Range(0, random.Next(0, 5)).Select(_ => Fall(random, emitters, products.Length))];
        (double, double)[] offsets = random.Next(2) == 0 ? [] : [((random.NextDouble() * 800) - 400, 20 + (random.NextDouble() * 80))];
        bool[] follows = [.. Enumerable.Range(0, emitters).Select(_ => random.Next(6) == 0)];
        int[] columns = [.. Enumerable.Range(0, emitters).Select(e => random.Next(5) == 0 ? -1 : e + 1)];
        bool?[][] rows = Rows(random, emitters, random.Next(4) == 0 ? 0 : random.Next(1, 60));
        bool byLevel = random.Next(8) == 0;
        List<Observation> observations = [.. falls.Select(Of), .. offsets.Select(static o => new OffsetReading
        {
            OffsetHz = o.Item1,
            SigmaHz = o.Item2,
        })];
        if (rows.Length > 0)
        {
            observations.Add(new LogReading(LogMoments.Of(rows, 0, columns, follows)));
        }

        EvidenceCase made = new()
        {
            Products = [.. products.Select(Of)],
            Observations = observations,
            ChannelHz = 12_500,
            Prior = byLevel ? PriorKind.Level : PriorKind.Equal,
        };
        return new Both(made, products, falls, offsets, rows, columns, follows, byLevel);
    }

    public static EvidenceProduct Of(PlainEvidence.Product product) => new()
    {
        Terms = [.. product.Terms.Select(static t => new EvidenceTerm(t.Emitter, t.K))],
        OffsetHz = product.Offset,
        OffsetSigmaHz = product.OffsetSigma,
        Places =
        [
            .. product.Places.Select(static p => new EvidencePlace
            {
                Kind = p.Kind == 'r' ? MakingPlace.Receiver : p.Kind == 't' ? MakingPlace.Transmitter : MakingPlace.Outside,
                Index = p.Index,
                OverNoiseDb = p.Over,
                SigmaDb = p.Sigma,
            }),
        ],
    };

    public static FallObservation Of(PlainEvidence.Fall fall) => fall.Kind switch
    {
        'p' => new PadInLine { OverNoiseDb = fall.X, FallDb = fall.D, SigmaDb = fall.S, PadDb = fall.A, FirstStageBehind = fall.Which },
        'd' => new EmitterDown { OverNoiseDb = fall.X, FallDb = fall.D, SigmaDb = fall.S, ByDb = fall.A, Emitter = fall.Which },
        _ => new FilterInLine
        {
            OverNoiseDb = fall.X,
            FallDb = fall.D,
            SigmaDb = fall.S,
            LossOfEmitterDb = fall.EmitterLoss,
            LossOfProductDb = fall.ProductLoss,
            LossOnChannelDb = fall.ChannelLoss,
        },
    };

    private static PlainEvidence.Product Product(Random random, int emitters)
    {
        int[] of = [.. Enumerable.Range(0, emitters).OrderBy(_ => random.Next()).Take(random.Next(1, 4))];
        (int, int)[] terms = [.. of.Select(e => (e, random.Next(1, 4) * (random.Next(2) == 0 ? 1 : -1)))];
        List<PlainEvidence.Place> places = [];
        for (int s = random.Next(0, 3); s > 0; s--)
        {
            places.Add(new PlainEvidence.Place('r', s - 1, Level(random), 5 + (random.NextDouble() * 5)));
        }

        foreach (int e in of.Where(_ => of.Length > 1 && random.Next(3) == 0))
        {
            places.Add(new PlainEvidence.Place('t', e, random.Next(2) == 0 ? null : Level(random), 8));
        }

        if (places.Count == 0 || random.Next(4) > 0)
        {
            places.Add(new PlainEvidence.Place('x', -1, null, 0));
        }

        return new PlainEvidence.Product(terms, (random.NextDouble() * 600) - 300, 100 + (random.NextDouble() * 600), [.. places]);
    }

    private static double? Level(Random random) => random.Next(5) == 0 ? null : (random.NextDouble() * 60) - 10;

    private static PlainEvidence.Fall Fall(Random random, int emitters, int products)
    {
        char kind = "ppfd"[random.Next(4)];
        double x = (random.NextDouble() * 50) - 3;
        double a = kind == 'd' && random.Next(2) == 0 ? double.PositiveInfinity : 1 + (random.NextDouble() * 12);
        return new PlainEvidence.Fall(
            kind, x, random.NextDouble() * Math.Max(3, x), 0.5 + random.NextDouble(), a,
            kind == 'p' ? random.Next(3) : random.Next(emitters),
            [.. Enumerable.Range(0, emitters).Select(_ => random.NextDouble() * 40)],
            [.. Enumerable.Range(0, products).Select(_ => random.NextDouble() * 4)], random.NextDouble() * 4);
    }

    private static bool?[][] Rows(Random random, int emitters, int rows) =>
    [
        .. Enumerable.Range(0, rows).Select(_ => Enumerable.Range(0, emitters + 1).Select(c => random.Next(c == 0 ? 12 : 8) switch
        {
            0 => (bool?)null,
            < 5 => true,
            _ => false,
        }).ToArray()),
    ];
}
