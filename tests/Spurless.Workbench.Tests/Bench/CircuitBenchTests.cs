using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests;
using Spurless.Sites.Tests.Documents;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Bench;

/// <summary>The demo's filter on the bench, and what the demo's site needs of it.</summary>
public sealed class CircuitBenchTests
{
    private const string Filter = "filters/three-tank.circuit.yaml";

    [Fact]
    public void With_nothing_moved_is_the_file_and_moved_is_what_would_be_written()
    {
        CircuitBench bench = Open();

        // docs/checks.md 9: 2.92 dB at 145.05 MHz by nodal analysis of another tool.
        Assert.Equal(2.92, bench.With(DeskSettings.None).Network!.At(145.05e6).InsertionLossDb, 0.005);
        DeskItem c3 = bench.Items.Single(static i => i.Name == "C3");
        DeskSettings moved = DeskSettings.None.With(c3, 1.5);
        double loss = bench.With(moved).Network!.At(145.05e6).InsertionLossDb;
        Assert.NotEqual(2.92, loss, 0.01);
        string text = bench.Keep(bench.Text, moved, out string? problem)!;
        Assert.Null(problem);
        Assert.Equal(bench.Text.Replace("1.6 pF, between: [b, c]", "1.5 pF, between: [b, c]", StringComparison.Ordinal), text);
        Assert.Equal(
            loss,
            CircuitBench.Open(text, Filter, new StubFiles(), out _)!.With(DeskSettings.None).Network!.At(145.05e6).InsertionLossDb,
            12);
    }

    [Fact]
    public void Keep_into_a_file_that_an_editor_changed_elsewhere_keeps_both()
    {
        CircuitBench bench = Open();
        DeskSettings moved = DeskSettings.None.With(bench.Items.Single(static i => i.Name == "C3"), 1.5);
        string edited = bench.Text.Replace("6.8 pF, between: [a, b]", "7.5 pF, between: [a, b]", StringComparison.Ordinal);
        string text = bench.Keep(edited, moved, out _)!;
        Assert.Contains("7.5 pF", text, StringComparison.Ordinal);
        Assert.Contains("1.5 pF", text, StringComparison.Ordinal);
    }

    [Fact]
    public void With_an_unknown_value_has_no_network_and_says_which()
    {
        string text = File.ReadAllText(TestData.Demo(Filter)).Replace(
            "1.6 pF, between: [b, c]", "unknown, range: [0.5 pF, 10 pF], between: [b, c]", StringComparison.Ordinal);
        CircuitBench bench = CircuitBench.Open(text, Filter, new StubFiles(), out _)!;
        TunedCircuit tuned = bench.With(DeskSettings.None);
        Assert.Null(tuned.Network);
        Assert.StartsWith("unknown: C3;", tuned.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_the_demo_every_mixture_of_the_receiver_gets_its_equal_share()
    {
        SiteNeeds needs = Needs();
        double Of(string name) => needs.Needs.Single(n => n.Name == name).NeededDb;

        // docs/checks.md 9, over noise: +33.9, +23.3, +22.2 (with our own transmitter, which a filter lets through: two carriers share),
        // +21.1 (second order), +14.1 (fifth), -1.9.
        Assert.Equal((33.9 + 10) / 3, Of("telemetry scanner"), 0.05);
        Assert.Equal((33.9 + 10) / 3, Of("gauging station"), 0.05);
        Assert.Equal((22.2 + 10) / 2, Of("waterworks base"), 0.05);
        Assert.Equal((22.2 + 10) / 2, Of("highways base"), 0.05);
        Assert.Equal((23.3 + 10) / 3, Of("regional paging"), 0.05);
        Assert.Equal((21.1 + 10) / 2, Of("broadcast"), 0.05);
        Assert.Equal((14.1 + 10) / 5, Of("haulage base"), 0.05);
        Assert.Equal((-1.9 + 10) / 3, Of("bus fleet base"), 0.05);
        Assert.DoesNotContain(needs.Needs, static n => n.Name is "repeater output" or "hospital paging");
        Assert.Equal(1, needs.MadeElsewhere);
        Assert.Equal(needs.Needs.OrderBy(static n => n.FrequencyHz), needs.Needs);
    }

    /// <summary>
    /// A filter that takes just what is needed brings every mixture of the receiver to the limit or under it, and one that takes 1 dB less
    /// does not.
    /// </summary>
    [Theory]
    [InlineData(0, true)]
    [InlineData(-1, false)]
    public void Needs_are_enough_and_no_more(double more, bool quiet)
    {
        SiteNeeds needs = Needs();
        Dictionary<int, double> taken = needs.Needs.ToDictionary(static n => n.Emitter, n => n.NeededDb + more);
        double worst = needs.Receiver.Products.Where(static p => p.Mechanism == Mechanism.Receiver)
            .Max(p => p.OverNoiseDb!.Value - p.Terms.Sum(t => Math.Abs(t.Coefficient) * taken.GetValueOrDefault(t.Emitter)));
        Assert.Equal(quiet, worst <= -10 + 1e-9);
    }

    private static CircuitBench Open()
    {
        CircuitBench? bench = CircuitBench.Open(
            File.ReadAllText(TestData.Demo(Filter)), Filter, new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return bench!;
    }

    private static SiteNeeds Needs()
    {
        LoadedSite site = SiteLoader.Load(TestData.Demo("quernmoss.site.yaml"), out IReadOnlyList<Diagnostic> findings)!;
        Assert.Empty(findings);
        return SiteNeeds.Of(site, 0, new StudyOptions());
    }
}
