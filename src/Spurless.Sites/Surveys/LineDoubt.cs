namespace Spurless.Sites.Surveys;

/// <summary>Why a line of a spectrum may be the instrument's own.</summary>
public abstract record LineDoubt
{
    private LineDoubt()
    {
    }

    /// <summary>It stands in the middle of a recording, where a direct-conversion receiver has a line of its own.</summary>
    public sealed record MiddleOfRecording : LineDoubt;

    /// <summary>It stands where the receiver's mirror image of a stronger line falls.</summary>
    /// <param name="OfHz">The stronger line's frequency in hertz.</param>
    public sealed record MirrorImage(double OfHz) : LineDoubt;

    /// <summary>The instrument would make it of its other lines, first plus second minus third.</summary>
    /// <param name="FirstHz">The first line's frequency in hertz.</param>
    /// <param name="SecondHz">The second's; the first's where it counts twice.</param>
    /// <param name="LessHz">The third's, which is taken off.</param>
    public sealed record Mixture(double FirstHz, double SecondHz, double LessHz) : LineDoubt
    {
        /// <summary>Whether the first line counts twice and no second one at all.</summary>
        public bool IsTwice => FirstHz.Equals(SecondHz);
    }

    /// <summary>It sank into the noise behind the pad, so that the pad does not tell.</summary>
    public sealed record SankBehindPad : LineDoubt;

    /// <summary>A file of an earlier survey says so.</summary>
    /// <param name="Words">In these words.</param>
    public sealed record AsRead(string Words) : LineDoubt;
}
