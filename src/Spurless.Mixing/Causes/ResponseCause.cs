using Spurless.Mixing.Levels;
using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Causes;

/// <summary>Carriers, and products, on the responses of a superheterodyne.</summary>
public static class ResponseCause
{
    /// <summary>
    /// One sigma of what the harmonics of mixer and oscillator are taken for, in dB (our choice: no figure is published with receivers).
    /// </summary>
    public const double MixerSigmaDb = 10;

    /// <summary>What a carrier does on a response.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="response">The response.</param>
    /// <param name="carrier">The carrier at the receiver's first active stage, selectivity included.</param>
    /// <param name="intercepts">The receiver's intercepts.</param>
    /// <param name="selectivityKnown">Whether the level has a real selectivity in it. Without one, what the input circuits take off an
    /// image is unknown and so is the finding.</param>
    /// <param name="firstIfRejectionDb">What the first IF filter takes off at a response of the second conversion, in dB; null where
    /// unknown.</param>
    /// <returns>The finding, with an upper bound where only a rejection is unknown; null where the carrier can't hit the response, or hits
    /// the channel itself.</returns>
    /// <remarks>
    /// As an equal signal on the channel: <c>p P - (p-1) IIP_p - 20 lg C_ref(p) - 20 lg q</c>: the p-th harmonic as the stage makes it,
    /// converted by the q-th harmonic of a switched oscillator, which falls as 1/q (even ones taken as strong as odd ones: the worst case).
    /// The image (p = q = 1) is converted as the channel is. How much passes a mixer unconverted (q = 0) isn't known; at most all of it.
    /// The second mixer is taken to be as linear as the whole receiver, and what the first IF filter takes off counts p times. Then the
    /// share of the p-fold spread inside the bandwidth.
    /// </remarks>
    public static CauseFinding? OfCarrier(
        VictimReceiver receiver,
        SuperhetResponse response,
        StageCarrier carrier,
        Intercepts intercepts,
        bool selectivityKnown,
        double? firstIfRejectionDb = null)
    {
        if (!response.HitBy(carrier.FrequencyHz, carrier.BandwidthHz, receiver.ChannelHz)
            || receiver.HitBy(carrier.FrequencyHz, carrier.BandwidthHz))
        {
            return null;
        }

        List<MissingInput> missing = [];
        List<Assumption> assumed = [];
        if (carrier.LevelDbm is null)
        {
            missing.Add(DirectCause.UnknownLevel(carrier));
        }

        double? bound = Bound(receiver, response, carrier.LevelDbm, intercepts, selectivityKnown, firstIfRejectionDb, missing, assumed);
        double share = InChannelShare.Of(
            (response.P * carrier.FrequencyHz) - response.TimesPHz, receiver.IfBandwidthHz, [response.P], [carrier.Spread]);
        bound += 10 * Math.Log10(share);
        double? level = missing.Count == 0 ? bound : null;
        double? over = level - receiver.NoiseFloorDbm;
        double intercept = response.P > 1 ? (response.P - 1) * intercepts.SigmaDb(response.P) : 0;
        double mixer = response is { P: 1, Q: 1 } ? 0 : MixerSigmaDb;
        double own = response.P * carrier.SigmaDb;
        return new CauseFinding
        {
            Cause = response.Cause,
            Emitter = carrier.Name,
            LevelDbm = level,
            AtMostDbm = level is null ? bound : null,
            AtMostOverNoiseDb = level is null ? bound - receiver.NoiseFloorDbm : null,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : Math.Sqrt((own * own) + (intercept * intercept) + (mixer * mixer)),
            Assumed = assumed,
            Missing = missing,
            Response = response,
        };
    }

    /// <summary>The frequencies other than the channel on which a product can do harm, for the product search.</summary>
    /// <param name="plan">The frequency plan.</param>
    /// <returns>Image, half-IF, and the intermediate frequencies (p = 1, q = 0); those of the second conversion too. A search receiver at
    /// <see cref="SuperhetResponse.FrequencyHz"/> (rounded to whole hertz) with the channel's raster finds what lands there.</returns>
    public static IReadOnlyList<SuperhetResponse> ToSearch(Superhet plan)
    {
        List<SuperhetResponse> targets = [.. SuperhetResponses.Of(plan).Where(static r =>
            r.Cause is CauseKind.Image or CauseKind.HalfIf || r.AtIntermediate)];
        // A product made behind the first mixer lies on the second IF itself, not on what the first conversion turns into it.
        if (plan.SecondIfHz is { } second && second != plan.FrequencyHz)
        {
            targets.Add(
                new SuperhetResponse
                {
                    Cause = CauseKind.SpuriousResponse,
                    Conversion = 2,
                    P = 1,
                    Q = 0,
                    TimesPHz = second,
                    AtIntermediate = true,
                });
        }

        return targets;
    }

    /// <summary>What a product on a response does.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="response">The response it lies on.</param>
    /// <param name="mixture">The product in words: '2 x 158.3000 - 171.5500'.</param>
    /// <param name="levelDbm">Its level at the receiver's input within the response's width, in dBm; null where unknown.</param>
    /// <param name="sigmaDb">One sigma of that level in dB.</param>
    /// <param name="intercepts">The receiver's intercepts.</param>
    /// <returns>The finding: on an image as strong as on the channel (a product made behind the preselector isn't weakened by it); on
    /// half-IF by the law of <see cref="OfCarrier"/>; on an intermediate frequency unknown, for the mixer's balance is.</returns>
    public static CauseFinding OfProduct(
        VictimReceiver receiver, SuperhetResponse response, string mixture, double? levelDbm, double sigmaDb, Intercepts intercepts)
    {
        List<MissingInput> missing = [];
        List<Assumption> assumed = [];
        if (levelDbm is null)
        {
            missing.Add(new MissingInput(MissingKind.ProductLevel, mixture));
        }

        double? bound = Bound(receiver, response, levelDbm, intercepts, true, null, missing, assumed);
        double? level = missing.Count == 0 ? bound : null;
        double? over = level - receiver.NoiseFloorDbm;
        double own = response.P * sigmaDb;
        double mixer = response is { P: 1, Q: 1 } ? 0 : MixerSigmaDb;
        return new CauseFinding
        {
            Cause = CauseKind.ProductOnResponse,
            Emitter = null,
            LevelDbm = level,
            AtMostDbm = level is null ? bound : null,
            AtMostOverNoiseDb = level is null ? bound - receiver.NoiseFloorDbm : null,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : Math.Sqrt((own * own) + (mixer * mixer)),
            Assumed = assumed,
            Missing = missing,
            Response = response,
        };
    }

    /// <summary>
    /// Every carrier on every response. Not the harmonic of a carrier that is the channel itself (q = 1): that is a product of one emitter,
    /// and the search of products finds it with the same level; told here too, one thing would count twice.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="plan">Its frequency plan.</param>
    /// <param name="carriers">The carriers at the receiver's first active stage, selectivity included.</param>
    /// <param name="intercepts">The receiver's intercepts.</param>
    /// <param name="selectivityKnown">As for <see cref="OfCarrier"/>.</param>
    /// <param name="floorDbm">What is under this, or at most this, is left out, in dBm; negative infinity for nothing.</param>
    /// <param name="firstIfRejectionDb">As for <see cref="OfCarrier"/>.</param>
    /// <returns>The findings in the order of the carriers, then of rising response.</returns>
    public static IReadOnlyList<CauseFinding> OfCarriers(
        VictimReceiver receiver,
        Superhet plan,
        IReadOnlyList<StageCarrier> carriers,
        Intercepts intercepts,
        bool selectivityKnown,
        double floorDbm,
        double? firstIfRejectionDb = null)
    {
        SuperhetResponse[] responses =
        [
            .. SuperhetResponses.Of(plan).Where(r => !(r is { Conversion: 1, P: > 1, Q: 1 } && r.TimesPHz == plan.FrequencyHz)),
        ];
        List<CauseFinding> findings = [];
        foreach (StageCarrier carrier in carriers)
        {
            foreach (SuperhetResponse response in responses)
            {
                CauseFinding? finding = OfCarrier(receiver, response, carrier, intercepts, selectivityKnown, firstIfRejectionDb);
                if (finding is not null && !((finding.LevelDbm ?? finding.AtMostDbm) < floorDbm))
                {
                    findings.Add(finding);
                }
            }
        }

        return findings;
    }

    /// <summary>
    /// The level as an equal signal on the channel, what isn't known counted as not weakening; adds what is missing and assumed.
    /// </summary>
    private static double? Bound(
        VictimReceiver receiver,
        SuperhetResponse response,
        double? levelDbm,
        Intercepts intercepts,
        bool selectivityKnown,
        double? firstIfRejectionDb,
        List<MissingInput> missing,
        List<Assumption> assumed)
    {
        long where = (long)Math.Round(response.FrequencyHz);
        if (!selectivityKnown)
        {
            missing.Add(new MissingInput(MissingKind.InputSelectivity, receiver.Name) { FrequencyHz = where });
        }

        if (response.SideAssumed)
        {
            assumed.Add(new Assumption(AssumptionKind.SecondOscillatorSide));
        }

        if (response.Q == 0)
        {
            missing.Add(new MissingInput(MissingKind.MixerFeedthrough, receiver.Name) { FrequencyHz = where });
        }

        double rejection = 0;
        if (response is { Conversion: 2, AtIntermediate: false })
        {
            if (firstIfRejectionDb is { } stated)
            {
                rejection = stated;
            }
            else
            {
                missing.Add(new MissingInput(MissingKind.FirstIfFilter, receiver.Name));
            }

            if (response.P > 1)
            {
                assumed.Add(new Assumption(AssumptionKind.SecondMixerLinearity));
            }
        }

        if (response.Q > 0 && response is not { P: 1, Q: 1 })
        {
            assumed.Add(new Assumption(AssumptionKind.OscillatorHarmonics));
        }

        if (response.P > 1 && intercepts.IsAssumed(response.P))
        {
            assumed.Add(new Assumption(AssumptionKind.InterceptOfResponse) { Order = response.P });
        }

        double harmonic = response.P > 1
            ? ((response.P - 1) * intercepts.Dbm(response.P)) + (20 * Math.Log10(Multinomial.Reference(response.P)))
            : 0;
        return (response.P * (levelDbm - rejection)) - harmonic - (20 * Math.Log10(Math.Max(response.Q, 1)));
    }
}
