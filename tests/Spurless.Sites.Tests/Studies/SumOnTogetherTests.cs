using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>The sum of what can be on the air together, against a study of every set of emitters that can be.</summary>
public sealed class SumOnTogetherTests
{
    private const int Emitters = 5;

    /// <summary>
    /// Products add in power, so the greatest sum is that of the loudest set that no group forbids: found here by trying all sets.
    /// </summary>
    [Fact]
    public void SumOverNoiseDb_is_the_greatest_of_all_sets_that_can_be_on_together() =>
        Gen.Select(Gen.Int[-45, -25].Array[Emitters], Gen.Int[1, (1 << Emitters) - 1].Array[1, 3]).Sample(
            static (levels, masks) =>
            {
                int[][] groups = [.. masks.Select(Members).Where(static g => g.Length > 1)];
                ReceiverFindings found = Study(levels, (1 << Emitters) - 1, groups);
                double? greatest = null;
                for (int set = 1; set < 1 << Emitters; set++)
                {
                    if (groups.All(g => g.Count(m => (set >> m & 1) != 0) <= 1) && Study(levels, set, []).SumOverNoiseDb is { } sum)
                    {
                        greatest = Math.Max(greatest ?? sum, sum);
                    }
                }

                Assert.Equal(greatest is null, found.SumOverNoiseDb is null);
                Assert.Equal(greatest ?? 0, found.SumOverNoiseDb ?? 0, 1e-9);
            },
            iter: 60);

    /// <summary>
    /// One emitter in two mixtures, its two partners never on together: the sum is the stronger mixture, and it says that one is left out.
    /// 2 x 145.15 - 145.25 and 2 x 145.25 - 145.45 both are 145.05 MHz.
    /// </summary>
    [Fact]
    public void SumOverNoiseDb_of_two_that_exclude_each_other_is_the_stronger()
    {
        int[] levels = [-30, -30, -100, -30, -100];
        ReceiverFindings both = Study(levels, 0b01011, []);
        ReceiverFindings either = Study(levels, 0b01011, [[0, 3]]);
        double strongest = both.Products.Max(static p => p.OverNoiseDb!.Value);
        Assert.False(both.SumOfSome);
        Assert.True(both.SumOverNoiseDb > strongest + 1);
        Assert.True(either.SumOfSome);
        Assert.InRange(either.SumOverNoiseDb!.Value, strongest, both.SumOverNoiseDb!.Value - 1);
    }

    /// <summary>Bundles of any kind under groups of any kind, overlapping ones too, against all sets of members.</summary>
    [Fact]
    public void Greatest_is_that_of_all_sets() =>
        Gen.Select(
            Gen.Select(Gen.Int[1, 255], Gen.Double[0, 1]).Array[1, 12], Gen.Int[1, 255].Array[1, 5]).Sample(
            static (products, masks) =>
            {
                SumBundle[] bundles =
                [
                    .. products.DistinctBy(static p => p.Item1).Select(static p => new SumBundle(Bits(p.Item1), p.Item2)),
                ];
                ImmutableArray<ImmutableArray<int>> groups = [.. masks.Select(static m => Bits(m).ToImmutableArray())];
                double greatest = Enumerable.Range(0, 256)
                    .Where(set => groups.All(g => g.Count(m => (set >> m & 1) != 0) <= 1))
                    .Max(set => bundles.Where(b => b.Needs.All(m => (set >> m & 1) != 0)).Sum(static b => b.Power));
                (double found, bool bound) = SumSearch.Greatest(bundles, groups, CancellationToken.None);
                Assert.False(bound);
                Assert.Equal(greatest, found, 1e-12);
            },
            iter: 2000);

    /// <summary>
    /// 400 groups of five and 40,000 products across them: more choices than could be tried. It ends, says that it is a bound, and is not
    /// below what one choice gives.
    /// </summary>
    [Fact]
    public void Greatest_of_the_silliest_groups_is_a_bound_in_bounded_time()
    {
        Random random = new(5);
        ImmutableArray<ImmutableArray<int>> groups =
            [.. Enumerable.Range(0, 400).Select(static g => ImmutableArray.CreateRange(Enumerable.Range(5 * g, 5)))];
        SumBundle[] bundles =
        [
            .. Enumerable.Range(0, 40_000)
                .Select(_ => new SumBundle(
                    [.. Enumerable.Range(0, 3).Select(_ => random.Next(2_000)).Distinct().Order()], random.NextDouble()))
                .DistinctBy(static b => string.Join(' ', b.Needs)),
        ];
        (double found, bool bound) = SumSearch.Greatest(bundles, groups, CancellationToken.None);
        Assert.True(bound);
        double firsts = bundles.Where(static b => b.Needs.All(static m => m % 5 == 0)).Sum(static b => b.Power);
        Assert.InRange(found, firsts, bundles.Sum(static b => b.Power));

        // One group of all: the best member alone, exactly, whatever its size.
        SumBundle[] alone = [.. Enumerable.Range(0, 2_000).Select(m => new SumBundle([m], random.NextDouble()))];
        (found, bound) = SumSearch.Greatest(alone, [[.. Enumerable.Range(0, 2_000)]], CancellationToken.None);
        Assert.False(bound);
        Assert.Equal(alone.Max(static b => b.Power), found, 1e-12);
    }

    /// <summary>The slider's study of one receiver looks at one emitter more too.</summary>
    [Fact]
    public void Study_of_one_receiver_looks_behind_the_limit_as_the_whole_study_does()
    {
        LoadedSite site = SiteLoader.Load(TestData.Demo("quernmoss.site.yaml"), out _)!;
        ReceiverFindings one = StudyService.RunOne(
            site, 0, new StudyOptions(), new StudyMemory(), null, CancellationToken.None);
        Assert.Equal(StudyService.Run(site, new StudyOptions()).Receivers[0].Limits!.More, one.Limits!.More);
        Assert.NotNull(one.Limits.More);
    }

    private static int[] Bits(int mask) => [.. Enumerable.Range(0, 8).Where(i => (mask >> i & 1) != 0)];

    private static int[] Members(int mask) => [.. Enumerable.Range(0, Emitters).Where(i => (mask >> i & 1) != 0)];

    // Multiples of 100 kHz from the channel: 2A - B and A + B - C land on it for many of them.
    private static ReceiverFindings Study(int[] levels, int set, int[][] groups)
    {
        int[] on = Members(set);
        string emitters = string.Join('\n', on.Select(i => string.Create(
            CultureInfo.InvariantCulture,
            $"  - {{ name: e{i}, frequency: {145.05 + (0.1 * (i + 1)):0.00} MHz, emission: 11K2F3E, level: {levels[i]} dBm }}")));
        IEnumerable<string> lines = groups.Select(static g => $"  - [{string.Join(", ", g.Select(static m => $"e{m}"))}]\n");
        string exclusive = groups.Length == 0 ? "" : "exclusive:\n" + string.Concat(lines);
        string text = $$"""
            spurless: 1
            site: emitters that exclude each other (invented)
            receivers:
              - { name: ear, frequency: 145.05 MHz, channel: 12.5 kHz, if_bandwidth: 8 kHz, noise_figure: 6 dB, iip3: -2 dBm }
            emitters:
            {{emitters}}
            {{exclusive}}search: { orders: 2-3, floor: -200 dBm }
            """;
        LoadedSite? site = SiteLoader.Load(text, "t.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers);
    }
}
