using Spurless.Files.Diagnostics;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Plans;

/// <summary>A channel that is written into the site's text is the channel that the plan weighed.</summary>
public sealed class MovedTextTests
{
    [Theory]
    [InlineData(null)]
    [InlineData(-1_600_000L)]
    public void Of_the_demo_studied_from_its_text_counts_what_the_plan_promised(long? shift)
    {
        SourceFile source = SourceFile.Read(DemoSites.PathOf("quernmoss.site.yaml"), FileKind.Site, new DiagnosticBag())!;
        LoadedSite site = SiteLoader.Load(source, out _)!;
        CancellationToken cancel = TestContext.Current.CancellationToken;
        PlanAnswer answer = PlanService.Ask(
            new PlanQuestion { Site = site, FromHz = 145_000_000, ToHz = 145_200_000, RasterHz = 12_500, ShiftHz = shift }, null, cancel)
            .Answer!;
        Assert.True(answer.Offered.Count > 8);
        foreach (PlanChannel channel in answer.Offered)
        {
            string text = MovedText.Of(source.Text, site.Document, 0, channel.FrequencyHz, shift)!;
            LoadedSite moved = SiteLoader.Load(SourceFile.OfText(source.Path, text, source.Folder), out _)!;
            ReceiverFindings found = StudyService.Run(moved, new StudyOptions(), null, cancel).Receivers[0];
            ProductFinding[] made = [.. found.Products.Where(static p => p.Mechanism == Mechanism.Receiver)];
            Assert.Equal(channel.FrequencyHz, found.FrequencyHz);
            Assert.Equal(
                (channel.Harmful, channel.Marginal, channel.WorstOverNoiseDb),
                (made.Count(static p => p.Verdict == Verdict.Harmful), made.Count(static p => p.Verdict == Verdict.Marginal),
                    made.Max(static p => p.OverNoiseDb)));
            Assert.All(
                source.Text.Split('\n').Where(static l => l.StartsWith('#')), l => Assert.Contains(l, text, StringComparison.Ordinal));
        }
    }
}
