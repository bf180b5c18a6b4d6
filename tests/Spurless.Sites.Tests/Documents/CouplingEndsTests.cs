using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Documents;

/// <summary>A coupling said at one end is the coupling said at the other.</summary>
public sealed class CouplingEndsTests
{
    private static string Text(string atA, string atB) => $$"""
        spurless: 1
        site: invented
        receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]
        emitters:
          - { name: a, frequency: 150 MHz, bandwidth: 0 kHz, power: 10 W, level: -38 dBm, turn_round_loss: 12 dB{{atA}} }
          - { name: b, frequency: 154.95 MHz, bandwidth: 0 kHz, power: 10 W, level: -38 dBm{{atB}} }
        """;

    // 2 x 150.000 - 154.950 = 145.050 MHz, made in a: 40 dBm less 30 dB arrive there, and 10 - 12 = -2 dBm leave, 42 dB under its power, so
    // that -80 dBm arrive of its -38 dBm.
    [Fact]
    public void Study_is_the_same_whichever_end_says_it()
    {
        ReceiverFindings there = Study(Text(", coupling: { b: 30 dB }", "")), here = Study(Text("", ", coupling_to: { a: 30 dB }"));
        ProductFinding made = there.Products.First(static p => p is { Mechanism: Mechanism.Transmitter, MadeIn: "a" });

        Assert.Equal(-80, made.LevelDbm!.Value, 6);
        Assert.Equal(
            there.Products.Select(static p => (p.Row, p.OverNoiseDb)), here.Products.Select(static p => (p.Row, p.OverNoiseDb)));
    }

    [Fact]
    public void Read_of_both_ends_that_agree_is_right_and_that_differ_is_refused_where_it_is_said_outward()
    {
        Assert.Empty(Findings(Text(", coupling: { b: 30 dB }", ", coupling_to: { a: 30 dB }")));
        Assert.Equal(
            "a.site.yaml:6:104: 31 dB from 'b' to 'a' here, and 30 dB where that one says it; keep one of the two",
            Assert.Single(Findings(Text(", coupling: { b: 30 dB }", ", coupling_to: { a: 31 dB }"))));
    }

    [Theory]
    [InlineData("b", "a coupling of an emitter to itself")]
    [InlineData("nobody", "there is no emitter 'nobody'")]
    public void Read_of_itself_or_of_nobody_is_refused(string name, string says) =>
        Assert.Contains(says, Assert.Single(Findings(Text("", $", coupling_to: {{ {name}: 30 dB }}"))), StringComparison.Ordinal);

    private static ReceiverFindings Study(string text) => StudyService.Run(
        SiteLoader.Load(text, "a.site.yaml", new SiteFolder("a.site.yaml"), out _)!, new StudyOptions()).Receivers[0];

    private static string[] Findings(string text)
    {
        _ = SiteLoader.Load(text, "a.site.yaml", new SiteFolder("a.site.yaml"), out IReadOnlyList<Diagnostic> findings);
        return [.. findings.Select(static f => f.ToString())];
    }
}
