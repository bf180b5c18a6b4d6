using Spurless.Mixing.Cures;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>
/// The least attenuation at each emitter's frequency, on top of what the chain does, with which no product made in the receiver is harmful.
/// </summary>
/// <param name="Carriers">What is needed, by rising frequency; empty where nothing made in the receiver is harmful.</param>
/// <param name="WithMargin">The same and a margin on each, for what a study does not know.</param>
public sealed record AttenuationNeeds(IReadOnlyList<CarrierAttenuation> Carriers, IReadOnlyList<CarrierAttenuation> WithMargin)
{
    /// <summary>Margin in dB on what is needed.</summary>
    public const double MarginDb = 6;

    /// <summary>A product that needs to fall comes to lie so far under the threshold, in dB.</summary>
    private const double JustUnderDb = 0.1;

    // The filter that the needs are spread by: three resonators of this loaded Q. What it does next to the channel is little, and so little
    // is asked there.
    private const int Resonators = 3;
    private const double LoadedQ = 25;
    private const double LeastEaseDb = 1e-3;

    /// <summary>The needs of a receiver.</summary>
    /// <param name="findings">The receiver as it is, pads and selectivity included.</param>
    /// <param name="harmfulFromDb">From how far over the noise a product is harmful, in dB.</param>
    public static AttenuationNeeds Of(ReceiverFindings findings, double harmfulFromDb)
    {
        ArgumentNullException.ThrowIfNull(findings);
        List<FallNeeded> products =
        [
            .. findings.Products
                .Where(p => p.Mechanism == Mechanism.Receiver && p.OverNoiseDb >= harmfulFromDb)
                .Select(p => new FallNeeded(
                    [.. p.Terms.Select(static t => t.Emitter)],
                    [.. p.Terms.Select(static t => Math.Abs(t.Coefficient))],
                    p.OverNoiseDb!.Value - harmfulFromDb + JustUnderDb)),
        ];
        double[] needed = LeastAttenuation.Of(
            products, [.. findings.Carriers.Select(c => EaseDb(c.FrequencyHz, findings.FrequencyHz))]);
        return new AttenuationNeeds(List(findings, needed, 0), List(findings, needed, MarginDb));
    }

    /// <summary>What three tuned circuits do at a frequency, in dB: <c>30 lg(1 + (Q v)^2)</c> with <c>v = f/f0 - f0/f</c>, a third of
    /// it each.</summary>
    private static double EaseDb(long frequencyHz, long channelHz)
    {
        double v = ((double)frequencyHz / channelHz) - ((double)channelHz / frequencyHz);
        return Math.Max(LeastEaseDb, Resonators * 10 * Math.Log10(1 + (LoadedQ * LoadedQ * v * v)));
    }

    private static List<CarrierAttenuation> List(ReceiverFindings findings, double[] needed, double marginDb) =>
    [
        .. needed.Select((db, i) => new CarrierAttenuation(findings.Carriers[i].Emitter, findings.Carriers[i].FrequencyHz, db))
            .Where(static n => n.AttenuationDb > 0)
            .Select(n => n with { AttenuationDb = n.AttenuationDb + marginDb })
            .OrderBy(static n => n.FrequencyHz).ThenBy(static n => n.Emitter, StringComparer.Ordinal),
    ];
}
