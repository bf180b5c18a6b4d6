using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;
using Spurless.Sites.Tests.Plans;

namespace Spurless.Sites.Tests.Comparisons;

/// <summary>
/// Two studies side by side, of sites by chance and what was done to them: every mixture of either stands in just one place, and turned
/// round the comparison says the same with 'appeared' and 'went' exchanged.
/// </summary>
public sealed class StudyComparisonLawsTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(501, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Of_every_mixture_stands_in_one_place(int seed)
    {
        (StudyResult before, StudyResult now) = Pair(seed);
        foreach (ReceiverComparison r in StudyComparison.Of(before, now).Receivers)
        {
            Assert.Equal(r.Now?.Products.Count ?? 0, r.Appeared.Count + r.Changed.Count + r.Unchanged);
            Assert.Equal(r.Before?.Products.Count ?? 0, r.Went.Count + r.Changed.Count + r.Unchanged);
            HashSet<ProductRow> was = [.. (r.Before?.Products ?? []).Select(static p => p.Row)];
            HashSet<ProductRow> are = [.. (r.Now?.Products ?? []).Select(static p => p.Row)];
            Assert.Equal(are.Except(was).ToHashSet(), r.Appeared.Select(static p => p.Row).ToHashSet());
            Assert.Equal(was.Except(are).ToHashSet(), r.Went.Select(static p => p.Row).ToHashSet());
            Assert.All(r.Changed, static c => Assert.Equal(c.Before.Row, c.Now.Row));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Of_turned_round_says_the_same_the_other_way(int seed)
    {
        (StudyResult before, StudyResult now) = Pair(seed);
        Dictionary<string, ReceiverComparison> back = StudyComparison.Of(now, before).Receivers.ToDictionary(static r => r.Name);
        foreach (ReceiverComparison r in StudyComparison.Of(before, now).Receivers)
        {
            ReceiverComparison turned = back[r.Name];
            Assert.Equal(r.Appeared.Select(static p => p.Row), turned.Went.Select(static p => p.Row));
            Assert.Equal(r.Went.Select(static p => p.Row), turned.Appeared.Select(static p => p.Row));
            Assert.Equal(r.Unchanged, turned.Unchanged);
            Dictionary<ProductRow, double?> by = turned.Changed.ToDictionary(static c => c.Now.Row, static c => c.ByDb);
            Assert.All(r.Changed, c => Assert.Equal(c.ByDb, -by[c.Now.Row]));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Of_a_study_and_itself_is_no_change(int seed)
    {
        StudyResult study = Study(Made(seed));
        Assert.All(
            StudyComparison.Of(study, study).Receivers,
            static r => Assert.Equal((0, 0, 0, r.Now!.Products.Count), (r.Appeared.Count, r.Went.Count, r.Changed.Count, r.Unchanged)));
    }

    /// <summary>
    /// One emitter weaker by so many dB: mixtures without it keep their level, those with it fall by as many times as it takes part (not
    /// capped ones, and summed over the stages of the chain).
    /// </summary>
    [Theory]
    [InlineData(501, 1)]
    [InlineData(502, 3)]
    [InlineData(504, 6)]
    [InlineData(507, 10)]
    public void Of_a_weaker_emitter_changes_its_mixtures_by_its_exponent(int seed, int weakerDb)
    {
        string text = Made(seed);
        Match level = Regex.Match(text, @"name: (e\d+), .*level: (-\d+) dBm");
        int dbm = int.Parse(level.Groups[2].Value, CultureInfo.InvariantCulture);
        string fallen = level.Value.Replace(
            string.Create(CultureInfo.InvariantCulture, $"level: {dbm} dBm"),
            string.Create(CultureInfo.InvariantCulture, $"level: {dbm - weakerDb} dBm"),
            StringComparison.Ordinal);
        string weaker = text.Replace(level.Value, fallen, StringComparison.Ordinal);
        string name = level.Groups[1].Value;
        foreach (ReceiverComparison r in StudyComparison.Of(Study(text), Study(weaker)).Receivers)
        {
            Assert.DoesNotContain(r.Appeared, static p => !p.Saturated);
            Assert.All(r.Went.Where(static p => !p.Saturated), p => Assert.Contains(p.Terms, t => t.Name == name));
            foreach (ChangedProduct c in r.Changed.Where(static c => !c.Now.Saturated && !c.Before.Saturated))
            {
                int times = Math.Abs(c.Now.Terms.Single(t => t.Name == name).Coefficient);
                if (c.Now.Places.Count(static p => p.Mechanism == Mechanism.Receiver) == 1)
                {
                    Assert.Equal(-times * weakerDb, c.ByDb!.Value, 1e-4);
                }
            }
        }
    }

    private static (StudyResult Before, StudyResult Now) Pair(int seed)
    {
        string text = Made(seed);
        Random random = new(seed);

        // Some levels move, a carrier moves a channel, an emitter goes.
        string now = Regex.Replace(text, @"level: (-\d+) dBm", m => random.Next(3) > 0 ? m.Value : string.Create(
            CultureInfo.InvariantCulture, $"level: {int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) - random.Next(1, 8)} dBm"));
        now = Regex.Replace(now, @"^  - \{ name: e11, .*\n", "", RegexOptions.Multiline);
        now = Regex.Replace(now, @"^exclusive:.*\n", "", RegexOptions.Multiline);
        return (Study(text), Study(now));
    }

    private static string Made(int seed) => Regex.Replace(
        MadeSites.Of(seed, emitters: 12), "^search: .*$", "search: { orders: 2-7, signals: 3 }", RegexOptions.Multiline);

    private static StudyResult Study(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "compared.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return StudyService.Run(site!, new StudyOptions());
    }
}
