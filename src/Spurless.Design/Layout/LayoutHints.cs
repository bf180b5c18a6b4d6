using Spurless.Circuits.Parts;
using Spurless.Design.Winding;

namespace Spurless.Design.Layout;

/// <summary>How far two neighbouring coils couple without meaning to.</summary>
/// <param name="First">Name of the first.</param>
/// <param name="Second">Name of the second.</param>
/// <param name="DistanceM">Distance of their middles in metres at which it holds.</param>
/// <param name="Coefficient">Coupling coefficient's size there side by side with parallel axes; falls with the third power of the distance.
/// At right angles, the one's axis through the other's middle, it is 0.</param>
/// <param name="EndToEnd">Its size at the same distance end to end, on one axis.</param>
public sealed record StrayCoupling(string First, string Second, double DistanceM, double Coefficient, double EndToEnd);

/// <summary>What layout does to a filter.</summary>
public static class LayoutHints
{
    /// <summary>From this loss on, what goes round an unscreened filter decides (common practice).</summary>
    public const double UnscreenedDb = 70;

    /// <summary>The stray coupling of each pair of neighbouring coils to ground, at three times the greater of their diameters and
    /// lengths.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="coils">Its coils as wound.</param>
    public static IReadOnlyList<StrayCoupling> Strays(Circuit circuit, IReadOnlyList<WoundCoil> coils)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(coils);
        List<StrayCoupling> all = [];
        WoundCoil[] grounded = [.. coils.Where(c => c.Tap is not null
            || circuit.Parts.OfType<Inductor>().Any(l => l.Name == c.Part && l.To == Circuit.Ground))];
        for (int i = 0; i + 1 < grounded.Length; i++)
        {
            (WoundCoil a, WoundCoil b) = (grounded[i], grounded[i + 1]);
            double distance = 3 * Math.Max(Math.Max(a.Geometry.DiameterM, a.Geometry.LengthM),
                Math.Max(b.Geometry.DiameterM, b.Geometry.LengthM));
            double beside = MutualInductance.ParallelCoils(Of(a), Of(b), distance), root = Math.Sqrt(a.InductanceH * b.InductanceH);
            double onAxis = MutualInductance.CoaxialCoils(Of(a), Of(b), distance);
            all.Add(new(a.Part, b.Part, distance, Math.Abs(beside) / root, onAxis / root));
        }

        return all;
        static (int, double, double) Of(WoundCoil c) => ((int)c.Geometry.Turns, c.Geometry.DiameterM, c.Geometry.LengthM);
    }
}
