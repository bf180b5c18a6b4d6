using Spurless.Mixing.Search;

namespace Spurless.CommandLine;

/// <summary>Shows a search's progress on a line.</summary>
internal sealed class SearchProgressLine(ProgressLine line) : IProgress<SearchProgress>
{
    public void Report(SearchProgress value) => line.Report(value.Fraction);
}
