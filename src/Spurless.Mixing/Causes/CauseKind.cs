namespace Spurless.Mixing.Causes;

/// <summary>What else than a product on the channel, made in the receiver, can spoil reception.</summary>
public enum CauseKind
{
    /// <summary>An emitter stands within the channel itself.</summary>
    Direct,

    /// <summary>Sideband noise of a transmitter falls on the channel.</summary>
    TransmitterNoise,

    /// <summary>The sum of all carriers drives a stage into compression.</summary>
    Blocking,

    /// <summary>A carrier whose envelope moves impresses it on a strong carrier near the channel.</summary>
    CrossModulation,

    /// <summary>An emitter stands on the image of the first or second conversion.</summary>
    Image,

    /// <summary>An emitter stands half an intermediate frequency from the oscillator.</summary>
    HalfIf,

    /// <summary>An emitter stands on another response of the superheterodyne.</summary>
    SpuriousResponse,

    /// <summary>A harmonic that the emitter itself radiates falls on the channel.</summary>
    Harmonic,

    /// <summary>Noise of the local oscillator is impressed on a strong carrier.</summary>
    ReciprocalMixing,

    /// <summary>A product falls on the image, the half-IF or an intermediate frequency.</summary>
    ProductOnResponse,

    /// <summary>Mixing in a joint outside transmitters and receivers.</summary>
    Outside,

    /// <summary>A strong carrier on a neighbouring channel comes through the receiver's own filter.</summary>
    AdjacentChannel,
}

/// <summary>Whose work a cure is: the list of causes is grouped by it.</summary>
public enum CurePlace
{
    /// <summary>Something at the receiver: a filter, an attenuator, another receiver.</summary>
    Receiver,

    /// <summary>Something at the transmitter concerned: an isolator, a filter, a cleaner exciter.</summary>
    Transmitter,

    /// <summary>The owner of the structure: joints, clamps, fences.</summary>
    StructureOwner,

    /// <summary>Nothing but another channel.</summary>
    Channel,
}

/// <summary>The fixed words and the place of cure of each kind of cause.</summary>
public static class CauseKinds
{
    /// <summary>The word that stands for a kind in results.</summary>
    /// <param name="kind">A kind.</param>
    /// <returns>One of <c>direct transmitter_noise blocking cross_modulation image half_if spurious_response harmonic reciprocal_mixing
    /// product_on_response outside adjacent_channel</c>.</returns>
    public static string Word(this CauseKind kind) => kind switch
    {
        CauseKind.Direct => "direct",
        CauseKind.TransmitterNoise => "transmitter_noise",
        CauseKind.Blocking => "blocking",
        CauseKind.CrossModulation => "cross_modulation",
        CauseKind.Image => "image",
        CauseKind.HalfIf => "half_if",
        CauseKind.SpuriousResponse => "spurious_response",
        CauseKind.Harmonic => "harmonic",
        CauseKind.ReciprocalMixing => "reciprocal_mixing",
        CauseKind.ProductOnResponse => "product_on_response",
        CauseKind.Outside => "outside",
        CauseKind.AdjacentChannel => "adjacent_channel",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of cause"),
    };

    /// <summary>Where the cure lies.</summary>
    /// <param name="kind">A kind.</param>
    /// <returns>What arrives on the channel as a real signal is cured at its source; what the receiver makes, at the receiver.</returns>
    public static CurePlace CuredAt(this CauseKind kind) => kind switch
    {
        CauseKind.TransmitterNoise or CauseKind.Harmonic => CurePlace.Transmitter,
        CauseKind.Outside => CurePlace.StructureOwner,
        CauseKind.Direct => CurePlace.Channel,
        _ => CurePlace.Receiver,
    };
}
