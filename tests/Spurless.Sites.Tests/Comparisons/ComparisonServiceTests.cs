using Spurless.Files.Diagnostics;
using Spurless.Sites.Comparisons;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Comparisons;

public class ComparisonServiceTests
{
    private const string Site = """
        spurless: 1
        site: invented
        receivers: [{ name: r, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]
        emitters:
          - { name: a, frequency: 145.15 MHz, bandwidth: 0 kHz, level: -30 dBm }
          - { name: b, frequency: 145.25 MHz, bandwidth: 0 kHz, level: -30 dBm }
        """;

    [Fact]
    public void Ask_site_against_itself_finds_no_difference()
    {
        StudyComparison comparison = Ask(Site, Site).Answer!;
        ReceiverComparison receiver = Assert.Single(comparison.Receivers);
        Assert.Equal((0, 0, 0), (receiver.Appeared.Count, receiver.Went.Count, receiver.Changed.Count));
        Assert.True(receiver.Unchanged > 0);
    }

    /// <summary>2 a - b: one dB less of a is two dB less of it, by the exponents of the term.</summary>
    [Fact]
    public void Ask_weaker_emitter_takes_its_exponent_off()
    {
        StudyComparison comparison =
            Ask(Site, Site.Replace(
            "145.15 MHz, bandwidth: 0 kHz, level: -30 dBm", "145.15 MHz, bandwidth: 0 kHz, level: -31 dBm", StringComparison.Ordinal))
            .Answer!;
        ChangedProduct third = Assert.Single(comparison.Receivers[0].Changed, static c => c.Now.Order == 3);
        Assert.Equal(-2, third.ByDb!.Value, 1e-6);
    }

    private static Outcome<StudyComparison> Ask(string before, string now) =>
        ComparisonService.Ask(
            new ComparisonQuestion { Before = Load(before), Now = Load(now) }, null, TestContext.Current.CancellationToken);

    private static LoadedSite Load(string text)
    {
        DiagnosticBag findings = new();
        return SourceReader.Site(SourceFile.OfText("invented.site.yaml", text, new StubFiles()), findings)
            ?? throw new InvalidOperationException(string.Join('\n', findings.InOrder()));
    }
}
