using System.Reflection;
using Spurless.Reports.Surveys;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Tests.Surveys;

public sealed class SurveyRemarkWordsTests
{
    private static readonly SurveyRemark[] All =
    [
        new SurveyRemark.NoiseAbovePadded("a.csv", 4.25), new SurveyRemark.NoiseMoves("a.csv", 7), new SurveyRemark.SpacingCounted(),
        new SurveyRemark.InterceptTold(true, 6, -3.25, 0.5), new SurveyRemark.InterceptTold(false, 6, -3.25, 0.5),
        new SurveyRemark.NothingTellsApart(), new SurveyRemark.PadTellsOf("a.csv", true), new SurveyRemark.MaximaHeld(),
        new SurveyRemark.AtInstrument(), new SurveyRemark.ChainTooShort(["cable.csv", "antenna.csv"]),
        new SurveyRemark.RecordedRows("a.sigmf-meta", 1_000, 12, 0.02), new SurveyRemark.FullScaleUnknown("a.sigmf-meta"),
        new SurveyRemark.Clipped("a.sigmf-meta", 0.0123),
    ];

    /// <summary>
    /// Whoever looks at the page has no options: none is named there; whoever typed the command is told which one mends it.
    /// </summary>
    [Fact]
    public void Page_names_no_option_and_the_command_those_that_mend()
    {
        IEnumerable<Type> kinds = typeof(SurveyRemark).GetNestedTypes(BindingFlags.Public);
        Assert.Equal(kinds.Select(static k => k.Name).Order(), All.Select(static r => r.GetType().Name).Distinct().Order());

        IReadOnlyList<string> typed = SurveyRemarkWords.Of(All);
        IReadOnlyList<string> shown = SurveyRemarkWords.OnPage(All);

        Assert.All(shown, static s => Assert.DoesNotContain("--", s, StringComparison.Ordinal));
        foreach (string option in (string[])["--resolution", "--padded", "--pad", "--intercept", "--chain", "--gain", "--full-scale"])
        {
            Assert.Contains(typed, s => s.Contains(option, StringComparison.Ordinal));
        }

        Assert.All(typed.Concat(shown), static s => Assert.Matches("^[a-z].*[A-Za-z0-9]$", s));
    }

    [Fact]
    public void Figures_stand_in_the_sentences()
    {
        IReadOnlyList<string> said = SurveyRemarkWords.Of(All);

        Assert.Contains(said, static s => s.StartsWith("the noise of a.csv is 4.2 dB higher than", StringComparison.Ordinal)
            || s.StartsWith("the noise of a.csv is 4.3 dB higher than", StringComparison.Ordinal));
        Assert.Contains(said, static s => s.StartsWith("of the samples of a.sigmf-meta 1.23 % stand", StringComparison.Ordinal));
        Assert.Contains(said, static s => s.Contains("its 12 rows are 20 ms long", StringComparison.Ordinal));
        Assert.Contains(said, static s => s.Contains("told by 6 of its own lines", StringComparison.Ordinal));
    }
}
