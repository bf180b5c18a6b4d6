using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// What nobody traces and every board has: inductance in series with a capacitor, of its body, pads and vias. A capacitor that states none
/// gets one
/// as a part of its own, about 0.8 nH give or take 0.45 nH (common practice for chips on a board), so that the fit may move it within that.
/// </summary>
internal static class Parasitics
{
    /// <summary>What it is taken for, in henries.</summary>
    public const double MeanH = 0.8e-9;

    /// <summary>One sigma of that in henries.</summary>
    public const double SigmaH = 0.45e-9;

    private const double LeastH = 0.02e-9;
    private const double MostH = 3e-9;

    /// <summary>The circuit with such parts, and their names by capacitor.</summary>
    public static (Circuit Whole, IReadOnlyList<(string Capacitor, string Lead)> Leads) Split(Circuit circuit)
    {
        List<Part> parts = [];
        List<(string, string)> leads = [];
        foreach (Part part in circuit.Parts)
        {
            if (part is not Capacitor { SeriesInductanceH: 0 } c)
            {
                parts.Add(part);
                continue;
            }

            // Names that no circuit file can have.
            (string inner, string lead) = ($"\u0001{c.Name}", $"\u0001lead of {c.Name}");
            parts.Add(c with { To = inner });
            parts.Add(new Inductor { Name = lead, From = inner, To = c.To, Inductance = PartValue.Known(MeanH) });
            leads.Add((c.Name, lead));
        }

        return (circuit with { Parts = [.. parts] }, leads);
    }

    /// <summary>The circuit with the usual inductance in every capacitor that states none.</summary>
    public static Circuit WithUsual(Circuit circuit) => circuit with
    {
        Parts = [.. circuit.Parts.Select(static p => p is Capacitor { SeriesInductanceH: 0 } c ? c with { SeriesInductanceH = MeanH } : p)],
    };

    /// <summary>The unknown that such a part is.</summary>
    public static FitUnknown Unknown(CircuitSolver solver, string lead) =>
        FitUnknown.OfParasitic(solver, lead, LeastH, MostH, MeanH, SigmaH);
}
