using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// Mixing in transmitters against the law of docs/method/other-causes.md written out once more, on small sites by chance: every emitter
/// tried as the one that makes it, every vector of coefficients in the plainest loops.
/// </summary>
public sealed class TransmitterMixingTests
{
    private const long Channel = 145_050_000;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 30)];

    private sealed record Station(long Hz, double PowerDbm, double Dbm, double? TurnRoundDb, double IsolatorDb)
    {
        /// <summary>Loss from another station's output to this one's, by its index.</summary>
        public required Dictionary<int, double> Coupling { get; init; }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Products_made_in_transmitters_are_those_of_the_law(int seed)
    {
        Station[] all = Stations(seed);
        ReceiverFindings found = Study(Text(all));
        Dictionary<string, ProductFinding> actual = found.Products.Where(static p => p.Mechanism == Mechanism.Transmitter)
            .ToDictionary(static p => Key(p.MadeIn, p.Terms.OrderBy(static t => t.Emitter).Select(static t => (t.Emitter, t.Coefficient))));
        Dictionary<string, (double Dbm, double Sigma)> expected = Expected(all);
        Assert.Equal(expected.Keys.Order(StringComparer.Ordinal), actual.Keys.Order(StringComparer.Ordinal));
        foreach ((string key, (double dbm, double sigma)) in expected)
        {
            ProductFinding p = actual[key];
            Assert.True(Math.Abs(dbm - p.LevelDbm!.Value) < 1e-4, $"seed {seed}: {key}: {dbm} and {p.LevelDbm}");
            Assert.Equal(sigma, p.SigmaDb!.Value, 1e-9);
            MixingPlace place = p.Places.Single(x => x.Mechanism == Mechanism.Transmitter && x.Name == p.MadeIn);
            Assert.Equal(p.LevelDbm.Value, place.LevelDbm!.Value, 1e-6);
        }
    }

    /// <summary>
    /// The lines of the sum add up to the level: what a reader follows with a pencil (section 4 of docs/method/other-causes.md).
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    public void The_lines_of_its_sum_add_up(int seed)
    {
        ReceiverFindings found = Study(Text(Stations(seed)));
        foreach (ProductFinding p in found.Products.Where(static p => p.LevelDbm is not null))
        {
            IReadOnlyList<SumLine> lines = ProductArithmetic.Of(found, p);
            double sum = 0;
            foreach (SumLine line in lines)
            {
                if (line.Kind == SumLineKind.Part)
                {
                    sum += line.Value;
                }
                else if (line.Kind == SumLineKind.Subtotal)
                {
                    Assert.True(Math.Abs(sum - line.Value) < 1e-3, $"{p.MadeIn} {line.Part}: {sum} and {line.Value}");
                }
                else if (line.Kind == SumLineKind.Result)
                {
                    Assert.Equal(p.OverNoiseDb!.Value, line.Value, 1e-3);
                }
            }
        }
    }

    /// <summary>
    /// More isolator at the transmitter takes as many times as the others take part in what is made there, and nothing anywhere else.
    /// </summary>
    [Theory]
    [InlineData(11, 10)]
    [InlineData(12, 25)]
    [InlineData(13, 3)]
    public void An_isolator_acts_on_each_carrier_that_comes_in(int seed, double moreDb)
    {
        Station[] all = Stations(seed);
        int at = Array.FindIndex(all, static s => s.TurnRoundDb is not null && s.Coupling.Count > 0);
        Station[] isolated = [.. all];
        isolated[at] = all[at] with { IsolatorDb = all[at].IsolatorDb + moreDb };
        Dictionary<ProductRow, ProductFinding> before = Rows(Study(Text(all)));
        Dictionary<ProductRow, ProductFinding> after = Rows(Study(Text(isolated)));
        Assert.Equal(before.Keys.ToHashSet(), after.Keys.ToHashSet());
        foreach ((ProductRow row, ProductFinding p) in before)
        {
            int times = p.MadeIn == $"s{at}" && p.Mechanism == Mechanism.Transmitter
                ? p.Terms.Where(t => t.Emitter != at).Sum(static t => Math.Abs(t.Coefficient))
                : 0;
            Assert.Equal(p.LevelDbm!.Value - (times * moreDb), after[row].LevelDbm!.Value, 1e-4);
        }
    }

    /// <summary>
    /// The isolator that is asked for, written into the site, brings its product down to the noise: not a tenth of a decibel over, and not
    /// a tenth under.
    /// </summary>
    [Theory]
    [InlineData(41)]
    [InlineData(42)]
    [InlineData(43)]
    [InlineData(44)]
    [InlineData(45)]
    [InlineData(46)]
    public void An_isolator_as_it_is_asked_for_brings_its_product_to_the_noise(int seed)
    {
        Station[] all = Stations(seed);
        ReceiverFindings before = Study(Text(all));
        foreach (ProductFinding p in before.Products.Where(static p => p.Mechanism == Mechanism.Transmitter && p.OverNoiseDb >= 0).Take(6))
        {
            IsolatorNeed need = IsolatorNeed.Of(p)!;
            int at = p.Made.Emitter!.Value;
            Assert.Equal(($"s{at}", all[at].IsolatorDb), (need.Transmitter, need.HasDb));
            double whole = need.HasDb + need.NeededDb;
            Assert.Equal(
                whole <= 25 ? IsolatorKind.Single : whole <= 55 ? IsolatorKind.Double : IsolatorKind.DoubleWithFilter, need.Kind);
            Station[] isolated = [.. all];
            isolated[at] = all[at] with { IsolatorDb = whole };
            Assert.Equal(0, Rows(Study(Text(isolated)))[p.Row].OverNoiseDb!.Value, 1e-3);
        }

        // What is made elsewhere, or is under the noise already, needs none.
        Assert.All(
            before.Products.Where(static p => p.Mechanism != Mechanism.Transmitter || p.OverNoiseDb < 0),
            static p => Assert.Null(IsolatorNeed.Of(p)));
    }

    /// <summary>
    /// A pad at the receiver takes what a transmitter made down by itself and no more, whatever the order: the attenuator test.
    /// </summary>
    [Theory]
    [InlineData(21, 3)]
    [InlineData(22, 10)]
    public void A_pad_at_the_receiver_tells_it_from_the_receivers_own(int seed, double padDb)
    {
        Station[] all = Stations(seed);
        string text = Text(all);
        string padded = text.Replace(
            "iip3: -8 dBm", Inv($"iip3: -8 dBm, chain: [ {{ attenuator: {padDb} dB }} ]"), StringComparison.Ordinal);
        Assert.NotEqual(text, padded);
        Dictionary<ProductRow, ProductFinding> after = Rows(Study(padded));
        foreach ((ProductRow row, ProductFinding p) in Rows(Study(text)))
        {
            double fall = p.Mechanism == Mechanism.Transmitter ? padDb : p.Order * padDb;
            if (!p.Saturated && p.Trustworthy)
            {
                Assert.Equal(p.LevelDbm!.Value - fall, after[row].LevelDbm!.Value, 1e-4);
            }
        }
    }

    /// <summary>
    /// What has a power and couplings but no turn-round loss is a gap that is named with what it makes at most; stating the least usual
    /// loss (6 dB, common practice) gives just that.
    /// </summary>
    [Theory]
    [InlineData(31)]
    [InlineData(32)]
    [InlineData(33)]
    [InlineData(34)]
    public void A_transmitter_without_a_turn_round_loss_is_bounded_by_the_least_usual(int seed)
    {
        Station[] all = Stations(seed);
        Station[] unstated = [.. all.Select(static s => s with { TurnRoundDb = null })];
        Station[] least = [.. all.Select(static s => s with { TurnRoundDb = 6 })];
        ReceiverFindings open = Study(Text(unstated));
        ReceiverFindings stated = Study(Text(least));
        Assert.DoesNotContain(open.Products, static p => p.Mechanism == Mechanism.Transmitter);
        var bounds = open.NotComputed.Where(static g => g.Kind == Spurless.Sites.Levels.NotComputedKind.TurnRoundLoss)
            .SelectMany(static g => g.Transmitters.Zip(g.AtMostOverNoiseDb)).ToDictionary(static b => b.First, static b => b.Second);
        foreach (IGrouping<string, ProductFinding> made in stated.Products.Where(static p => p.Mechanism == Mechanism.Transmitter)
            .GroupBy(static p => p.MadeIn))
        {
            double strongest = made.Max(static p => p.OverNoiseDb!.Value);
            if (strongest >= -10)
            {
                Assert.True(bounds[made.Key] >= strongest - 1e-4, $"{made.Key}: {bounds[made.Key]} is under {strongest}");
            }
        }
    }

    private static Dictionary<string, (double Dbm, double Sigma)> Expected(Station[] all)
    {
        Dictionary<string, (double, double)> expected = [];
        for (int a = 0; a < all.Length; a++)
        {
            Station maker = all[a];
            if (maker.TurnRoundDb is not { } turnRound)
            {
                continue;
            }

            foreach (int[] k in Vectors(all.Length, 5).Where(k => k[a] != 0 && k.Count(static c => c != 0) is > 1 and <= 3))
            {
                long hz = k.Select((c, i) => c * all[i].Hz).Sum();
                int order = k.Sum(Math.Abs);
                bool reached = Enumerable.Range(0, k.Length).All(i => i == a || k[i] == 0 || maker.Coupling.ContainsKey(i));
                if (order < 2 || hz <= 0 || !reached || 2 * Math.Abs(hz - Channel) > 12_500)
                {
                    continue;
                }

                double level = maker.Dbm - turnRound;
                double variance = 9 + Math.Pow(Elsewhere(maker.Hz), 2);
                for (int i = 0; i < k.Length; i++)
                {
                    if (i != a && k[i] != 0)
                    {
                        double arrives = all[i].PowerDbm - maker.Coupling[i] - maker.IsolatorDb;
                        level -= Math.Abs(k[i]) * (maker.PowerDbm - arrives);
                        variance += Math.Pow(k[i] * 2, 2);
                    }
                }

                expected[Key($"s{a}", k.Select(static (c, i) => (i, c)).Where(static t => t.c != 0))] = (level, Math.Sqrt(variance));
            }
        }

        return expected;
    }

    /// <summary>A path measured over a tenth of its frequency away is open by 10 dB more, in squares, than the reading's 2 dB.</summary>
    private static double Elsewhere(long hz) => Math.Abs(hz - Channel) > 0.1 * hz ? Math.Sqrt(4 + 100) : 2;

    private static IEnumerable<int[]> Vectors(int emitters, int highest)
    {
        int count = (int)Math.Pow((2 * highest) + 1, emitters);
        for (int n = 0; n < count; n++)
        {
            int[] k = new int[emitters];
            for (int i = 0, left = n; i < emitters; i++, left /= (2 * highest) + 1)
            {
                k[i] = (left % ((2 * highest) + 1)) - highest;
            }

            if (k.Sum(Math.Abs) <= highest)
            {
                yield return k;
            }
        }
    }

    private static Station[] Stations(int seed)
    {
        Random random = new(seed);
        long a = 150_000_000 + (random.Next(800) * 12_500L);
        long[] hz = [a, (2 * a) - Channel, 146_000_000 + (random.Next(400) * 12_500L), Channel + 4_000_000];
        return
        [
            .. hz.Select((f, i) => new Station(
                f, 30 + random.Next(20), -20 - random.Next(30), i == 0 || random.Next(2) == 0 ? 6 + random.Next(15) : null,
                random.Next(2) == 0 ? 0 : 25)
            {
                Coupling = Enumerable.Range(0, hz.Length).Where(j => j != i && (j == 1 || random.Next(3) > 0))
                    .ToDictionary(static j => j, _ => 25.0 + random.Next(40)),
            }),
        ];
    }

    private static string Text(Station[] all)
    {
        StringBuilder text = new("spurless: 1\nsite: made for a test\nreceivers:\n  - { name: input, frequency: 145.05 MHz, ");
        text.Append("channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }\nemitters:\n");
        for (int i = 0; i < all.Length; i++)
        {
            Station s = all[i];
            text.Append(Inv($"  - {{ name: s{i}, frequency: {s.Hz} Hz, bandwidth: 0 kHz, power: {s.PowerDbm} dBm, level: {s.Dbm} dBm"));
            text.Append(s.TurnRoundDb is { } t ? Inv($", turn_round_loss: {t} dB") : "");

            // Stated at two ends: one figure alone would be marked far from the transmitter's own frequency, the same in size.
            text.Append(s.IsolatorDb > 0 ? Inv($", isolator: [{s.IsolatorDb} dB at 100 MHz, {s.IsolatorDb} dB at 200 MHz]") : "");
            text.Append(s.Coupling.Count > 0
                ? ", coupling: { " + string.Join(", ", s.Coupling.Select(static c => Inv($"s{c.Key}: {c.Value} dB"))) + " }" : "");
            text.Append(" }\n");
        }

        return text.Append("search: { orders: 2-5, signals: 3, floor: none }\n").ToString();
    }

    private static Dictionary<ProductRow, ProductFinding> Rows(ReceiverFindings found) =>
        found.Products.Where(static p => p.LevelDbm is not null).ToDictionary(static p => p.Row);

    private static string Key(string maker, IEnumerable<(int Emitter, int Coefficient)> terms) =>
        maker + ": " + string.Join(' ', terms.Select(static t => Inv($"{t.Coefficient}s{t.Emitter}")));

    private static ReceiverFindings Study(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "transmitters.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers);
    }

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
