using Spurless.Fit;
using Spurless.Reports.Bench;

namespace Spurless.CommandLine;

/// <summary>Shows a fit's progress on a line, with the best difference so far.</summary>
internal sealed class FitProgressLine(ProgressLine line) : IProgress<FitProgress>
{
    public void Report(FitProgress value) => line.Report(value.Fraction, value.Best is { } best ? FitWords.SoFar(best) : null);
}
