using Spurless.Sites.Chains;

namespace Spurless.Sites.Responses;

/// <summary>What a network takes from one carrier of a site.</summary>
/// <param name="Emitter">The emitter's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="Rejection">Between matched ends, and least and most with the site's mismatch; null where the sweep does not reach
/// it.</param>
public sealed record CarrierLoss(string Emitter, long FrequencyHz, FilterRejection? Rejection)
{
    /// <summary>Insertion loss in dB; null where the sweep does not reach it.</summary>
    public double? LossDb => Rejection?.NominalDb;
}
