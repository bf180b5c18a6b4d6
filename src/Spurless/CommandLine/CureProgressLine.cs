using Spurless.Sites.Cures;

namespace Spurless.CommandLine;

/// <summary>Shows on a line how many ways out were tried.</summary>
internal sealed class CureProgressLine(ProgressLine line) : IProgress<CureProgress>
{
    public void Report(CureProgress value) => line.Report(value.Of == 0 ? 0 : (double)value.Tried / value.Of);
}
