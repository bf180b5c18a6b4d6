using Spurless.Radio.Quantities;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Surveys;

/// <summary>Why a line may be the instrument's own, without capital and full stop.</summary>
public static class LineDoubtWords
{
    /// <summary>The reason in words; null for no doubt.</summary>
    public static string? Of(LineDoubt? doubt) => doubt is null ? null : Reason(doubt) + (Remedy(doubt) is { } remedy ? ": " + remedy : "");

    /// <summary>The reason alone where many lines share it and its remedy is told once beside them.</summary>
    internal static string Reason(LineDoubt doubt) => doubt switch
    {
        LineDoubt.MiddleOfRecording => "it stands in the middle of the recording, where a receiver of this kind has a line of its own",
        LineDoubt.MirrorImage d => $"it is where the receiver's mirror image of {Megahertz(d.OfHz)} MHz falls",
        LineDoubt.Mixture { IsTwice: true } d =>
            $"the instrument itself would make it of 2 x {Megahertz(d.FirstHz)} - {Megahertz(d.LessHz)}",
        LineDoubt.Mixture d =>
            $"the instrument itself would make it of {Megahertz(d.FirstHz)} + {Megahertz(d.SecondHz)} - {Megahertz(d.LessHz)}",
        LineDoubt.SankBehindPad => "it sank into the noise behind the pad",
        LineDoubt.AsRead d => d.Words,
        _ => throw new ArgumentOutOfRangeException(nameof(doubt)),
    };

    /// <summary>What to do about it; null where the words say nothing of that.</summary>
    internal static string? Remedy(LineDoubt doubt) => doubt switch
    {
        LineDoubt.MiddleOfRecording or LineDoubt.MirrorImage => "tune it aside",
        LineDoubt.SankBehindPad => "whether the instrument made it is not known; take a smaller pad or narrower bins",
        _ => null,
    };

    private static string Megahertz(double hertz) => MegahertzText.Of(hertz, 4);
}
