using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Circuits.Stress;

/// <summary>Voltage, current and heat of every part of a circuit that is transmitted through.</summary>
/// <remarks>
/// The source is an electromotive force <c>E = 2 sqrt(2 P Z0)</c> (peak) behind the port impedance. Two solutions of the pivoted solver,
/// one for each port driven, are added with the wave that the load returns. The balance of powers holds to 1e-9 of the available power.
/// Worst phases are sought in 720 steps and refined to 1e-9 of the circle. Where a part states no rating, typical limits are assumed and
/// said (common practice for small parts: capacitor 50 V and 0.25 W, resistor 0.25 W, air coil 1 W).
/// </remarks>
public static class StressAnalysis
{
    private const int PhaseSteps = 720;

    /// <summary>Answers a question at the nominal values.</summary>
    /// <param name="solver">The circuit's solver.</param>
    /// <param name="request">Power, frequency, load.</param>
    /// <param name="fault">Why there is no answer; null where there is one.</param>
    public static StressResult? TryRun(CircuitSolver solver, StressRequest request, out CircuitFault? fault)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(request.PowerW, nameof(request));
        double[] values = solver.NominalValues();
        SolverWorkspace w = solver.CreateWorkspace();
        fault = solver.Check([request.FrequencyHz], values, w) ?? solver.Pivoted(request.FrequencyHz, values, w, out _);
        if (fault is not null)
        {
            return null;
        }

        OperatingPoint point = new(solver, values, w, 2 * Math.PI * request.FrequencyHz);
        double z0 = solver.Circuit.ImpedanceOhm, power = request.PowerW;
        double volts = Math.Sqrt(2 * power * z0), amperes = Math.Sqrt(power / z0);
        bool worst = request.Load.StandingWaveRatio is > 1;
        double size = request.Load.StandingWaveRatio is { } swr ? (swr - 1) / (swr + 1) : 0;
        Complex fixedLoad = request.Load.ImpedanceOhm is { } z ? (z - z0) / (z + z0) : Complex.Zero;

        double Most(Func<Complex, double> of) => worst ? Maximum(of, size).Value : of(fixedLoad);
        Complex load = worst ? Complex.FromPolarCoordinates(size, Maximum(point.TotalHeat, size).Phase) : fixedLoad;
        List<PartStress> parts = [];
        for (int i = 0; i < solver.Circuit.Parts.Count; i++)
        {
            Part part = solver.Circuit.Parts[i];
            if (part is Coupling)
            {
                continue;
            }

            int index = i;
            parts.Add(Judge(
                part,
                volts * Math.Sqrt(Most(g => point.VoltageSquared(index, g))),
                amperes * Math.Sqrt(Most(g => point.CurrentSquared(index, g))),
                power * Most(g => point.Heat(index, g)),
                power));
        }

        (double delivered, double reflected) = point.Ports(load);
        double heat = point.TotalHeat(load);
        PartStress? first = parts.Where(static p => p.LimitPowerW is not null).MinBy(static p => p.LimitPowerW);
        return new StressResult
        {
            Request = request,
            AvailableW = power,
            DeliveredW = power * delivered,
            ReflectedW = power * reflected,
            DissipatedW = power * heat,
            BalanceError = 1 - delivered - reflected - heat,
            WorstPhasePartByPart = worst,
            Parts = parts,
            MayTransmit = !parts.Exists(static p => p.Exceeded),
            SafePowerW = first?.LimitPowerW,
            GivesFirst = first,
            Assumptions = Assumed(solver.Circuit, parts),
            HasResistors = solver.Circuit.Parts.Any(static p => p is Resistor or TwoPortBlock),
            HasCapacitors = solver.Circuit.Parts.Any(static p => p is Capacitor),
        };
    }

    private static PartStress Judge(Part part, double peakV, double rmsA, double heatW, double power)
    {
        bool assumed = part.Rated is null;
        PartRating rating = part.Rated ?? part switch
        {
            Capacitor => new PartRating(PeakVoltageV: 50, PowerW: 0.25),
            Resistor => new PartRating(PowerW: 0.25),
            Inductor or Coil => new PartRating(PowerW: 1),
            _ => new PartRating(),
        };
        double limit = double.PositiveInfinity;
        StressLimit? first = null;
        void Consider(double? rated, double borne, StressQuantity quantity)
        {
            if (rated is { } r && borne > 0)
            {
                double at = power * (quantity == StressQuantity.Heat ? r / borne : r / borne * (r / borne));
                if (at < limit)
                {
                    limit = at;
                    first = new StressLimit(quantity, r);
                }
            }
        }

        Consider(rating.PeakVoltageV, peakV, StressQuantity.PeakVoltage);
        Consider(rating.CurrentA, rmsA, StressQuantity.Current);
        Consider(rating.PowerW, heatW, StressQuantity.Heat);
        return new(part.Name, peakV, rmsA, heatW, first is null ? null : limit, first, assumed && first is not null)
        {
            Exceeded = limit < power,
        };
    }

    private static List<StressAssumption> Assumed(Circuit circuit, List<PartStress> parts)
    {
        List<StressAssumption> all = [];
        void Say(IEnumerable<Part> those, StressAssumptionKind kind)
        {
            string[] names = [.. those.Select(static p => p.Name)];
            if (names.Length > 0)
            {
                all.Add(new StressAssumption([.. names], kind));
            }
        }

        Say(circuit.Parts.Where(static p => p is Capacitor { Rated: null }), StressAssumptionKind.SmallCapacitors);
        Say(circuit.Parts.Where(static p => p is Resistor { Rated: null }), StressAssumptionKind.SmallResistors);
        Say(circuit.Parts.Where(static p => p is Inductor or Coil && p.Rated is null), StressAssumptionKind.SmallCoils);
        Say(
            circuit.Parts.Where(
                p => p is Line or Stub or TwoPortBlock or Transformer && p.Rated is null && parts.Exists(s => s.Part == p.Name)),
            StressAssumptionKind.NotJudged);
        Say(circuit.Parts.Where(static p => p is Inductor { Loss: null } or Capacitor { Loss: null }), StressAssumptionKind.Lossless);
        return all;
    }

    private static (double Phase, double Value) Maximum(Func<Complex, double> of, double size)
    {
        double At(double phase) => of(Complex.FromPolarCoordinates(size, phase));
        const double step = 2 * Math.PI / PhaseSteps;
        (double best, double value) = (0, double.NegativeInfinity);
        for (int i = 0; i < PhaseSteps; i++)
        {
            double v = At(i * step);
            if (v > value)
            {
                (best, value) = (i * step, v);
            }
        }

        // Golden section between the neighbours.
        double low = best - step, high = best + step, ratio = (Math.Sqrt(5) - 1) / 2;
        while (high - low > 1e-8)
        {
            double a = high - (ratio * (high - low)), b = low + (ratio * (high - low));
            (low, high) = At(a) > At(b) ? (low, b) : (a, high);
        }

        double refined = At((low + high) / 2);
        return refined > value ? ((low + high) / 2, refined) : (best, value);
    }
}
