using Spurless.Radio.Quantities;
using Spurless.Reports.Responses;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;

namespace Spurless.Reports.Studies;

/// <summary>What was assumed of a receiver or its chain, in sentences without a full stop.</summary>
public static class ReceiverAssumptionWords
{
    /// <summary>An assumption.</summary>
    public static string Of(ReceiverAssumption assumption) => assumption switch
    {
        ReceiverAssumption.NoExternalNoise => "no external noise was stated, so none is counted",
        ReceiverAssumption.BandwidthByRaster a => $"noise bandwidth {Frequency.FromHertz(a.BandwidthHz)} by the channel's raster",
        ReceiverAssumption.NoiseFromSensitivity a => FormattableString.Invariant(
            $"noise derived from the 12 dB SINAD sensitivity of {a.SensitivityDbm:0.0} dBm, ")
                + FormattableString.Invariant($"{a.CarrierToNoiseDb:0.0} dB of carrier to noise there"),
        ReceiverAssumption.ImpossibleNoiseFigure a => FormattableString.Invariant(
            $"that sensitivity asks for a noise figure of {a.NoiseFigureDb:0.0} dB, ")
                + "which no receiver has: is it pd or emf, and the bandwidth right?",
        ReceiverAssumption.InterceptMeasured a => FormattableString.Invariant($"IIP{a.Order} of {a.Intercept} ")
            + (a.From == InterceptOrigin.OnTheAir ? "calibrated on the air" : "measured on a bench")
            + (a.SigmaDb is { } sigma ? FormattableString.Invariant($", one sigma {sigma:0.0} dB") : ""),
        ReceiverAssumption.InterceptByTia603 a => FormattableString.Invariant(
            $"IIP3 {a.InterceptDbm:0.0} dBm from {a.RejectionDb:0.#} dB of intermodulation rejection (tia603) over ")
                + FormattableString.Invariant($"{a.OverDbm:0.0} dBm, with {a.CarrierToNoiseDb:0.0} dB carrier to noise"),
        ReceiverAssumption.InterceptByEn300086 a => FormattableString.Invariant(
            $"IIP3 {a.InterceptDbm:0.0} dBm from {a.RejectionDb:0.#} dB of intermodulation rejection (en300086) over ")
                + FormattableString.Invariant($"{a.OverDbm:0.0} dBm, with a co-channel rejection of {a.CoChannelDb:0.#} dB"),
        ReceiverAssumption.TypicalFeedline a => $"attenuation of {a.Type.Name} is a typical value from memory",
        ReceiverAssumption.ReflectionTaken a => FormattableString.Invariant(
            $"a reflection coefficient of {a.Coefficient} out of band at the ")
                + (a is { AtAntenna: true, AtReceiver: true } ? "antenna and the receiver" : a.AtAntenna ? "antenna" : "receiver")
                + ", for the band of rejection",
        ReceiverAssumption.LeakageNotStated a => FormattableString.Invariant(
            $"{a.Filter} is computed to reject up to {a.RejectsDb:0} dB; beyond {a.FromDb:0} dB leakage ")
                + "round an unscreened circuit decides, and none is stated (leakage: 80 dB in its file caps it)",
        ReceiverAssumption.OfSweep a => $"{a.File}: {NetworkRemarkWords.Of(a.Remark)}",
        _ => throw new ArgumentOutOfRangeException(nameof(assumption), assumption?.GetType().Name, "has no words"),
    };
}
