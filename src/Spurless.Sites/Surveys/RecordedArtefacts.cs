using Spurless.Signals.Spectra;

namespace Spurless.Sites.Surveys;

/// <summary>
/// Lines that a receiver for in-phase and quadrature samples makes itself (common practice of direct conversion): one in the middle, by
/// its own offset, and weak mirror images of strong lines on the other side of the middle.
/// </summary>
internal static class RecordedArtefacts
{
    /// <summary>A mirror image lies at least so far under its line, in dB: balance that is worse is a fault.</summary>
    private const double ImageDb = 20;

    /// <summary>Why a line may be the receiver's own; null where nothing says so.</summary>
    /// <param name="source">The recording; of a sweep nothing is said.</param>
    /// <param name="line">The line.</param>
    /// <param name="all">All lines of it.</param>
    public static LineDoubt? Doubt(SurveySource source, SpectrumLine line, IReadOnlyList<SpectrumLine> all)
    {
        if (source.CentreHz is not { } centre)
        {
            return null;
        }

        double near = Math.Max(2 * source.Sweep.SpacingHz, 3 * line.FrequencySigmaHz);
        if (Math.Abs(line.FrequencyHz - centre) <= near && line.BandwidthHz <= 2 * source.ResolutionHz)
        {
            return new LineDoubt.MiddleOfRecording();
        }

        SpectrumLine? parent = all.FirstOrDefault(
            l => l.LevelDbm - ImageDb >= line.LevelDbm
                && Math.Abs((2 * centre) - l.FrequencyHz - line.FrequencyHz) <= near + (3 * l.FrequencySigmaHz));
        return parent is null ? null : new LineDoubt.MirrorImage(parent.FrequencyHz);
    }
}
