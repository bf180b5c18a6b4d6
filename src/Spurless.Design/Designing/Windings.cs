using Spurless.Circuits.Parts;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Design.Winding;

namespace Spurless.Design.Designing;

/// <summary>The coils of a circuit as they are wound; a tapped one is one coil, though two inductors of the circuit.</summary>
internal static class Windings
{
    private const int MostTurnsForTap = 12;

    /// <summary>Winds all coils, and gives the parts of tapped ones the values of their winding.</summary>
    /// <returns>The circuit, and its coils by name, those missing that no stated rod and wire gives; null where a tap cannot be
    /// had.</returns>
    public static (Blueprint Blueprint, Dictionary<string, WoundCoil> Coils)? Wind(Blueprint blueprint, DesignQuestion question)
    {
        Dictionary<string, WoundCoil> coils = [];
        double f0 = question.CentreHz, wanted = question.Parts.InductorQ is { } q ? q.Q * Math.Sqrt(f0 / q.AtHz) : 0;
        IReadOnlyList<TappedCoil> tapped = TappedCoil.Of(blueprint.Circuit);
        foreach (Inductor l in blueprint.Circuit.Parts.OfType<Inductor>()
            .Where(l => !tapped.Any(t => t.Upper == l.Name || t.Lower == l.Name)))
        {
            if (CoilWinder.Wind(l.Name, l.Inductance.Require(), f0, wanted) is { } coil)
            {
                coils[l.Name] = coil;
            }
        }

        foreach (TappedCoil tap in tapped)
        {
            // So many turns that the tap is not within the first of them.
            double whole = Whole(blueprint.Circuit, tap), lower = Inductance(blueprint.Circuit, tap.Lower);
            WoundCoil? found = null;
            for (int turns = 2; turns <= MostTurnsForTap && found is null; turns++)
            {
                found = CoilWinder.Wind(tap.Upper, whole, f0, wanted, turns) is { } coil ? Tapped(coil, tap, lower, f0) : null;
            }

            if (found is null)
            {
                return null;
            }

            coils[tap.Upper] = found;
        }

        return (Settled(blueprint, coils, f0), coils);
    }

    /// <summary>Presses or pulls tapped coils to their inductance and gives their parts the values that they then have; the tap
    /// stays.</summary>
    public static Blueprint Settled(Blueprint blueprint, Dictionary<string, WoundCoil> coils, double frequencyHz)
    {
        List<Part> parts = [.. blueprint.Circuit.Parts];
        foreach (TappedCoil tap in TappedCoil.Of(blueprint.Circuit))
        {
            if (!coils.TryGetValue(tap.Upper, out WoundCoil? coil) || coil.Tap is null)
            {
                continue;
            }

            coil = CoilWinder.Adjust(coil, Whole(blueprint.Circuit, tap), frequencyHz) ?? coil;
            coils[tap.Upper] = coil;
            TappedValues values = TappedWinding.Values(coil.Geometry, coil.Tap!.Turns, frequencyHz);
            foreach ((string name, double value, int digits) in new[]
            {
                (tap.Upper, values.UpperH, 5), (tap.Lower, values.LowerH, 5), (tap.Coupling, values.Coupling, 4),
            })
            {
                int at = parts.FindIndex(p => p.Name == name);
                parts[at] = RealCircuit.WithValue(parts[at], CandidateFinish.Digits(value, digits));
            }
        }

        return blueprint with { Circuit = blueprint.Circuit with { Parts = parts } };
    }

    /// <summary>The coils of a finished circuit, each pressed or pulled to its inductance there.</summary>
    public static WoundCoil[] Made(Circuit circuit, IReadOnlyDictionary<string, WoundCoil>? coils, double frequencyHz) => coils is null
        ? []
        : [.. circuit.Parts.OfType<Inductor>()
            .Select(l => coils.TryGetValue(l.Name, out WoundCoil? c)
                ? c.Tap is null ? CoilWinder.Adjust(c, l.Inductance.Require(), frequencyHz) : c
                : null)
            .OfType<WoundCoil>()];

    private static WoundCoil? Tapped(WoundCoil coil, TappedCoil tap, double lowerH, double frequencyHz) =>
        TappedWinding.TurnsFor(coil.Geometry, lowerH, frequencyHz) is { } turns
            ? coil with { Tap = new CoilTapPoint(tap.Lower, tap.Coupling, turns) }
            : null;

    private static double Whole(Circuit circuit, TappedCoil tap) => TappedCoil.Whole(
        Inductance(circuit, tap.Upper), Inductance(circuit, tap.Lower),
        circuit.Parts.OfType<Coupling>().First(m => m.Name == tap.Coupling).Coefficient.Require());

    private static double Inductance(Circuit circuit, string name) =>
        circuit.Parts.OfType<Inductor>().First(l => l.Name == name).Inductance.Require();
}
