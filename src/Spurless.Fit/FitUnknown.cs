using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// A number of the circuit that the fit looks for: on a logarithmic scale within bounds, but for a coupling whose range spans zero.
/// </summary>
internal sealed class FitUnknown
{
    private const double CoilQSpread = 0.3;
    private const double MostSigmas = 6;

    private readonly double _sign = 1;

    private readonly double _unit = 1;

    private FitUnknown(int number, CircuitParameter parameter, double low, double high, double? mean, double sigma, double? linearUnit =
        null)
    {
        Number = number;
        Part = parameter.Part;
        Quantity = parameter.Quantity;
        if (linearUnit is { } unit)
        {
            (_unit, IsLinear, IsParasitic) = (unit, true, true);
            (Low, High, Mean, Sigma) = (low / unit, high / unit, mean / unit, sigma / unit);
            return;
        }

        IsLinear = low <= 0 && high >= 0;
        if (!IsLinear && high < 0)
        {
            _sign = -1;
            (low, high) = (-high, -low);
        }

        Low = IsLinear ? low : Math.Log(low);
        High = IsLinear ? high : Math.Log(high);
        Mean = mean is { } m ? To(m) : null;
        Sigma = sigma;
    }

    private FitUnknown(FitUnknown like, double sigma)
    {
        (Number, Part, Quantity, IsLinear, IsParasitic) = (like.Number, like.Part, like.Quantity, like.IsLinear, like.IsParasitic);
        (Low, High, Mean, Sigma, _sign, _unit) = (like.Low, like.High, like.Mean, sigma, like._sign, like._unit);
    }

    /// <summary>Its place among the solver's parameters.</summary>
    public int Number { get; }

    public string Part { get; }

    public CircuitQuantity Quantity { get; }

    /// <summary>Whether its scale is linear.</summary>
    public bool IsLinear { get; }

    /// <summary>Whether nobody asked for it: a part's parasitic, which is there all the same (<see cref="Parasitics"/>).</summary>
    public bool IsParasitic { get; }

    /// <summary>Lower bound on its scale.</summary>
    public double Low { get; }

    /// <summary>Upper bound on its scale.</summary>
    public double High { get; }

    /// <summary>What it was taken for beforehand, on its scale; null where nothing but a range was stated.</summary>
    public double? Mean { get; }

    /// <summary>One sigma of <see cref="Mean"/> on its scale.</summary>
    public double Sigma { get; }

    /// <summary>One sigma of what is known beforehand, taking a range for an even spread over it.</summary>
    public double SpreadBefore => Mean is null ? (High - Low) / Math.Sqrt(12) : Sigma;

    /// <summary>The circuit with its coils as inductors whose value is an estimate, and what of it is to be found.</summary>
    public static (Circuit Circuit, CircuitSolver? Solver, IReadOnlyList<FitUnknown> Unknowns, IReadOnlyList<CircuitFault> Faults) Of(
        Circuit circuit)
    {
        (Circuit resolved, HashSet<string> guessedQ) = Resolve(circuit);
        CircuitSolver? solver = CircuitSolver.TryCreate(resolved, out IReadOnlyList<CircuitFault> faults);
        return (resolved, solver, solver is null ? [] : [.. Find(solver, guessedQ)], faults);
    }

    /// <summary>What of the circuit, given by a solver of it with its coils as inductors, is to be found.</summary>
    public static IReadOnlyList<FitUnknown> In(Circuit traced, CircuitSolver solver) => [.. Find(solver, Resolve(traced).GuessedQ)];

    private static (Circuit Circuit, HashSet<string> GuessedQ) Resolve(Circuit circuit)
    {
        HashSet<string> guessedQ = new(StringComparer.Ordinal);
        Circuit resolved = circuit with
        {
            Parts =
            [
                .. circuit.Parts.Select(p =>
                {
                    if (p is not Coil coil)
                    {
                        return p;
                    }

                    if (coil.Loss is null)
                    {
                        guessedQ.Add(coil.Name);
                    }

                    return coil.Resolve() with { About = coil.About ?? coil.Spread };
                }),
            ],
        };
        return (resolved, guessedQ);
    }

    /// <summary>A value on this scale.</summary>
    public double To(double value) => IsLinear ? value / _unit : Math.Log(_sign * value);

    /// <summary>The value at a place of this scale.</summary>
    public double From(double x) => IsLinear ? x * _unit : _sign * Math.Exp(x);

    /// <summary>Derivative of the value by the place on this scale.</summary>
    public double Slope(double x) => IsLinear ? _unit : _sign * Math.Exp(x);

    /// <summary>The same number in a changed circuit, where it may have another place.</summary>
    public FitUnknown With(CircuitSolver solver)
    {
        int number = solver.ParameterNumber(Part, Quantity);
        double low = From(Low), high = From(High);
        return IsParasitic
            ? new FitUnknown(number, solver.Parameters[number], low, high, From(Mean ?? 0), Sigma * _unit, _unit)
            : new FitUnknown(number, solver.Parameters[number], Math.Min(low, high), Math.Max(low, high), Mean is { } m ? From(m) : null,
                Sigma);
    }

    /// <summary>The same with an estimate that is so many times less sure.</summary>
    public FitUnknown Wider(double factor) => new(this, Sigma * factor);

    /// <summary>A parasitic, on a linear scale.</summary>
    /// <param name="solver">The circuit with it as a part of its own.</param>
    /// <param name="part">That part, an inductor.</param>
    /// <param name="low">Lower bound in henries.</param>
    /// <param name="high">Upper bound in henries.</param>
    /// <param name="mean">What it is taken for beforehand, in henries.</param>
    /// <param name="sigma">One sigma of that.</param>
    public static FitUnknown OfParasitic(CircuitSolver solver, string part, double low, double high, double mean, double sigma)
    {
        int number = solver.ParameterNumber(part, CircuitQuantity.InductanceH);
        return new FitUnknown(number, solver.Parameters[number], low, high, mean, sigma, 1e-9);
    }

    /// <summary>A number with nothing known of it but a range.</summary>
    public static FitUnknown Within(CircuitSolver solver, string part, CircuitQuantity quantity, double low, double high)
    {
        int number = solver.ParameterNumber(part, quantity);
        return new FitUnknown(number, solver.Parameters[number], low, high, null, 0);
    }

    private static IEnumerable<FitUnknown> Find(CircuitSolver solver, HashSet<string> guessedQ)
    {
        for (int i = 0; i < solver.Parameters.Count; i++)
        {
            CircuitParameter parameter = solver.Parameters[i];
            if (DefaultRange(parameter.Quantity) is not { } range)
            {
                continue;
            }

            if (!parameter.Nominal.IsKnown)
            {
                yield return new FitUnknown(
                    i, parameter, parameter.Nominal.Low ?? range.Low, parameter.Nominal.High ?? range.High, null, 0);
                continue;
            }

            double value = parameter.Nominal.Require();
            double? about = parameter.Quantity == CircuitQuantity.Q
                ? guessedQ.Contains(parameter.Part) ? CoilQSpread : null
                : solver.Circuit.Parts[parameter.PartIndex].About;
            if (about is not { } sigma || value == 0)
            {
                continue;
            }

            double reach = Math.Exp(MostSigmas * sigma);
            yield return value > 0
                ? new FitUnknown(
                    i,
                    parameter,
                    value / reach,
                    parameter.Quantity == CircuitQuantity.Coupling ? Math.Min(0.999, value * reach) : value * reach,
                    value,
                    sigma)
                : new FitUnknown(i, parameter, Math.Max(-0.999, value * reach), value / reach, value, sigma);
        }
    }

    /// <summary>Where nothing was stated: what such parts are made in. Null for a quantity that is not looked for.</summary>
    private static (double Low, double High)? DefaultRange(CircuitQuantity quantity) => quantity switch
    {
        CircuitQuantity.ResistanceOhm => (0.01, 1e6),
        CircuitQuantity.InductanceH => (0.5e-9, 100e-6),
        CircuitQuantity.CapacitanceF => (0.1e-12, 100e-9),
        CircuitQuantity.Q => (5, 5000),
        CircuitQuantity.Coupling => (0.001, 0.95),
        CircuitQuantity.LengthM => (1e-3, 20),
        _ => null,
    };
}
