using Spurless.Mixing.Measurements;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Receivers;

/// <summary>A mixture that was read, on the bench or at a site, and the intercept that it gives.</summary>
public sealed record InterceptReading
{
    /// <summary>The entry of the file.</summary>
    public required MeasuredEntry Entry { get; init; }

    /// <summary>Coefficients of the tones, none 0.</summary>
    public required IReadOnlyList<int> Coefficients { get; init; }

    /// <summary>Frequencies of the tones in hertz.</summary>
    public required IReadOnlyList<long> TonesHz { get; init; }

    /// <summary>
    /// Levels of the tones in dBm at the receiver's input; at a site whose file states the selectivity behind it, less what that takes over
    /// the channel.
    /// </summary>
    public required IReadOnlyList<MeasuredFigure> Levels { get; init; }

    /// <summary>The whole product in dBm, as a signal on the channel at the receiver's input.</summary>
    public required MeasuredFigure Product { get; init; }

    /// <summary>What the front end takes from each tone over the channel, in dB; null for a tone of which that is not known.</summary>
    public required IReadOnlyList<MeasuredFigure?> Losses { get; init; }

    /// <summary>What of the product falls into the noise bandwidth, in dB, at most 0; on the bench 0.</summary>
    public double ShareDb { get; init; }

    /// <summary>Whether the mixture was raised until it equals the noise, so that the noise stands for its level.</summary>
    public bool AgainstNoise => Entry is TwoToneReading { Product: null };

    /// <summary>Order of the mixture.</summary>
    public int Order => InterceptLaw.Order(Coefficients);

    /// <summary>Whether every tone's loss is known, so that the intercept is that for tones close to the channel.</summary>
    public bool Comparable => Losses.All(static l => l is not null);

    /// <summary>The intercept in dBm: for close tones where it is <see cref="Comparable"/>, else for tones at these frequencies.</summary>
    public MeasuredFigure Intercept => InterceptLaw.Intercept(
        Coefficients,
        Comparable ? [.. Levels.Select((level, i) => level.Plus(Losses[i]!, -1))] : Levels,
        Product);

    /// <summary>What the front end takes from all tones together, as often as each is taken, in dB, once the intercept is known.</summary>
    public MeasuredFigure LossOfTones(MeasuredFigure intercept) => InterceptLaw.LossOfTones(Coefficients, Levels, Product, intercept);
}
