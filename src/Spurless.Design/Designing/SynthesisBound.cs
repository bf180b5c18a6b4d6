using Spurless.Design.Prototypes;
using Spurless.Design.Questions;

namespace Spurless.Design.Designing;

/// <summary>What unloaded Q a band-pass filter of equal resonators would need by Cohn's estimate: an estimate, not a proof.</summary>
/// <param name="Order">Number of resonators of the prototype that needs least.</param>
/// <param name="RippleDb">Its ripple in dB; null for Butterworth.</param>
/// <param name="WidthHz">Its bandwidth in hertz: the widest that keeps out what must be.</param>
/// <param name="NeededQ">Unloaded Q of its resonators with which the loss is what is allowed.</param>
/// <param name="HaveQ">Unloaded Q of coil and capacitor together in the middle of the band; infinite where neither has a Q.</param>
public sealed record SynthesisBound(int Order, double? RippleDb, double WidthHz, double NeededQ, double HaveQ)
{
    /// <summary>The bound of a requirement; null where nothing is to be kept out, or no prototype up to five resonators keeps it out and
    /// passes the band.</summary>
    public static SynthesisBound? Of(DesignQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        double f0 = question.CentreHz, pass = question.PassToHz - question.PassFromHz;
        SynthesisBound? best = null;
        for (int n = 1; n <= 5 && question.Reject.Count > 0; n++)
        {
            foreach (Prototype g in new[] { Prototype.Butterworth(n), Prototype.Chebyshev(n, 0.01), Prototype.Chebyshev(n, 0.1),
                Prototype.Chebyshev(n, 0.5) })
            {
                double edge = g.RippleDb ?? 10 * Math.Log10(2);
                double allowed = question.MostLossDb - (g.RippleDb ?? 0);
                double width = question.Reject.Min(r => Math.Min(
                    BandPassMap.WidestFor(g, Math.Max(r.LeastLossDb, edge), r.FromHz, f0),
                        BandPassMap.WidestFor(g, Math.Max(r.LeastLossDb, edge), r.ToHz, f0)));
                if (width < pass || allowed <= 0)
                {
                    continue;
                }

                double q = DissipationLoss.QualityFor(g, width / f0, allowed);
                if (best is null || q < best.NeededQ)
                {
                    best = new(n, g.RippleDb, width, q, question.UnloadedQ);
                }
            }
        }

        return best;
    }
}
