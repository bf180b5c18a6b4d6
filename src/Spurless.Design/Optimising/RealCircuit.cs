using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Questions;
using Spurless.Design.Winding;

namespace Spurless.Design.Optimising;

/// <summary>A blueprint with the losses, parasitics and tolerances of real parts, and the ranges of its values.</summary>
internal sealed class RealCircuit
{
    /// <summary>Name of the capacitance that goes round the filter.</summary>
    public const string BypassName = "CB";

    private const double SpeedOfLight = 299792458;

    // A part of a tapped coil may be so much of the least coil that there is, but has so much reactance over the port's impedance: about a
    // turn, for the formulas know no less.
    private const double LeastOfTapped = 0.75, LeastTurn = 0.1;

    private static readonly Dictionary<int, double> _seriesTolerance =
        new() { [3] = 0.4, [6] = 0.2, [12] = 0.1, [24] = 0.05, [48] = 0.02, [96] = 0.01, [192] = 0.005 };

    private RealCircuit(Blueprint blueprint, CircuitSolver solver, int[] variables, double[] low, double[] high)
    {
        (Blueprint, Solver, Variables, Low, High) = (blueprint, solver, variables, low, high);
        Start = [.. variables.Select(v => Math.Log(Math.Abs(solver.Parameters[v].Nominal.Require())))];
    }

    public Blueprint Blueprint { get; }

    public CircuitSolver Solver { get; }

    /// <summary>Numbers of the parameters that may move.</summary>
    public int[] Variables { get; }

    /// <summary>Least logarithms of their magnitudes.</summary>
    public double[] Low { get; }

    /// <summary>Greatest logarithms of their magnitudes.</summary>
    public double[] High { get; }

    /// <summary>Logarithms of the values as they stand.</summary>
    public double[] Start { get; }

    /// <summary>Tolerance of capacitors: what was asked for, else that of their series (IEC 60063), else 5 %.</summary>
    public static double CapacitorTolerance(DesignQuestion question) =>
        question.CapacitorTolerance ?? (question.Parts.Series is { } size ? _seriesTolerance[size] : 0.05);

    /// <summary>The real circuit of a blueprint; null where the netlist has a fault.</summary>
    /// <param name="blueprint">The blueprint.</param>
    /// <param name="question">Which parts there are.</param>
    /// <param name="coils">The coils as wound, for their self-capacitance; null for estimates of it.</param>
    public static RealCircuit? Of(Blueprint blueprint, DesignQuestion question, IReadOnlyDictionary<string, WoundCoil>? coils = null)
    {
        IReadOnlyList<TappedCoil> tapped = TappedCoil.Of(blueprint.Circuit);
        List<Part> parts = [.. blueprint.Circuit.Parts.Select(p => Real(p, blueprint.Circuit, question, coils, tapped))];
        Circuit circuit = blueprint.Circuit with { Parts = parts };
        if (question.BypassOpenF is { } open && !parts.Exists(static p => p.Name == BypassName))
        {
            parts.Add(new Capacitor
            {
                Name = BypassName,
                From = circuit.PortIn,
                To = circuit.PortOut,
                Capacitance = PartValue.Known(open)
            });
        }

        if (CircuitSolver.TryCreate(circuit, out _) is not { } solver)
        {
            return null;
        }

        int[] variables = [.. Enumerable.Range(0, solver.Parameters.Count)
            .Where(i => solver.Parameters[i].IsPartValue && solver.Parameters[i].Part != BypassName
                && !tapped.Any(t => t.Coupling == solver.Parameters[i].Part))];
        double[] low = new double[variables.Length], high = new double[variables.Length];
        for (int i = 0; i < variables.Length; i++)
        {
            (double least, double most) = Range(solver.Parameters[variables[i]], question);
            string part = solver.Parameters[variables[i]].Part;
            if (tapped.Any(t => t.Upper == part || t.Lower == part))
            {
                least = Math.Max(LeastOfTapped * least, LeastTurn * question.ImpedanceOhm / (2 * Math.PI * question.CentreHz));
            }

            (low[i], high[i]) = (Math.Log(least), Math.Log(most));
        }

        return new(blueprint, solver, variables, low, high);
    }

    /// <summary>The blueprint with other values.</summary>
    /// <param name="values">All parameters of <see cref="Solver"/>.</param>
    public Blueprint With(ReadOnlySpan<double> values)
    {
        List<Part> parts = [.. Blueprint.Circuit.Parts];
        for (int i = 0; i < Solver.Parameters.Count; i++)
        {
            CircuitParameter p = Solver.Parameters[i];
            int at = parts.FindIndex(x => x.Name == p.Part);
            if (p.IsPartValue && at >= 0)
            {
                parts[at] = WithValue(parts[at], values[i]);
            }
        }

        return Blueprint with { Circuit = Blueprint.Circuit with { Parts = parts } };
    }

    /// <summary>A part with another value.</summary>
    public static Part WithValue(Part part, double value) => part switch
    {
        Capacitor c => c with { Capacitance = PartValue.Known(value) },
        Inductor l => l with { Inductance = PartValue.Known(value) },
        Resistor r => r with { Resistance = PartValue.Known(value) },
        Coupling m => m with { Coefficient = PartValue.Known(value) },
        Line w => w with { Length = PartValue.Known(value) },
        Stub w => w with { Length = PartValue.Known(value) },
        _ => part,
    };

    private static Part Real(Part part, Circuit circuit, DesignQuestion question, IReadOnlyDictionary<string, WoundCoil>? coils,
        IReadOnlyList<TappedCoil> tapped)
    {
        switch (part)
        {
            case Capacitor c:
                return c with
                {
                    Loss = question.Parts.CapacitorQ is { } q ? PartLoss.QualityFactor(q.Q, q.AtHz) : null,
                    SeriesInductanceH = question.Parts.CapacitorQ is null ? 0 : question.CapacitorLeadH,
                    Tolerance = PartTolerance.Uniform(CapacitorTolerance(question)),
                };
            case Inductor l:
                double self = question.Parts.InductorQ is null || tapped.Any(t => t.Lower == l.Name) ? 0
                    : coils is null ? EstimatedSelfCapacitance(question)
                    : coils.TryGetValue(l.Name, out WoundCoil? coil) ? coil.SelfCapacitanceF / UpperShare(circuit, l, tapped) : 0;
                return l with
                {
                    Loss = question.Parts.InductorQ is { } ql ? PartLoss.QualityFactor(ql.Q, ql.AtHz) : null,
                    SelfCapacitanceF = self,
                    Tolerance = PartTolerance.Uniform(question.InductorTolerance),
                };
            case Resistor:
                return part with { Tolerance = PartTolerance.Uniform(0.05) };
            case Coupling:
                bool tap = tapped.Any(t => t.Coupling == part.Name);
                return part with { Tolerance = PartTolerance.Uniform(tap ? question.InductorTolerance : 0.1) };
            case Line or Stub:
                return part with { Tolerance = PartTolerance.Uniform(0.01) };
            default:
                return part;
        }
    }

    // A tapped coil's capacitance lies across all of it, drawn is it across its upper part: it takes in as much there as it does at the
    // whole's voltage. The square of the upper part's share of that; 1 for a plain coil.
    private static double UpperShare(Circuit circuit, Inductor upper, IReadOnlyList<TappedCoil> tapped)
    {
        if (tapped.FirstOrDefault(t => t.Upper == upper.Name) is not { } tap)
        {
            return 1;
        }

        double a = upper.Inductance.Require(), b = circuit.Parts.OfType<Inductor>().First(l => l.Name == tap.Lower).Inductance.Require();
        double k = circuit.Parts.OfType<Coupling>().First(m => m.Name == tap.Coupling).Coefficient.Require();
        double share = (a + (k * Math.Sqrt(a * b))) / TappedCoil.Whole(a, b, k);
        return share * share;
    }

    // Medhurst's 0.46 to 0.5 pF per centimetre of diameter for a coil of about 7 mm, larger ones at lower frequency.
    private static double EstimatedSelfCapacitance(DesignQuestion question) =>
        0.47e-12 * Math.Clamp(0.8 * Math.Sqrt(145e6 / question.CentreHz), 0.3, 2);

    private static (double Least, double Most) Range(CircuitParameter p, DesignQuestion question)
    {
        double w0 = 2 * Math.PI * question.CentreHz, r = question.ImpedanceOhm, now = Math.Abs(p.Nominal.Require());
        return p.Quantity switch
        {
            CircuitQuantity.InductanceH => question.Parts.InductorsH ?? (0.03 * r / w0, 30 * r / w0),
            CircuitQuantity.CapacitanceF => question.Parts.CapacitorsF ?? (Math.Min(0.3e-12, 0.02 / (r * w0)), 30 / (r * w0)),
            CircuitQuantity.Coupling => (0.002, 0.6),
            // Not under a fortieth of a wave: what is cut shorter is mostly its ends.
            CircuitQuantity.LengthM => (Math.Max(0.2 * now, 0.66 * SpeedOfLight / question.CentreHz / 40), 3 * now),
            _ => (1, 20_000),
        };
    }
}
