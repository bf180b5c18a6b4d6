namespace Spurless.Reports.Responses;

/// <summary>What a network takes from one carrier of a site.</summary>
/// <param name="Emitter">The emitter's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="LossDb">Insertion loss in dB; null where the sweep does not reach it.</param>
public sealed record CarrierLoss(string Emitter, long FrequencyHz, double? LossDb);
