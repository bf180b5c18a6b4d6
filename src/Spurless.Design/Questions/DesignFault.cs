using Spurless.Radio.Quantities;

namespace Spurless.Design.Questions;

/// <summary>Something in a requirement that cannot be.</summary>
/// <param name="Key">The key of the requirement that it is about, such as <c>pass</c> or <c>reject</c>.</param>
/// <param name="Index">Number of the entry of a list, from 0; -1 where the key is no list.</param>
/// <param name="What">What was found.</param>
/// <param name="Remedy">What to write instead.</param>
public sealed record DesignFault(string Key, int Index, string What, string Remedy);

/// <summary>Looks a requirement over before anything is computed.</summary>
public static class DesignCheck
{
    /// <summary>Least and greatest frequency in hertz for which the models of coils and capacitors hold (common practice: lumped parts to 1
    /// GHz).</summary>
    public const double LeastHz = 1e6, MostHz = 1e9;

    /// <summary>All that is wrong; empty where a design can begin.</summary>
    public static IReadOnlyList<DesignFault> Faults(DesignQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        List<DesignFault> all = [];
        void Bad(string key, string what, string remedy, int index = -1) => all.Add(new(key, index, what, remedy));
        if (!(question.PassFromHz > 0) || !(question.PassToHz > question.PassFromHz) || !double.IsFinite(question.PassToHz))
        {
            Bad("pass", "there is no band that must pass", "write pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 2.5 dB }");
            return all;
        }

        PassBand(question, Bad);
        if (!(question.ImpedanceOhm is > 0 and < 10_000))
        {
            Bad("impedance", "the impedance is not between 0 and 10 kohm", "write 50 ohm");
        }

        Rejections(question, Bad);
        Parts(question.Parts, Bad);
        if (question.TransmitW is { } power && !(power > 0 && double.IsFinite(power)))
        {
            Bad("transmit", "the power is not above 0", "write a power such as 50 W, or leave it out");
        }

        if (question.BypassOpenF is { } open && !(open is > 0 and < 1e-9))
        {
            Bad("bypass", "the open contacts' capacitance is not above 0", "write one such as 0.8 pF");
        }

        return all;
    }

    private static void PassBand(DesignQuestion question, Action<string, string, string, int> bad)
    {
        if (question.PassFromHz < LeastHz || question.PassToHz > MostHz)
        {
            string band = $"{MegahertzText.Of(question.PassFromHz, 0, 6)} to {MegahertzText.Of(question.PassToHz, 0, 6)} MHz";
            bad("pass", $"{band} lies outside the range of the part models",
                "ask for a band within 1 MHz to 1000 MHz", -1);
        }

        if (question.PassToHz > 1.5 * question.PassFromHz)
        {
            bad("pass", "the pass-band is over one and a half to one wide, which none of the families is made for",
                "narrow it, or ask for two filters", -1);
        }

        if (!(question.MostLossDb > 0))
        {
            bad("pass", "the loss allowed is not above 0 dB", "write a loss such as 2.5 dB", -1);
        }

        if (question.LeastReturnLossDb is > 30)
        {
            bad("pass", FormattableString.Invariant($"a return loss of {question.LeastReturnLossDb:0.#} dB is more than any build keeps"),
                "write 10 to 20 dB", -1);
        }
    }

    private static void Rejections(DesignQuestion question, Action<string, string, string, int> bad)
    {
        for (int i = 0; i < question.Reject.Count; i++)
        {
            RejectDemand r = question.Reject[i];
            if (!(r.FromHz > 0) || r.ToHz < r.FromHz || !double.IsFinite(r.ToHz) || !(r.LeastLossDb > 0))
            {
                bad("reject", "an entry has no frequency or no loss above 0", "write { at: 160.525 MHz, by: 25 dB }", i);
            }
            else if (r.FromHz <= question.PassToHz && r.ToHz >= question.PassFromHz)
            {
                bad("reject", "this lies in the band that must pass", "move the one or narrow the other", i);
            }
            else if (r.LeastLossDb > 120)
            {
                bad("reject", FormattableString.Invariant($"{r.LeastLossDb:0.#} dB is more than leakage round any one filter leaves"),
                    "write at most 120 dB, and two filters in boxes of their own", i);
            }
        }
    }

    private static void Parts(PartLimits parts, Action<string, string, string, int> bad)
    {
        foreach ((QualityAtFrequency? q, string name) in new[] { (parts.InductorQ, "inductor_q"), (parts.CapacitorQ, "capacitor_q") })
        {
            if (q is not null && (!(q.Q >= 1) || !double.IsFinite(q.Q) || !(q.AtHz > 0)))
            {
                bad("parts", $"{name} is under 1", $"write {name}: 180 at 146 MHz", -1);
            }
        }

        foreach (((double Least, double Greatest)? range, string name, string example) in new[]
        {
            (parts.InductorsH, "inductors", "[8 nH, 300 nH]"), (parts.CapacitorsF, "capacitors", "[0.5 pF, 100 pF]"),
        })
        {
            if (range is { } two && (!(two.Least > 0) || !(two.Greatest > two.Least) || !double.IsFinite(two.Greatest)))
            {
                bad("parts", $"the range of {name} is empty", $"write {name}: {example}", -1);
            }
        }

        if (parts.Series is { } asked && !Circuits.Series.ESeries.Sizes.Contains(asked))
        {
            bad("parts", FormattableString.Invariant($"there is no series E{asked}"),
                "write one of E3, E6, E12, E24, E48, E96 and E192 (IEC 60063), or leave it out", -1);
        }
        else if (parts is { Series: { } size, CapacitorsF: { } span } && span.Least > 0 && span.Greatest > span.Least
            && Circuits.Series.ESeries.Within(span.Least, span.Greatest, size).Count == 0)
        {
            bad("parts", FormattableString.Invariant($"no value of E{size} lies in the range of capacitors"), "widen the range", -1);
        }
    }
}
