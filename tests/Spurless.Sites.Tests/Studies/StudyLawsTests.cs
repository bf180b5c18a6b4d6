using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;
using Spurless.Sites.Tests.Plans;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// What a study must keep whatever the site is: the way of writing changes nothing, what is taken away takes away what it made, what is
/// asked for more finds no less. Sites by chance; the laws follow from docs/method/product-levels.md and product-search.md.
/// </summary>
public sealed class StudyLawsTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(301, 10)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void The_sites_have_mixtures_to_hold_the_laws_to(int seed)
    {
        ProductFinding[] all = [.. Study(Made(seed)).Receivers.SelectMany(static r => r.Products)];
        Assert.True(all.Length >= 2, $"{all.Length} mixtures");
        Assert.Contains(all, static p => p.LevelDbm is not null);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Order_of_the_emitters_changes_nothing(int seed)
    {
        string text = Made(seed);
        string turned = Emitters(text, static rows => rows.AsEnumerable().Reverse());
        Assert.NotEqual(text, turned);
        Same(Study(text), Study(turned));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Names_of_the_emitters_change_nothing_but_themselves(int seed)
    {
        string text = Made(seed);

        // The order of names decides between equals only: new names in the old order.
        string renamed = Regex.Replace(text, @"\be(\d+)\b", static m => "ö " + m.Value + " é");
        StudyResult before = Study(text);
        StudyResult after = Study(renamed);
        Same(before, after, static n => Regex.Replace(n, @"^e\d+$", static m => "ö " + m.Value + " é"));
    }

    [Theory]
    [InlineData("kHz", 1e3)]
    [InlineData("Hz", 1)]
    [InlineData("GHz", 1e9)]
    public void Units_of_the_frequencies_change_nothing(string unit, double hertz)
    {
        foreach (int seed in Enumerable.Range(321, 4))
        {
            string text = Made(seed);
            string other = Regex.Replace(text, @"frequency: ([\d.]+) MHz", m => string.Create(
                CultureInfo.InvariantCulture,
                $"frequency: {decimal.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) * 1_000_000m / (decimal)hertz} {unit}"));
            Assert.NotEqual(text, other);
            Same(Study(text), Study(other));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void An_emitter_taken_away_takes_its_own_products_and_no_other(int seed)
    {
        string text = Made(seed, followers: 0);
        string without = Emitters(Regex.Replace(text, @"^exclusive:.*\n", "", RegexOptions.Multiline), static rows => rows.SkipLast(1));
        string last = Regex.Match(Rows(text)[^1], @"name: (\w+)").Groups[1].Value;
        StudyResult all = Study(Regex.Replace(text, @"^exclusive:.*\n", "", RegexOptions.Multiline));
        StudyResult fewer = Study(without);
        foreach ((ReceiverFindings more, ReceiverFindings less) in all.Receivers.Zip(fewer.Receivers))
        {
            // What is capped depends on all carriers at the stage.
            Dictionary<string, double?> kept = more.Products.Where(p => p.Terms.All(t => t.Name != last) && !p.Saturated)
                .ToDictionary(static p => Key(p), static p => p.LevelDbm);
            Dictionary<string, ProductFinding> left = less.Products.ToDictionary(static p => Key(p));
            foreach ((string key, double? level) in kept)
            {
                if (left.TryGetValue(key, out ProductFinding? same) && !same.Saturated)
                {
                    Assert.Equal(level, same.LevelDbm);
                }
                else
                {
                    Assert.True(same is not null, $"{key} is gone without {last}");
                }
            }

            Assert.DoesNotContain(less.Products, p => p.Terms.Any(t => t.Name == last));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Emitters_that_exclude_each_other_leave_the_rest_of_the_list_as_it_is(int seed)
    {
        string text = Regex.Replace(Made(seed, emitters: 9), @"^exclusive:.*\n", "", RegexOptions.Multiline);
        StudyResult all = Study(text);
        StudyResult apart = Study(text + "exclusive: [[e0, e1], [e2, e3, e4]]\n");
        string[][] groups = [["e0", "e1"], ["e2", "e3", "e4"]];
        foreach ((ReceiverFindings more, ReceiverFindings less) in all.Receivers.Zip(apart.Receivers))
        {
            string[] expected =
            [
                .. more.Products.Where(p => !groups.Any(g => p.Terms.Count(t => g.Contains(t.Name)) > 1)).Select(Line),
            ];
            Assert.Equal(expected, less.Products.Select(Line));
            Assert.True(!(less.SumOverNoiseDb > more.SumOverNoiseDb + 1e-9), "the sum cannot grow by what is excluded");
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_lower_floor_adds_rows_and_changes_none(int seed)
    {
        LoadedSite site = Load(Made(seed));
        double[] floors = [-110, -130, -150, double.NegativeInfinity];
        HashSet<string>[] lists = [.. floors.Select(f => Lines(StudyService.Run(site, new StudyOptions { FloorDbm = f })))];
        for (int i = 1; i < lists.Length; i++)
        {
            Assert.Subset(lists[i], lists[i - 1]);
        }

        StudyResult cut = StudyService.Run(site, new StudyOptions { FloorDbm = -130 });
        foreach (ProductFinding p in cut.Receivers.SelectMany(static r => r.Products))
        {
            Assert.True(p.InChannelLevelDbm is null or >= -130 - 1e-6, $"{Key(p)} at {p.InChannelLevelDbm}");
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Wider_limits_add_rows_and_change_none(int seed)
    {
        LoadedSite site = Load(Made(seed, emitters: 9));
        (int Lowest, int Highest, int Signals)[] limits = [(3, 3, 2), (2, 3, 2), (2, 5, 3), (2, 6, 4)];
        HashSet<string>[] lists =
        [
            .. limits.Select(l => Lines(StudyService.Run(site, new StudyOptions { Orders = (l.Lowest, l.Highest), Signals = l.Signals }))),
        ];
        for (int i = 1; i < lists.Length; i++)
        {
            Assert.Subset(lists[i], lists[i - 1]);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Top_is_the_head_of_the_whole_list_and_counts_the_rest(int seed)
    {
        LoadedSite site = Load(Made(seed));
        StudyResult all = StudyService.Run(site, new StudyOptions());
        StudyResult top = StudyService.Run(site, new StudyOptions { Top = 3 });
        foreach ((ReceiverFindings whole, ReceiverFindings head) in all.Receivers.Zip(top.Receivers))
        {
            Assert.Equal(whole.Products.Take(3).Select(Line), head.Products.Select(Line));
            Assert.Equal(Math.Max(0, whole.Products.Count - 3), head.ProductsLeftOut);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Thresholds_move_verdicts_and_nothing_else(int seed)
    {
        LoadedSite site = Load(Made(seed));
        StudyResult usual = StudyService.Run(site, new StudyOptions());
        StudyResult strict = StudyService.Run(site, new StudyOptions { HarmfulFromDb = -6, MarginalFromDb = -15 });
        foreach ((ReceiverFindings a, ReceiverFindings b) in usual.Receivers.Zip(strict.Receivers))
        {
            Assert.Equal(
                a.Products.Select(static p => (Key(p), p.InChannelLevelDbm)), b.Products.Select(static p => (Key(p), p.InChannelLevelDbm)));
            Assert.True(b.Harmful >= a.Harmful);
            Assert.Equal(b.Products.Count(static p => p.OverNoiseDb >= -6), b.Harmful);
            foreach ((ProductFinding one, ProductFinding other) in a.Products.Zip(b.Products))
            {
                Assert.True(!(other.Chance < one.Chance), $"{Key(one)}: a lower threshold is no less likely reached");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Receivers_know_nothing_of_each_other(int seed)
    {
        string text = Made(seed, followers: 0);
        string one = Regex.Replace(text, @"  - name: link \d[\s\S]*?(?=  - name: link|emitters:)", "");
        StudyResult all = Study(text);
        ReceiverFindings alone = Assert.Single(Study(one).Receivers);
        Assert.Equal(alone.Products.Select(Line), all.Receivers[0].Products.Select(Line));
        Assert.Equal(alone.NoiseFloorDbm, all.Receivers[0].NoiseFloorDbm);
        Assert.Equal(alone.SumOverNoiseDb, all.Receivers[0].SumOverNoiseDb);
    }

    /// <summary>
    /// A pad of a dB ahead of everything: a product of order n made behind it falls by n a, its noise at the receiver's input stays, the
    /// sensitivity at the antenna falls by a (docs/method/evidence.md).
    /// </summary>
    [Theory]
    [InlineData(401, 1)]
    [InlineData(402, 3)]
    [InlineData(403, 6)]
    [InlineData(404, 10)]
    [InlineData(405, 2.5)]
    public void A_pad_ahead_of_all_takes_as_many_times_as_the_order(int seed, double padDb)
    {
        string text = Regex.Replace(Made(seed, followers: 0), @"    (levels_at|external_noise): .*\n", "");
        string padded = text.Replace(
            "    chain:\n",
            string.Create(CultureInfo.InvariantCulture, $"    chain:\n      - attenuator: {padDb} dB\n"),
            StringComparison.Ordinal);
        StudyOptions everything = new() { FloorDbm = double.NegativeInfinity };
        StudyResult before = StudyService.Run(Load(text), everything);
        StudyResult after = StudyService.Run(Load(padded), everything);
        int held = 0;
        foreach ((ReceiverFindings a, ReceiverFindings b) in before.Receivers.Zip(after.Receivers))
        {
            Assert.Equal(a.NoiseFloorDbm, b.NoiseFloorDbm, 1e-9);
            Assert.Equal(a.SensitivityAtAntennaDbm + padDb, b.SensitivityAtAntennaDbm, 1e-9);
            Dictionary<string, ProductFinding> less = b.Products.ToDictionary(static p => Key(p));
            foreach (ProductFinding p in a.Products.Where(static p => p is { LevelDbm: not null, Mechanism: Mechanism.Receiver }))
            {
                foreach ((MixingPlace was, MixingPlace then) in p.Places.Zip(less[Key(p)].Places))
                {
                    // Under -60 dBm nothing is capped: no stage of these sites delivers so little at most.
                    bool weak = was.LevelDbm < -60;
                    if (was.Mechanism == Mechanism.Receiver && weak)
                    {
                        Assert.Equal(was.LevelDbm!.Value - (p.Order * padDb), then.LevelDbm!.Value, 3e-5);
                        held++;
                    }
                }
            }
        }

        Assert.True(held > 0, "no product to hold the law to:\n" + string.Join('\n', Lines(before)) + "\n" + text);
    }

    /// <summary>A level read at the receiver's input is the chain's gain lower than the same carrier read at the antenna.</summary>
    [Theory]
    [InlineData("receiver", -3.2)]
    [InlineData("feedline end", -1.2)]
    [InlineData("antenna", 0)]
    public void Levels_at_says_where_the_level_was_read(string at, double gainDb)
    {
        string text = $$"""
            spurless: 1
            site: made for a test
            receivers:
              - { name: r, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm, levels_at: {{at}},
                  chain: [ { feedline: { loss: 1.2 dB at 145 MHz } }, { attenuator: 2 dB } ] }
            emitters:
              - { name: a, frequency: 145 MHz, bandwidth: 0 kHz, level: -60 dBm }

            """;
        CarrierFinding carrier = Assert.Single(Assert.Single(Study(text).Receivers).Carriers);
        Assert.Equal(-60 - gainDb, carrier.LevelAtAntennaDbm!.Value, 1e-9);
        Assert.Equal(-60 - gainDb - 3.2, carrier.LevelAtReceiverDbm!.Value, 1e-9);
    }

    private static void Same(StudyResult before, StudyResult after, Func<string, string>? renamed = null)
    {
        foreach ((ReceiverFindings a, ReceiverFindings b) in before.Receivers.Zip(after.Receivers))
        {
            Assert.Equal(a.NoiseFloorDbm, b.NoiseFloorDbm);
            Assert.Equal(
                a.Products.Select(p => Line(p, renamed)).Order(StringComparer.Ordinal),
                b.Products.Select(Line).Order(StringComparer.Ordinal));
            Assert.Equal(a.SumOverNoiseDb ?? 0, b.SumOverNoiseDb ?? 0, 1e-9);
            Assert.Equal(
                a.OtherCauses.Select(c => Cause(c, renamed)).Order(StringComparer.Ordinal),
                b.OtherCauses.Select(static c => Cause(c, null)).Order(StringComparer.Ordinal));
            Assert.Equal((a.Harmful, a.Marginal), (b.Harmful, b.Marginal));
        }
    }

    private static string Cause(OtherCause cause, Func<string, string>? renamed) => FormattableString.Invariant(
        $"{cause.Cause} {Whose(cause, renamed)} {cause.OverNoiseDb:0.000000} {cause.Verdict}");

    // Of carriers alike in level the first of the file is named as the strongest of a sum.
    private static string Whose(OtherCause cause, Func<string, string>? renamed) =>
        cause.Cause != "blocking" && cause.Emitter is { } e ? renamed?.Invoke(e) ?? e : "";

    private static HashSet<string> Lines(StudyResult study) => [.. study.Receivers.SelectMany(static r => r.Products).Select(Line)];

    private static string Line(ProductFinding p) => Line(p, null);

    private static string Line(ProductFinding p, Func<string, string>? renamed) => FormattableString.Invariant(
        $"{Key(p, renamed)} {p.InChannelLevelDbm:0.000000} {p.SigmaDb:0.000000} {p.Verdict} {p.OffsetHz}");

    private static string Key(ProductFinding p, Func<string, string>? renamed = null)
    {
        string made = p.Mechanism == Mechanism.Transmitter ? " in " + (renamed?.Invoke(p.MadeIn) ?? p.MadeIn) : "";
        return p.Receiver + ": " + string.Join(
            ' ', p.Terms.Select(t => $"{t.Coefficient} {renamed?.Invoke(t.Name) ?? t.Name}").Order(StringComparer.Ordinal)) + made;
    }

    // Wide enough a search that something lands on nearly every receiver.
    private static string Made(int seed, int? followers = null, int emitters = 12) => Regex.Replace(
        MadeSites.Of(seed, followers, emitters), "^search: .*$", "search: { orders: 2-7, signals: 3 }", RegexOptions.Multiline);

    private static string[] Rows(string text) =>
        [.. text.Split('\n').Where(static l => l.StartsWith("  - { name: ", StringComparison.Ordinal))];

    private static string Emitters(string text, Func<string[], IEnumerable<string>> change)
    {
        string[] lines = text.Split('\n');
        int first = Array.FindIndex(lines, static l => l.StartsWith("  - { name: ", StringComparison.Ordinal));
        string[] rows = Rows(text);
        return string.Join('\n', (string[])[.. lines[..first], .. change(rows), .. lines[(first + rows.Length)..]]);
    }

    private static StudyResult Study(string text) => StudyService.Run(Load(text), new StudyOptions());

    private static LoadedSite Load(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "laws.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return site!;
    }
}
