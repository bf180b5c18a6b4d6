using Spurless.Circuits.Measured;
using Spurless.Radio.Feedlines;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Chains;

/// <summary>What was assumed of a receiver or its chain for want of a figure, or stands beside every figure of it.</summary>
public abstract record ReceiverAssumption
{
    /// <summary>No external noise was stated, so none is counted.</summary>
    public sealed record NoExternalNoise : ReceiverAssumption;

    /// <summary>The noise bandwidth follows from the channel's raster.</summary>
    /// <param name="BandwidthHz">The bandwidth in hertz.</param>
    public sealed record BandwidthByRaster(long BandwidthHz) : ReceiverAssumption;

    /// <summary>The noise was derived from the sensitivity.</summary>
    /// <param name="SensitivityDbm">Level for 12 dB SINAD in dBm.</param>
    /// <param name="CarrierToNoiseDb">Carrier to noise taken there, in dB.</param>
    public sealed record NoiseFromSensitivity(double SensitivityDbm, double CarrierToNoiseDb) : ReceiverAssumption;

    /// <summary>The sensitivity asks for a noise figure that no receiver has.</summary>
    /// <param name="NoiseFigureDb">The figure in dB, below 0.</param>
    public sealed record ImpossibleNoiseFigure(double NoiseFigureDb) : ReceiverAssumption;

    /// <summary>An intercept that was measured.</summary>
    /// <param name="Order">Its order.</param>
    /// <param name="Intercept">The intercept.</param>
    /// <param name="From">Where it was measured; never <see cref="InterceptOrigin.DataSheet"/>.</param>
    /// <param name="SigmaDb">One sigma in dB; null where it is not known.</param>
    public sealed record InterceptMeasured(int Order, Level Intercept, InterceptOrigin From, double? SigmaDb) : ReceiverAssumption;

    /// <summary>The third-order intercept follows from a rejection by the method of TIA-603.</summary>
    /// <param name="InterceptDbm">The intercept in dBm.</param>
    /// <param name="RejectionDb">Intermodulation rejection in dB.</param>
    /// <param name="OverDbm">The sensitivity that it was measured over, in dBm.</param>
    /// <param name="CarrierToNoiseDb">Carrier to noise taken there, in dB.</param>
    public sealed record InterceptByTia603(double InterceptDbm, double RejectionDb, double OverDbm, double CarrierToNoiseDb)
        : ReceiverAssumption;

    /// <summary>The third-order intercept follows from a rejection by the method of EN 300 086.</summary>
    /// <param name="InterceptDbm">The intercept in dBm.</param>
    /// <param name="RejectionDb">Intermodulation rejection in dB.</param>
    /// <param name="OverDbm">The wanted signal that it was measured over, in dBm.</param>
    /// <param name="CoChannelDb">Co-channel rejection taken, in dB.</param>
    public sealed record InterceptByEn300086(double InterceptDbm, double RejectionDb, double OverDbm, double CoChannelDb)
        : ReceiverAssumption;

    /// <summary>The attenuation of a feedline is that of its type.</summary>
    /// <param name="Type">The type.</param>
    public sealed record TypicalFeedline(FeedlineType Type) : ReceiverAssumption;

    /// <summary>A reflection coefficient was taken out of band, for the band of a filter's rejection.</summary>
    /// <param name="Coefficient">Its magnitude.</param>
    /// <param name="AtAntenna">Whether at the antenna.</param>
    /// <param name="AtReceiver">Whether at the receiver.</param>
    public sealed record ReflectionTaken(double Coefficient, bool AtAntenna, bool AtReceiver) : ReceiverAssumption;

    /// <summary>A computed filter rejects more than leakage round an unscreened circuit lets it, and none is stated.</summary>
    /// <param name="Filter">The filter.</param>
    /// <param name="RejectsDb">The most that it is computed to reject, in dB.</param>
    /// <param name="FromDb">From where leakage decides, in dB.</param>
    public sealed record LeakageNotStated(string Filter, double RejectsDb, double FromDb) : ReceiverAssumption;

    /// <summary>A remark on a sweep.</summary>
    /// <param name="File">The sweep's file as the site file names it.</param>
    /// <param name="Remark">The remark.</param>
    public sealed record OfSweep(string File, NetworkRemark Remark) : ReceiverAssumption;
}
