using Spurless.Drawing.Words;
using Spurless.Sites.Measuring;

namespace Spurless.Pages.Study;

/// <summary>The sentence of what to measure first.</summary>
internal static class MeasureWords
{
    /// <summary>Who, and what that settles.</summary>
    public static string Say(MeasureFirstAnswer answer)
    {
        MeasureStep first = answer.First[0], last = answer.First[^1];
        string many = answer.Candidates == 1 ? "One mixture waits" : $"{Figures.Count(answer.Candidates, Typography.Fine)} mixtures wait";
        string part = first.TakesPart == answer.Candidates && answer.Candidates > 1 ? "all of them"
            : answer.Candidates == 1 ? "it" : Figures.Count(first.TakesPart, Typography.Fine);
        string most = $"the {first.Name} takes part in {part}";
        string these = $" These {Figures.CountInWords(answer.First.Count)}";
        string settled = last.Settled == answer.Candidates ? "all" : Figures.Count(last.Settled, Typography.Fine);
        string all = answer.First.Count == 1 ? ""
            : last.Settled == 0 ? $"{these} settle none yet: each mixture waits for more."
            : $"{these} together settle {settled}.";
        return $"{many} for a level; {most}.{all} A click leads to the cell.";
    }
}
