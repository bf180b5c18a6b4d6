using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Measuring;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Measuring;

/// <summary>What to measure first, against really measuring it: levels are written into the site and the study run again.</summary>
public sealed class MeasureFirstServiceTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 25)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_what_a_step_settles_is_settled_when_it_is_measured(int seed)
    {
        string text = Site(seed);
        ReceiverFindings receiver = Study(text);
        MeasureFirstAnswer answer = Ask(receiver, steps: 9);
        int open = receiver.Products.Count(static p => p.LevelDbm is null);
        Assert.Equal(open, answer.Candidates);
        Assert.Equal(open, answer.Counts.Sum(static c => c.Count));
        foreach (MeasureStep step in answer.First)
        {
            Assert.Equal(
                receiver.Products.Count(p => p.LevelDbm is null && p.Terms.Any(t => t.Emitter == step.Emitter)), step.TakesPart);
            text = Measured(text, step.Name);

            // Measured faint: a mixture that gets a level under the floor is settled too, so none is counted but those without one.
            Assert.Equal(open - step.Settled, Study(text).Products.Count(static p => p.LevelDbm is null));
        }

        // With as many steps as it takes, nothing is left open.
        Assert.Equal(open, answer.First.Count == 0 ? 0 : answer.First[^1].Settled);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_names_each_once_and_only_what_is_not_known(int seed)
    {
        ReceiverFindings receiver = Study(Site(seed));
        MeasureFirstAnswer answer = Ask(receiver, steps: 9);
        Assert.Equal(answer.First.Count, answer.First.Select(static s => s.Emitter).Distinct().Count());
        Assert.All(answer.First, s => Assert.Null(receiver.Carriers[s.Emitter].LevelAtAntennaDbm));
        Assert.Equal(answer.First.Select(static s => s.Settled).Order(), answer.First.Select(static s => s.Settled));

        // Asked for fewer it says the same first ones.
        Assert.Equal(answer.First.Take(2), Ask(receiver, steps: 2).First);
    }

    /// <summary>Where only low orders wait, each for one level, the first is the one that most mixtures wait for: by counting.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_the_first_is_what_most_of_the_low_orders_wait_for(int seed)
    {
        ReceiverFindings receiver = Study(Site(seed, orders: "2-3"));
        if (Ask(receiver, steps: 1).First is not [MeasureStep first])
        {
            return;
        }

        double Worth(int emitter) => receiver.Products.Where(p => p.LevelDbm is null && p.Terms.Any(t => t.Emitter == emitter))
            .Sum(p => 1.0 / p.Terms.Count(t => receiver.Carriers[t.Emitter].LevelAtAntennaDbm is null));
        double[] worth = [.. receiver.Carriers.Select((c, i) => c.LevelAtAntennaDbm is null ? Worth(i) : 0)];
        Assert.Equal(worth.Max(), worth[first.Emitter], 1e-9);
    }

    [Fact]
    public void Ask_where_every_level_is_known_there_is_nothing_to_measure()
    {
        string text = Site(3);
        foreach (Match row in Regex.Matches(text, @"name: (e\d), "))
        {
            text = Measured(text, row.Groups[1].Value);
        }

        MeasureFirstAnswer answer = Ask(Study(text), steps: 5);
        Assert.Equal((0, 0, 0), (answer.Candidates, answer.Counts.Count, answer.First.Count));
    }

    private static string Site(int seed, string orders = "2-5")
    {
        Random random = new(seed);
        string text = "spurless: 1\nsite: made for a test\nreceivers:\n  - { name: r, frequency: 145 MHz, channel: 25 kHz, "
            + "noise_figure: 6 dB, iip3: -8 dBm }\nemitters:\n";
        for (int i = 0; i < 6; i++)
        {
            long hz = 144_000_000 + (random.Next(1, 160) * 12_500L);
            hz = hz == 145_000_000 ? hz + 25_000 : hz;
            text += FormattableString.Invariant($"  - {{ name: e{i}, frequency: {hz} Hz, emission: 11K2F3E")
                + (random.Next(3) == 0 ? ", level: -60 dBm" : "") + " }\n";
        }

        return text + string.Create(CultureInfo.InvariantCulture, $"search: {{ orders: {orders}, signals: 3 }}\n");
    }

    private static string Measured(string text, string name) => Regex.Replace(
        text, $@"(name: {name}, .*emission: 11K2F3E) \}}", "$1, level: -60 dBm }");

    private static MeasureFirstAnswer Ask(ReceiverFindings receiver, int steps) =>
        MeasureFirstService.Ask(new MeasureFirstQuestion { Receiver = receiver, Steps = steps });

    private static ReceiverFindings Study(string text)
    {
        LoadedSite? site = SiteLoader.Load(text, "first.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers);
    }
}
