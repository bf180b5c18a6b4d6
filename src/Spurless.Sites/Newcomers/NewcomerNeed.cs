namespace Spurless.Sites.Newcomers;

/// <summary>What has to be given more of.</summary>
public enum NewcomerNeedKind
{
    /// <summary>Attenuation of carriers in front of the receiver, by a filter that passes its channel, or farther antennas.</summary>
    CarrierAttenuation,

    /// <summary>Isolation of a transmitter against what comes in at its output.</summary>
    Isolator,

    /// <summary>Attenuation, at a transmitter's output, of what it radiates on the receiver's channel.</summary>
    OutputFilter,

    /// <summary>
    /// Loss between antennas: the emitter stands on the channel or beside it, and no filter tells it from a wanted signal.
    /// </summary>
    PathLoss,
}

/// <summary>The least that makes a receiver pass, of one kind; with all needs of the receiver met nothing new on it is harmful.</summary>
/// <param name="Kind">What has to be given more of.</param>
/// <param name="Emitters">Whose carriers, or at whose transmitter.</param>
/// <param name="AtSite">Whether the work is on the site's side: at its receiver or at a transmitter of its own.</param>
/// <param name="Db">
/// By how much, in whole tenths of a dB, on top of what there is, the same for each emitter; with 0.1 dB less of this one something is
/// harmful. Null where no figure is enough.
/// </param>
public sealed record NewcomerNeed(NewcomerNeedKind Kind, IReadOnlyList<string> Emitters, bool AtSite, double? Db);
