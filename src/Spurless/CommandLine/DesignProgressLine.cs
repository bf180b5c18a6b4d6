using Spurless.Design.Designing;

namespace Spurless.CommandLine;

/// <summary>Shows a design's progress on a line, with the newest candidate.</summary>
internal sealed class DesignProgressLine(ProgressLine line) : IProgress<DesignProgress>
{
    private string? _newest;

    public void Report(DesignProgress value)
    {
        _newest = value.Newest is { } c ? FormattableString.Invariant($"{c.Family}, {c.WorstPassLossDb:0.0} dB") : _newest;
        line.Report(value.Fraction, _newest);
    }
}
