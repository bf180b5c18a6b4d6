using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>A product with its levels, small enough for millions of them. Levels in micro-dBm at the receiver's input.</summary>
/// <param name="Record">Its terms.</param>
/// <param name="Stage">Index of the strongest active stage; for a product of a transmitter the complement of its index.</param>
/// <param name="Level">Power sum over the stages; <see cref="ProductRecord.UnknownLevel"/> where unknown.</param>
/// <param name="Worst">Voltage sum over the stages.</param>
/// <param name="InChannel">What of the power sum falls inside the noise bandwidth.</param>
internal readonly record struct ScoredProduct(ProductRecord Record, int Stage, long Level, long Worst, long InChannel)
{
    /// <summary>Index of the transmitter that makes it among those computed; null where the receiver or its chain does.</summary>
    public int? Transmitter => Stage < 0 ? ~Stage : null;

    public bool HasLevel => Level != ProductRecord.UnknownLevel;
}
