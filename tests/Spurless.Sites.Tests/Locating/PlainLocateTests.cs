using System.Globalization;
using System.Text;
using MathNet.Numerics;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Locating;

/// <summary>
/// Evidence by chance, written into a site file, against Bayes' theorem done over every possibility in the plainest way: the laws are those
/// of docs/method/evidence.md, written out once more from the same entries. Levels and sigmas of the mixtures are the study's, which has an
/// oracle of its own.
/// </summary>
public sealed class PlainLocateTests
{
    private static readonly string[] Names = ["north", "south", "east", "west"];

    // 2 x north - south, 2 x east - west and north - south + east + ...: several third-order mixtures near 145.05 MHz.
    private static readonly long[] Hertz = [158_300_000, 171_550_000, 160_525_000, 176_000_500];

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 40)];

    private sealed record Fall(double X, double D, double Sigma, Func<ProductFinding?, MixingPlace?, double> Attenuation);

    private sealed record Offset(double Hz, double Sigma);

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_is_Bayes_over_every_possibility(int seed)
    {
        Random random = new(seed);
        bool amplifier = random.Next(2) == 0;
        bool coupled = random.Next(2) == 0;
        double?[] offsets = [.. Names.Select(_ => random.Next(3) == 0 ? random.Next(-300, 300) : (double?)null)];
        StringBuilder evidence = new();
        List<Fall> falls = [];
        List<Offset> readings = [];
        for (int i = 0; i < random.Next(1, 5); i++)
        {
            Add(random, amplifier, evidence, falls, readings);
        }

        List<bool?[]> rows = [];
        string log = random.Next(2) == 0 ? "" : Log(random, rows);
        if (log.Length > 0)
        {
            evidence.Append("  - log: a.log.csv\n");
        }

        string text = Text(amplifier, coupled, offsets) + "evidence:\n" + evidence;
        LoadedSite? site = SiteLoader.Load(
            text, "locate.site.yaml", new StubFiles(("a.log.csv", log)), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        LocatedReceiver found = Assert.Single(LocateService.Ask(new LocateQuestion { Site = site! }).Answer!.Receivers);
        Dictionary<(string, string), double> expected = Posterior(found.Findings, coupled, offsets, falls, readings, rows);
        Assert.Equal(expected.Count, found.Weighed.Hypotheses.Count);
        for (int h = 0; h < found.Weighed.Hypotheses.Count; h++)
        {
            Hypothesis hypothesis = found.Weighed.Hypotheses[h];
            string product = hypothesis.Product < 0 ? "other" : Key(found.Products[hypothesis.Product]);
            string place = hypothesis.Product < 0 ? "" : $"{hypothesis.Place} {found.NameOf(hypothesis.Place, hypothesis.Index)}";
            double plain = expected[(product, place)];
            double actual = found.Weighed.Posterior[h];
            Assert.True(Math.Abs(plain - actual) < 1e-6, $"seed {seed}: {product} in {place}: {plain} and {actual}\n{text}");
        }
    }

    private static Dictionary<(string, string), double> Posterior(
        ReceiverFindings receiver, bool coupled, double?[] offsets, List<Fall> falls, List<Offset> readings, List<bool?[]> rows)
    {
        ProductFinding[] products =
        [
            .. receiver.Products.Where(static p => p.Verdict != Verdict.Clear).DistinctBy(static p => p.Identity),
        ];
        Dictionary<(string, string), double> weights = [];
        double total = products.Length + 1;
        foreach (ProductFinding p in products)
        {
            MixingPlace[] places = [.. p.Places.Where(x => x.Mechanism != Mechanism.Transmitter || CanBe(p, x, coupled, receiver))];
            double kinds = places.Select(static x => x.Mechanism).Distinct().Sum(Share);
            foreach (MixingPlace place in places)
            {
                double prior = Share(place.Mechanism) / kinds / places.Count(x => x.Mechanism == place.Mechanism) / total;
                double log = Math.Log(prior) + Likelihood(p, place, receiver, offsets, falls, readings) + LogOf(p, rows);
                weights[(Key(p), $"{(MakingPlace)(int)place.Mechanism} {place.Name}")] = log;
            }
        }

        weights[("other", "")] = Math.Log(1 / total) + Likelihood(null, null, receiver, offsets, falls, readings) + LogOf(null, rows);
        double most = weights.Values.Max();
        double sum = weights.Values.Sum(w => Math.Exp(w - most));
        return weights.ToDictionary(static w => w.Key, w => Math.Exp(w.Value - most) / sum);
    }

    private static double Share(Mechanism mechanism) => mechanism == Mechanism.Receiver ? 0.5 : 0.25;

    /// <summary>With a coupling from another of the mixture's emitters, or where the study lists what it makes.</summary>
    private static bool CanBe(ProductFinding p, MixingPlace place, bool coupled, ReceiverFindings receiver) =>
        (coupled && place.Name == "north" && p.Terms.Any(static t => t.Name == "south"))
        || receiver.Products.Any(x => x.Mechanism == Mechanism.Transmitter && x.MadeIn == place.Name && x.Identity == p.Identity
            && x.Verdict is Verdict.Harmful or Verdict.Marginal);

    private static double Likelihood(
        ProductFinding? p, MixingPlace? place, ReceiverFindings receiver, double?[] offsets, List<Fall> falls, List<Offset> readings)
    {
        double log = 0;
        if (falls.Count > 0)
        {
            Fall top = falls.First(f => f.X == falls.Max(static g => g.X));
            double? over = place?.LevelDbm + (p?.InChannelLevelDbm - p?.LevelDbm ?? 0) - receiver.NoiseFloorDbm;
            log += over is { } predicted
                ? Normal(top.X, predicted, Math.Pow(place!.SigmaDb!.Value, 2) + (top.Sigma * top.Sigma))
                : Math.Log(1.0 / 90);
        }

        foreach (Fall fall in falls)
        {
            double y = fall.Attenuation(p, place);
            double F(double x) => 10 * Math.Log10((1 + Math.Pow(10, x / 10)) / (1 + Math.Pow(10, (x - y) / 10)));
            double slope = (F(fall.X + 1e-4) - F(fall.X - 1e-4)) / 2e-4;
            log += Normal(fall.D, F(fall.X), (fall.Sigma * fall.Sigma) + (slope * slope));
        }

        foreach (Offset reading in readings)
        {
            if (p is null)
            {
                log += Math.Log(1.0 / 12_500);
                continue;
            }

            double mean = p.OffsetHz + p.Terms.Sum(t => t.Coefficient * (offsets[Array.IndexOf(Names, t.Name)] ?? 0));
            double variance = p.Terms.Sum(t => Math.Pow(
                t.Coefficient * (offsets[Array.IndexOf(Names, t.Name)] is null ? 2.5e-6 * t.FrequencyHz : 20), 2));
            log += Normal(reading.Hz, mean, (reading.Sigma * reading.Sigma) + variance);
        }

        return log;
    }

    /// <summary>Moments in their three classes, their rates integrated out by the beta function of a general library.</summary>
    private static double LogOf(ProductFinding? p, List<bool?[]> rows)
    {
        int[,] counts = new int[3, 2];
        for (int r = 0; r < rows.Count; r++)
        {
            if (rows[r][0] is not { } heard || (r > 0 && rows[r].SequenceEqual(rows[r - 1])))
            {
                continue;
            }

            bool?[] on = p is null ? [null] : [.. p.Terms.Select(t => rows[r][1 + Array.IndexOf(Names, t.Name)])];
            int kind = on.Contains(false) ? 1 : on.Contains(null) ? 2 : 0;
            counts[kind, heard ? 1 : 0]++;
        }

        (double A, double B)[] before = [(9, 1), (1, 19), (1, 1)];
        return Enumerable.Range(0, 3).Sum(k => SpecialFunctions.BetaLn(before[k].A + counts[k, 1], before[k].B + counts[k, 0])
            - SpecialFunctions.BetaLn(before[k].A, before[k].B));
    }

    private static double Normal(double x, double mean, double variance) =>
        (-0.5 * Math.Pow(x - mean, 2) / variance) - (0.5 * Math.Log(2 * Math.PI * variance));

    private static void Add(Random random, bool amplifier, StringBuilder text, List<Fall> falls, List<Offset> readings)
    {
        double x = 8 + random.Next(30);
        double d = Math.Round(x * random.NextDouble() * 0.9, 1);
        double? stated = random.Next(2) == 0 ? 0.5 + random.Next(3) : null;
        string plus = stated is { } s ? Inv($", plus_minus: {s} dB") : "";
        switch (random.Next(3))
        {
            case 0:
                double pad = (double)((int[])[3, 6, 10])[random.Next(3)];
                bool behind = random.Next(2) == 0;
                text.Append(Inv($"  - attenuator_test: {{ receiver: input, inserted: {pad} dB, at: {(behind ? "receiver" : "antenna")}, "));
                text.Append(Inv($"over_noise: {x} dB, fall: {d} dB{plus} }}\n"));
                int first = behind && amplifier ? 1 : 0;
                falls.Add(new(x, d, stated ?? 1, (p, place) =>
                    place is { Mechanism: Mechanism.Receiver } && place.Stage >= first ? p!.Order * pad : pad));
                break;
            case 1:
                string emitter = Names[random.Next(4)];
                double? by = random.Next(3) == 0 ? null : 2 + random.Next(5);
                string down = by is { } b ? Inv($"{b} dB") : "off";
                text.Append(Inv($"  - emitter_reduced: {{ receiver: input, emitter: {emitter}, by: {down}, "));
                text.Append(Inv($"over_noise: {x} dB, fall: {d} dB{plus} }}\n"));
                falls.Add(new(x, d, stated ?? 1, (p, place) => Reduced(p, place, emitter, by)));
                break;
            default:
                double hz = random.Next(-900, 900);
                text.Append(Inv($"  - offset: {{ receiver: input, measured: {hz} Hz, plus_minus: 80 Hz }}\n"));
                readings.Add(new(hz, 80));
                break;
        }
    }

    private static double Reduced(ProductFinding? p, MixingPlace? place, string emitter, double? by)
    {
        int times = Math.Abs(p?.Terms.FirstOrDefault(t => t.Name == emitter)?.Coefficient ?? 0);
        bool own = place is { Mechanism: Mechanism.Transmitter } && place.Name == emitter;
        return times == 0 ? 0 : by is not { } db ? double.PositiveInfinity : own ? db * (1 - (p!.Order - times)) : times * db;
    }

    private static string Log(Random random, List<bool?[]> rows)
    {
        StringBuilder text = new("time,input,north,south,east,west\n");
        for (int i = 0; i < random.Next(3, 30); i++)
        {
            bool?[] row = [.. Enumerable.Range(0, 5).Select(_ => random.Next(5) == 0 ? (bool?)null : random.Next(2) == 0)];
            rows.Add(row);
            text.Append(Inv($"2031-03-04T19:{i:00}:00Z,"));
            text.AppendJoin(',', row.Select(static on => on is null ? "" : on == true ? "1" : "0")).Append('\n');
        }

        return text.ToString();
    }

    private static string Text(bool amplifier, bool coupled, double?[] offsets)
    {
        StringBuilder text = new("spurless: 1\nsite: made for a test\nreceivers:\n  - name: input\n    frequency: 145.05 MHz\n");
        text.Append("    channel: 12.5 kHz\n    noise_figure: 6 dB\n    iip3: -8 dBm\n");
        text.Append(amplifier ? "    chain:\n      - amplifier: { gain: 15 dB, noise_figure: 2 dB, iip3: -5 dBm }\n" : "");
        text.Append("emitters:\n");
        for (int i = 0; i < Names.Length; i++)
        {
            text.Append(Inv($"  - {{ name: {Names[i]}, frequency: {Hertz[i]} Hz, emission: 11K2F3E, level: {-31 - i} dBm"));
            text.Append(offsets[i] is { } offset ? Inv($", offset: {offset} Hz") : "");
            text.Append(coupled && i == 0 ? ", power: 5 W, turn_round_loss: 12 dB, coupling: { south: 50 dB }" : "");
            text.Append(coupled && i == 1 ? ", power: 10 W" : "").Append(" }\n");
        }

        return text.Append("search: { orders: 2-3, signals: 3 }\n").ToString();
    }

    private static string Key(ProductFinding p) =>
        string.Join(' ', p.Terms.Select(static t => Inv($"{t.Coefficient}{t.Name}")).Order(StringComparer.Ordinal));

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
