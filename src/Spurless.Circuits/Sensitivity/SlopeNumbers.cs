using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Circuits.Sensitivity;

/// <summary>One number by which is differentiated.</summary>
/// <param name="Index">Its place among all.</param>
/// <param name="Part">The part's place in the circuit.</param>
/// <param name="Quantity">What it is.</param>
/// <param name="Nominal">Its value.</param>
internal readonly record struct SlopeNumber(int Index, int Part, PartQuantity Quantity, double Nominal);

/// <summary>All numbers of a circuit: its parameters first, by their own numbers, then those that no run varies.</summary>
internal sealed class SlopeNumbers
{
    private readonly List<SlopeNumber> _all = [];
    private readonly Dictionary<(int Part, PartQuantity Quantity), int> _further = [];

    public SlopeNumbers(CircuitSolver solver)
    {
        foreach (CircuitParameter p in solver.Parameters)
        {
            Add(p.PartIndex, p.Quantity switch
            {
                CircuitQuantity.ResistanceOhm => PartQuantity.ResistanceOhm,
                CircuitQuantity.InductanceH => PartQuantity.InductanceH,
                CircuitQuantity.CapacitanceF => PartQuantity.CapacitanceF,
                CircuitQuantity.Q => PartQuantity.Q,
                CircuitQuantity.Coupling => PartQuantity.Coupling,
                _ => PartQuantity.LengthM,
            }, p.Nominal.Value ?? double.NaN);
        }

        for (int i = 0; i < solver.Circuit.Parts.Count; i++)
        {
            switch (solver.Circuit.Parts[i])
            {
                case Inductor l:
                    Further(i, PartQuantity.SeriesResistanceOhm, l.Loss?.SeriesResistanceOhm);
                    Further(i, PartQuantity.SelfCapacitanceF, l.SelfCapacitanceF);
                    break;
                case Coil c:
                    Further(i, PartQuantity.SeriesResistanceOhm, c.Loss?.SeriesResistanceOhm);
                    Further(i, PartQuantity.SelfCapacitanceF, c.Resolve().SelfCapacitanceF);
                    break;
                case Capacitor c:
                    Further(i, PartQuantity.SeriesResistanceOhm, c.Loss?.SeriesResistanceOhm);
                    Further(i, PartQuantity.SeriesInductanceH, c.SeriesInductanceH);
                    break;
                case Line line:
                    Further(i, PartQuantity.LineImpedanceOhm, line.ImpedanceOhm);
                    Further(i, PartQuantity.Velocity, line.Velocity);
                    break;
                case Stub stub:
                    Further(i, PartQuantity.LineImpedanceOhm, stub.ImpedanceOhm);
                    Further(i, PartQuantity.Velocity, stub.Velocity);
                    break;
                case Transformer t:
                    Further(i, PartQuantity.TurnsRatio, t.FirstTurns / t.SecondTurns);
                    break;
            }
        }
    }

    public IReadOnlyList<SlopeNumber> All => _all;

    public int Count => _all.Count;

    /// <summary>The number of a quantity that no run varies; -1 where the part has none.</summary>
    public int Of(int part, PartQuantity quantity) => _further.GetValueOrDefault((part, quantity), -1);

    private void Further(int part, PartQuantity quantity, double? nominal)
    {
        if (nominal > 0)
        {
            _further[(part, quantity)] = _all.Count;
            Add(part, quantity, nominal.Value);
        }
    }

    private void Add(int part, PartQuantity quantity, double nominal) => _all.Add(new(_all.Count, part, quantity, nominal));
}
