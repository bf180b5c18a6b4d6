using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>What a part of a band is open for.</summary>
public enum BandUse
{
    /// <summary>To listen and to transmit.</summary>
    Any,

    /// <summary>To listen only.</summary>
    ReceiveOnly,

    /// <summary>To transmit only.</summary>
    TransmitOnly,

    /// <summary>For neither.</summary>
    Forbidden,
}

/// <summary>A part of a band.</summary>
/// <param name="From">Its lower edge.</param>
/// <param name="To">Its upper edge.</param>
/// <param name="Use">What it is open for.</param>
public sealed record BandPart(Frequency From, Frequency To, BandUse Use)
{
    /// <summary>Whether a channel reaches into it; one that only touches an edge does not.</summary>
    /// <param name="frequencyHz">The channel's centre in hertz.</param>
    /// <param name="widthHz">Its width in hertz.</param>
    public bool Overlaps(long frequencyHz, long widthHz) =>
        (2 * frequencyHz) + widthHz > 2 * From.Hertz && (2 * frequencyHz) - widthHz < 2 * To.Hertz;
}

/// <summary>What the parts of a band are for; what no part names is open.</summary>
/// <param name="File">The file's name as the user gave it.</param>
/// <param name="Parts">The parts in the file's order; they may overlap, then the strictest holds.</param>
public sealed record BandPlan(string File, IReadOnlyList<BandPart> Parts)
{
    /// <summary>The part that keeps us from listening on a channel, or null.</summary>
    public BandPart? AgainstReceiving(long frequencyHz, long widthHz) => Parts.FirstOrDefault(
        p => p.Use is BandUse.Forbidden or BandUse.TransmitOnly && p.Overlaps(frequencyHz, widthHz));

    /// <summary>The part that keeps us from transmitting on a channel, or null.</summary>
    public BandPart? AgainstTransmitting(long frequencyHz, long widthHz) => Parts.FirstOrDefault(
        p => p.Use is BandUse.Forbidden or BandUse.ReceiveOnly && p.Overlaps(frequencyHz, widthHz));
}
