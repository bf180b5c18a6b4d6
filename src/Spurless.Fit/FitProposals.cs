using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>
/// Proposes values to start from. Most starts suppose what filters are made of: that every inductor resonates somewhere within the sweep
/// with the capacitors at its nodes, and that capacitors between nodes couple a few per cent. The others spread every unknown evenly over
/// its range.
/// </summary>
internal sealed class FitProposals
{
    private readonly Circuit _circuit;
    private readonly CircuitSolver _solver;
    private readonly IReadOnlyList<FitUnknown> _unknowns;
    private readonly double[] _nominal;
    private readonly Role[] _roles;
    private readonly double[] _busyHz;

    public FitProposals(Circuit circuit, CircuitSolver solver, IReadOnlyList<FitUnknown> unknowns, FitData data)
    {
        _circuit = circuit;
        _solver = solver;
        _unknowns = unknowns;
        _nominal = solver.NominalValues();
        _roles = [.. unknowns.Select(RoleOf)];
        _busyHz = Busy(data);
    }

    private enum Kind
    {
        Plain,
        Tank,
        Series,
        Coupler,
        Shunt,
    }

    /// <summary>Proposes a place.</summary>
    /// <param name="p">Random numbers from 0 to 1, one per unknown.</param>
    /// <param name="plain">Evenly over the ranges, instead of by role.</param>
    /// <param name="x">Receives the place on the unknowns' scales.</param>
    public void Draw(double[] p, bool plain, double[] x)
    {
        double[] values = (double[])_nominal.Clone();
        for (int pass = 0; pass < 3; pass++)
        {
            for (int i = 0; i < x.Length; i++)
            {
                FitUnknown u = _unknowns[i];
                Role role = plain ? new Role(Kind.Plain, -1, []) : _roles[i];
                if (PassOf(role.Kind) != pass)
                {
                    continue;
                }

                x[i] = Math.Clamp(
                    role.Kind == Kind.Plain ? Plain(u, p[i]) : u.To(ByRole(role, p[i], values)),
                    u.Low,
                    u.High);
                values[u.Number] = u.From(x[i]);
            }
        }
    }

    private static int PassOf(Kind kind) => kind switch { Kind.Plain => 0, Kind.Tank => 2, _ => 1 };

    private static double Plain(FitUnknown u, double p) => u switch
    {
        { Quantity: CircuitQuantity.Q } => Math.Log(60 + (140 * p)),
        { Mean: { } mean } => mean + (u.Sigma * NormalDistribution.Quantile(p)),
        _ => u.Low + ((u.High - u.Low) * p),
    };

    private double ByRole(Role role, double p, double[] values)
    {
        // One random number decides both where it resonates and how strong it is: low bits and high bits.
        double fine = (p * 1024) - Math.Floor(p * 1024);
        double at = 2 * Math.PI * _busyHz[Math.Min(_busyHz.Length - 1, (int)(fine * _busyHz.Length))];
        double henries = role.Coil >= 0 ? values[role.Coil] : double.NaN;
        if (!(henries > 0))
        {
            henries = 50 / at;
        }

        double tuned = 1 / (at * at * henries);
        switch (role.Kind)
        {
            case Kind.Tank:
                {
                    double stolen = 0;
                    foreach (int other in role.Beside)
                    {
                        stolen += double.IsFinite(values[other]) ? values[other] : 0;
                    }

                    return Math.Max(tuned - Math.Min(stolen, 0.95 * tuned), 0.02 * tuned) * (0.97 + (0.06 * p));
                }

            case Kind.Series:
                return tuned * (0.97 + (0.1 * p));
            case Kind.Coupler:
                return tuned * 0.008 * Math.Pow(50, p);
            default:
                return tuned * 0.5 * Math.Pow(80, p);
        }
    }

    private Role RoleOf(FitUnknown u)
    {
        if (u.Quantity != CircuitQuantity.CapacitanceF || u.Mean is not null
            || _circuit.Parts.First(p => p.Name == u.Part) is not Capacitor c)
        {
            return new Role(Kind.Plain, -1, []);
        }

        Inductor? Coil(string node, Func<Inductor, bool> also) => _circuit.Parts.OfType<Inductor>()
            .FirstOrDefault(l => (l.From == node || l.To == node) && also(l));
        int Number(Inductor? l) => l is null ? -1 : _solver.ParameterNumber(l.Name, CircuitQuantity.InductanceH);
        bool Alone(string node) => node != Circuit.Ground && node != _circuit.PortIn && node != _circuit.PortOut
            && _circuit.Parts.Count(p => p.Nodes.Contains(node)) == 2;

        Inductor? across = Coil(c.From, l => (l.From == c.From && l.To == c.To) || (l.From == c.To && l.To == c.From));
        if (across is not null)
        {
            string hot = c.From == Circuit.Ground ? c.To : c.From;
            int[] beside = [.. _circuit.Parts.OfType<Capacitor>().Where(o => o != c && (o.From == hot || o.To == hot))
                .Select(o => _solver.ParameterNumber(o.Name, CircuitQuantity.CapacitanceF))];
            return new Role(Kind.Tank, Number(across), beside);
        }

        foreach (string node in (string[])[c.From, c.To])
        {
            if (Alone(node) && Coil(node, static _ => true) is { } inSeries)
            {
                return new Role(Kind.Series, Number(inSeries), []);
            }
        }

        bool shunt = c.From == Circuit.Ground || c.To == Circuit.Ground;
        Inductor? near = Coil(c.From == Circuit.Ground ? c.To : c.From, static _ => true)
            ?? Coil(c.To == Circuit.Ground ? c.From : c.To, static _ => true);
        return new Role(shunt ? Kind.Shunt : Kind.Coupler, Number(near ?? _circuit.Parts.OfType<Inductor>().FirstOrDefault()), []);
    }

    // Where the sweep is busy: half of the places by how much passes, half evenly.
    private static double[] Busy(FitData data)
    {
        int t = Math.Max(0, Array.FindIndex(data.Parameters, static p => p is SweepParameter.S21 or SweepParameter.S12));
        double[] weight = new double[data.Points];
        for (int i = 0; i < data.Points; i++)
        {
            weight[i] = data.Magnitude[t]
                ? Math.Pow(10, data.Real[t][i] / 10)
                : (data.Real[t][i] * data.Real[t][i]) + (data.Imaginary[t][i] * data.Imaginary[t][i]);
        }

        const int Places = 64;
        double[] places = new double[Places];
        double whole = weight.Sum(), sum = 0;
        for (int k = 0, i = 0; k < Places; k++)
        {
            while (i < data.Points - 1 && sum + weight[i] < whole * (k + 0.5) / Places)
            {
                sum += weight[i++];
            }

            places[k] = k % 4 == 3 ? data.FrequenciesHz[(int)((k + 0.5) / Places * data.Points)] : data.FrequenciesHz[i];
        }

        return places;
    }

    private sealed record Role(Kind Kind, int Coil, int[] Beside);
}
