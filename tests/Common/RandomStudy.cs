using Spurless.Drawing.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Tests.Common;

/// <summary>A study of a random invented site, for what every picture must keep to: the same for a seed.</summary>
internal static class RandomStudy
{
    private static readonly string[] Words =
    [
        "north", "harbour", "paging", "base", "dale", "mast", "quarry", "telemetry", "regional", "water", "control", "repeater", "farm",
        "co-operative", "upper", "rail", "yard", "tower", "scanner", "county",
    ];

    /// <summary>The picture of a receiver with 1 to 40 carriers and up to 40 mixtures, with or without a filter.</summary>
    /// <param name="seed">Any number.</param>
    public static StudyPictureModel Model(int seed)
    {
        Random random = new(seed);
        bool filter = random.Next(2) == 0;
        int carriers = random.Next(1, 41);
        double centre = 50e6 * Math.Pow(9, random.NextDouble());
        CarrierFinding[] all =
        [
            .. Enumerable.Range(0, carriers).Select(i =>
            {
                // Some lie in a crowd, as the channels of one mast do.
                double hertz = random.Next(3) == 0 ? centre * (1 + (random.NextDouble() * 0.02)) : 30e6 * Math.Pow(17, random.NextDouble());
                double dbm = -15 - (random.NextDouble() * 70);
                return DemoStudy.Receiver(false, []).Carriers[0] with
                {
                    Emitter = string.Join(' ', Enumerable.Range(0, random.Next(1, 5)).Select(_ => Words[random.Next(Words.Length)])),
                    FrequencyHz = (long)(hertz / 12_500) * 12_500,
                    LevelAtAntennaDbm = random.Next(12) == 0 ? null : dbm,
                    LevelAtReceiverDbm = dbm - (filter ? random.NextDouble() * 60 : 1.2),
                };
            }),
        ];
        ProductFinding one = DemoStudy.Product(
            -95, -95, Mechanism.Receiver, "repeater input", ("telemetry scanner", 2), ("gauging station", -1));
        double spread = random.Next(3) switch { 0 => 0, 1 => 12_500, _ => 40_000 };
        ProductFinding[] before =
        [
            .. Enumerable.Range(0, random.Next(0, 41)).Select(i => Product(
                one, all, random, (long)((random.NextDouble() - 0.5) * spread / 1250) * 1250, -128.94 + 45 - (random.NextDouble() * 65))),
        ];
        ProductFinding[] after =
        [
            .. before.Where(_ => random.Next(2) == 0).Select(p => At(p, p.InChannelLevelDbm!.Value - (random.NextDouble() * 25))),
        ];
        ReceiverFindings bare = DemoStudy.Receiver(false, before) with { Carriers = all };
        ReceiverFindings receiver = filter ? DemoStudy.Receiver(true, after) with { Carriers = all, WithoutFilter = bare } : bare;
        double at = 145e6 * (0.5 + random.NextDouble());
        double width = 0.005 + (random.NextDouble() * 0.1);
        double depth = 30 + (random.NextDouble() * 60);
        return StudyPictureModel.Of(
            receiver,
            new StudyOptions(),
            filter ? f => -1 - (depth * (1 - (1 / (1 + Math.Pow((f - at) / at / width, 4))))) : static f => -1.2 * Math.Sqrt(f / 145e6));
    }

    /// <summary>
    /// Many carriers on a raster, and many mixtures of three of them: more of them the nearer to the channel and to the noise.
    /// </summary>
    public static StudyPictureModel Crowd(int carriers, int mixtures)
    {
        Random random = new(1);
        CarrierFinding[] all =
        [
            .. Enumerable.Range(0, carriers).Select(i => DemoStudy.Receiver(false, []).Carriers[0] with
            {
                Emitter = FormattableString.Invariant($"base {i + 1}"),
                FrequencyHz = 136_000_000 + (i * 1_125_000L),
                LevelAtAntennaDbm = -20 - (random.NextDouble() * 60),
                LevelAtReceiverDbm = -21.2 - (random.NextDouble() * 60),
            }),
        ];
        ProductFinding one = DemoStudy.Product(
            -95, -95, Mechanism.Receiver, "repeater input", ("telemetry scanner", 2), ("gauging station", -1));
        HashSet<(int, int, int)> seen = [];
        List<ProductFinding> products = [];
        while (products.Count < mixtures)
        {
            (int a, int b, int c) = (random.Next(carriers), random.Next(carriers), random.Next(carriers));
            if (a == b || b == c || a == c || !seen.Add((a, b, c)))
            {
                continue;
            }

            double near = Math.Pow(random.NextDouble(), 3);
            long offset = (long)Math.Round(near * 16 * (random.Next(2) == 0 ? 1 : -1)) * 1250;
            (int Of, int Times)[] parts = [(a, 1), (b, 1), (c, -1)];
            Term[] terms = [.. parts.Select(p => new Term(p.Of, all[p.Of].Emitter, all[p.Of].FrequencyHz, p.Times))];
            products.Add(At(
                one with { Terms = terms, OffsetHz = offset, FrequencyHz = 145_050_000 + offset, BandwidthHz = 33_600 },
                DemoStudy.NoiseDbm - 9 + (Math.Pow(random.NextDouble(), 3) * 60)));
        }

        return StudyPictureModel.Of(
            DemoStudy.Receiver(false, products) with { Carriers = all }, new StudyOptions(), static f => -1.2 * Math.Sqrt(f / 145e6));
    }

    private static ProductFinding Product(ProductFinding one, CarrierFinding[] all, Random random, long offset, double dbm)
    {
        int[] places = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => random.Next(all.Length)).Distinct()];
        Term[] terms = [.. places.Select((p, i) => new Term(p, all[p].Emitter, all[p].FrequencyHz, (i == 0 ? 1 : -1) * random.Next(1, 4)))];
        MixingPlace made = one.Made with { Mechanism = random.Next(4) == 0 ? Mechanism.Transmitter : Mechanism.Receiver };
        return At(
            one with
            {
                Terms = terms,
                OffsetHz = offset,
                FrequencyHz = 145_050_000 + offset,
                BandwidthHz = random.Next(1, 6) * 11_200,
                Made = made,
            },
            dbm);
    }

    private static ProductFinding At(ProductFinding p, double dbm)
    {
        double over = dbm - DemoStudy.NoiseDbm;
        return p with
        {
            InChannelLevelDbm = dbm,
            LevelDbm = dbm,
            OverNoiseDb = over,
            Verdict = over >= 0 ? Verdict.Harmful : over >= -10 ? Verdict.Marginal : Verdict.Clear,
        };
    }
}
