using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

/// <summary>
/// Where harm begins elsewhere than at the noise no sentence says 'over the noise' of what lies under it, nor the reverse.
/// </summary>
public sealed class StudyThresholdTests
{
    [Theory]
    [InlineData(-30.0, -30.0)]
    [InlineData(-6.0, -20.0)]
    [InlineData(30.0, -10.0)]
    [InlineData(60.0, 0.0)]
    public void Answer_of_the_demo_says_of_each_level_on_which_side_of_the_noise_it_lies(double harmful, double marginal)
    {
        foreach (string site in (string[])["quernmoss.site.yaml", "quernmoss-filtered.site.yaml"])
        {
            StudyResult study = DemoSites.Study(site, new StudyOptions { HarmfulFromDb = harmful, MarginalFromDb = marginal });
            foreach (ReceiverFindings receiver in study.Receivers)
            {
                ProductFinding[] over = [.. receiver.Products.Where(static p => p.OverNoiseDb is not null)];
                int count = over.Count(static p => p.Verdict == Verdict.Harmful);
                string says = StudyWords.Answer(receiver, Typography.Plain);
                if (!over.Concat(receiver.WithoutFilter?.Products ?? []).Any(
                    static p => p.OverNoiseDb is { } db && db >= 0 != (p.Verdict == Verdict.Harmful)))
                {
                    continue;
                }

                Assert.StartsWith("By the threshold that was set, ", says, StringComparison.Ordinal);
                double most = over.Max(static p => p.OverNoiseDb!.Value);
                Assert.Contains(
                    $"stands {Figures.BareDb(most)} dB {(most >= 0 ? "over" : "under")} the noise", says, StringComparison.Ordinal);
                Assert.Contains(
                    count switch { 0 => "no mixture on ", 1 => "one mixture on ", _ => Figures.CountInWords(count) + " mixtures on " },
                    says,
                    StringComparison.Ordinal);
                Assert.DoesNotContain("lands on", says.Split(". ")[0], StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Answer_by_the_usual_threshold_speaks_of_the_noise_alone() => RandomStudies.Receiver().Sample(
        static receiver => Assert.DoesNotContain(
            "threshold that was set", StudyWords.Answer(receiver, Typography.Plain), StringComparison.Ordinal),
        iter: 100);
}
