using System.Numerics;
using Spurless.Circuits.Solving;

namespace Spurless.Circuits.Stress;

/// <summary>
/// A circuit at one frequency, driven by a unit wave at port 1 with any reflection at port 2. Voltages are in those of the unit wave,
/// currents in those of the wave in the port impedance, powers in the available power.
/// </summary>
internal sealed class OperatingPoint
{
    /// <summary>Points along a line at which its voltage is looked at.</summary>
    private const int AlongLine = 64;

    private readonly List<(Element Element, Wave[] Waves, Role Role)>[] _byPart;
    private readonly Complex _s11;
    private readonly Complex _s12;
    private readonly Complex _s21;
    private readonly Complex _s22;
    private readonly double _omega;
    private readonly double[] _values;
    private readonly double _reference;

    /// <summary>Takes the two solutions that the workspace's pivoted solver holds.</summary>
    public OperatingPoint(CircuitSolver solver, double[] values, SolverWorkspace w, double omega)
    {
        Netlist netlist = solver.Netlist;
        (_omega, _values, _reference) = (omega, values, netlist.Circuit.ImpedanceOhm);
        (Complex[] x1, Complex[] x2, int a, int b) = (w.Solution1, w.Solution2, netlist.PortIn, netlist.PortOut);
        (_s11, _s21, _s12, _s22) = (x1[a] - 1, x1[b], x2[a], x2[b] - 1);
        _byPart = [.. netlist.Circuit.Parts.Select(static _ => new List<(Element, Wave[], Role)>())];
        for (int i = 0; i < netlist.Elements.Length; i++)
        {
            Element e = netlist.Elements[i];
            Wave At(int port)
            {
                (Complex v1, Complex i1) = w.Pivoted.At(i, port, x1);
                (Complex v2, Complex i2) = w.Pivoted.At(i, port, x2);
                return new(v1, v2, i1, i2);
            }

            switch (e.Kind)
            {
                case ElementKind.Windings:
                    for (int k = 0; k < e.Windings.Length; k++)
                    {
                        _byPart[e.Windings[k].Part].Add((e.Windings[k], [At(k)], Role.Winding));
                    }

                    break;
                case ElementKind.Line or ElementKind.Block or ElementKind.Transformer:
                    _byPart[e.Part].Add((e, [At(0), At(1)], e.Kind == ElementKind.Line ? Role.Line : Role.Ports));
                    break;
                default:
                    _byPart[e.Part].Add((e, [At(0)], e.Kind == ElementKind.Stub ? Role.Stub : e.Value < 0 ? Role.Shunt : Role.Plain));
                    break;
            }
        }
    }

    private enum Role
    {
        Plain,
        Shunt,
        Winding,
        Ports,
        Line,
        Stub,
    }

    /// <summary>Powers into the load and back to the source, as shares of the available power.</summary>
    public (double Delivered, double Reflected) Ports(Complex load)
    {
        Complex returned = Returned(load);
        return (Norm(_s21 + (_s22 * returned)) * (1 - Norm(load)), Norm(_s11 + (_s12 * returned)));
    }

    /// <summary>Heat of all parts as a share of the available power.</summary>
    public double TotalHeat(Complex load)
    {
        double sum = 0;
        for (int i = 0; i < _byPart.Length; i++)
        {
            sum += Heat(i, load);
        }

        return sum;
    }

    /// <summary>Heat of a part.</summary>
    public double Heat(int part, Complex load)
    {
        Complex returned = Returned(load);
        double sum = 0;
        foreach ((Element e, Wave[] waves, Role role) in _byPart[part])
        {
            if (role == Role.Winding)
            {
                // What a winding takes in at its ends goes on to the other winding; only its resistance heats.
                sum += Norm(waves[0].Current(returned)) * ElementValues.InductorOhm(e, _omega, _values) / _reference;
                continue;
            }

            if (e.Kind == ElementKind.Transformer)
            {
                continue;
            }

            foreach (Wave wave in waves)
            {
                sum += (wave.Voltage(returned) * Complex.Conjugate(wave.Current(returned))).Real;
            }
        }

        return sum;
    }

    /// <summary>Square of a part's voltage.</summary>
    public double VoltageSquared(int part, Complex load) => Largest(part, load, voltage: true);

    /// <summary>Square of a part's current.</summary>
    public double CurrentSquared(int part, Complex load) => Largest(part, load, voltage: false);

    private static double Norm(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);

    private Complex Returned(Complex load) => load * _s21 / (1 - (load * _s22));

    private double Largest(int part, Complex load, bool voltage)
    {
        Complex returned = Returned(load);
        double most = 0;
        foreach ((Element e, Wave[] waves, Role role) in _byPart[part])
        {
            if (role == Role.Shunt && !voltage)
            {
                // The self-capacitance's current is none of the winding's.
                continue;
            }

            foreach (Wave wave in waves)
            {
                most = Math.Max(most, Norm(voltage ? wave.Voltage(returned) : wave.Current(returned)));
            }

            if (role is Role.Line or Role.Stub)
            {
                most = Math.Max(most, Along(e, waves[0].Voltage(returned), waves[0].Current(returned), voltage));
            }
        }

        return most;
    }

    // From the near end: V(x) = V cosh(gx) - Z I sinh(gx), I(x) = I cosh(gx) - V sinh(gx) / Z.
    private double Along(Element e, Complex v, Complex i, bool voltage)
    {
        Complex gamma = LineFunctions.Propagation(_omega, e.Delay, e.Loss);
        double length = e.ValueOf(_values), z = e.LineOhm / _reference, most = 0;
        for (int k = 1; k < AlongLine; k++)
        {
            Complex x = gamma * (length * k / AlongLine), cosh = Complex.Cosh(x), sinh = Complex.Sinh(x);
            most = Math.Max(most, Norm(voltage ? (v * cosh) - (z * i * sinh) : (i * cosh) - (v * sinh / z)));
        }

        return most;
    }

    private readonly record struct Wave(Complex V1, Complex V2, Complex I1, Complex I2)
    {
        public Complex Voltage(Complex returned) => V1 + (returned * V2);

        public Complex Current(Complex returned) => I1 + (returned * I2);
    }
}
