namespace Spurless.Mixing.Causes;

/// <summary>All responses of a superheterodyne besides its channel.</summary>
public static class SuperhetResponses
{
    /// <summary>Highest harmonic of signal and oscillator.</summary>
    public const int MaxHarmonic = 8;

    /// <summary>Lists <c>|q f_LO +- f_IF| / p</c> for p from 1 and q from 0 to 8, of the first conversion and, translated by the first
    /// oscillator to both sides, of the second.</summary>
    /// <param name="plan">The frequency plan.</param>
    /// <returns>Each frequency once (of several ways to it the one of the lower conversion, then p, then q), the channel left out, by
    /// rising frequency.</returns>
    /// <remarks>Whole hertz throughout: p f is compared, never f. For 145.05 MHz, IF 21.4 MHz low: image 102.25 MHz, half-IF 134.35 MHz.
    /// Source: the mixing products of a mixer with harmonics of both signals; tests hold it to a time-domain simulation.</remarks>
    public static IReadOnlyList<SuperhetResponse> Of(Superhet plan)
    {
        List<SuperhetResponse> all = [];
        long oscillator = plan.FirstOscillatorHz;
        foreach ((int p, int q, long times) in Answers(oscillator, plan.FirstIfHz))
        {
            all.Add(new SuperhetResponse
            {
                Cause = p == 1 && times == plan.ImageHz ? CauseKind.Image
                    : p == 2 && q == 2 && times == oscillator + plan.FrequencyHz ? CauseKind.HalfIf : CauseKind.SpuriousResponse,
                Conversion = 1,
                P = p,
                Q = q,
                TimesPHz = times,
                AtIntermediate = p == 1 && q == 0,
            });
        }

        foreach (Injection side in plan.SecondInjection is { } stated ? [stated] : (ReadOnlySpan<Injection>)[Injection.Low, Injection.High])
        {
            if (plan.SecondOscillatorHz(side) is { } second)
            {
                AddSecond(all, plan, second, plan.SecondInjection is null);
            }
        }

        // All candidates in order of preference; a later one at the same frequency says nothing new.
        List<SuperhetResponse> kept = [];
        foreach (SuperhetResponse response in all.OrderBy(static r => r.Conversion).ThenBy(static r => r.P).ThenBy(static r => r.Q))
        {
            bool channel = response.TimesPHz == response.P * plan.FrequencyHz;
            if (!channel && response.TimesPHz > 0 && !kept.Exists(k => k.TimesPHz * response.P == response.TimesPHz * k.P))
            {
                kept.Add(response);
            }
        }

        kept.Sort(static (a, b) => (a.TimesPHz * b.P).CompareTo(b.TimesPHz * a.P));
        return kept;
    }

    private static void AddSecond(List<SuperhetResponse> all, Superhet plan, long second, bool sideAssumed)
    {
        long intermediate = plan.SecondIfHz!.Value;
        long secondImage = second + intermediate == plan.FirstIfHz ? Math.Abs(second - intermediate) : second + intermediate;
        foreach ((int p, int q, long times) in Answers(second, intermediate))
        {
            CauseKind cause = p == 1 && times == secondImage ? CauseKind.Image
                : p == 2 && q == 2 && times == second + plan.FirstIfHz ? CauseKind.HalfIf : CauseKind.SpuriousResponse;
            // The first conversion brings f_LO + F and |f_LO - F| to F; only the channel's side is an image or half-IF in the plain sense.
            long own = plan.FirstOscillatorHz * p;
            foreach (long there in (ReadOnlySpan<long>)[own + times, Math.Abs(own - times)])
            {
                bool channelSide = (there > own) == (plan.FrequencyHz > plan.FirstOscillatorHz);
                all.Add(new SuperhetResponse
                {
                    Cause = channelSide ? cause : CauseKind.SpuriousResponse,
                    Conversion = 2,
                    P = p,
                    Q = q,
                    TimesPHz = there,
                    SideAssumed = sideAssumed,
                });
            }
        }
    }

    private static IEnumerable<(int P, int Q, long TimesP)> Answers(long oscillator, long intermediate)
    {
        for (int p = 1; p <= MaxHarmonic; p++)
        {
            for (int q = 0; q <= MaxHarmonic; q++)
            {
                yield return (p, q, (q * oscillator) + intermediate);
                if (q > 0)
                {
                    yield return (p, q, Math.Abs((q * oscillator) - intermediate));
                }
            }
        }
    }
}
