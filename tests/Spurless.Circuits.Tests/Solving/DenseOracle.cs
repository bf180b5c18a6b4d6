using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

/// <summary>
/// A circuit's S-parameters by another way: every part brings its currents as unknowns, sources of 2 V behind resistors as unknowns too,
/// all in one dense matrix that a general numerics library solves. Shares no code with the solver; slow.
/// </summary>
internal static class DenseOracle
{
    public static ScatteringMatrix Solve(Circuit circuit, double frequencyHz)
    {
        double w = 2 * Math.PI * frequencyHz, z0 = circuit.ImpedanceOhm;
        List<string> nodes = [.. circuit.Parts.SelectMany(static p => p.Nodes).Where(static n => n != Circuit.Ground).Distinct()];
        List<(string From, string To)> branches = [];
        List<Action<Matrix<Complex>>> laws = [];
        Dictionary<string, (int Branch, double Henry)> inductors = [];
        Complex j = Complex.ImaginaryOne;
        int N(string node) => node == Circuit.Ground ? -1 : nodes.IndexOf(node);

        int Branch(string a, string b)
        {
            branches.Add((a, b));
            return branches.Count - 1;
        }

        void V(Matrix<Complex> m, int row, string a, string b, Complex f)
        {
            if (N(a) >= 0)
            {
                m[row, N(a)] += f;
            }

            if (N(b) >= 0)
            {
                m[row, N(b)] -= f;
            }
        }

        void Impedance(string a, string b, Complex z)
        {
            int branch = Branch(a, b);
            laws.Add(m =>
            {
                V(m, nodes.Count + branch, a, b, 1);
                m[nodes.Count + branch, nodes.Count + branch] -= z;
            });
        }

        void Admittance(string a, string b, Complex y)
        {
            int branch = Branch(a, b);
            laws.Add(m =>
            {
                V(m, nodes.Count + branch, a, b, y);
                m[nodes.Count + branch, nodes.Count + branch] -= 1;
            });
        }

        void Inductance(Inductor l)
        {
            double h = l.Inductance.Require();
            double r = l.Loss switch
            {
                null => 0,
                { Q: { } q } => 2 * Math.PI * l.Loss.QFrequencyHz * h / q.Require() * Math.Sqrt(frequencyHz / l.Loss.QFrequencyHz),
                _ => l.Loss.SeriesResistanceOhm!.Value,
            };
            Impedance(l.From, l.To, r + (j * w * h));
            inductors[l.Name] = (branches.Count - 1, h);
            Admittance(l.From, l.To, j * w * l.SelfCapacitanceF);
        }

        Complex Gamma(double velocity, LineLoss loss) =>
            (loss.DbPerMetre(frequencyHz) * Math.Log(10) / 20) + (j * w / (velocity * 299792458));
        foreach (Part part in circuit.Parts)
        {
            switch (part)
            {
                case Resistor r:
                    Impedance(r.From, r.To, r.Resistance.Require());
                    break;
                case Inductor l:
                    Inductance(l);
                    break;
                case Coil coil:
                    Inductance(coil.Resolve());
                    break;
                case Capacitor c:
                    {
                        double f = c.Capacitance.Require();
                        double r = c.Loss switch
                        {
                            null => 0,
                            { Q: { } q } => 1 / (2 * Math.PI * c.Loss.QFrequencyHz * f * q.Require()),
                            _ => c.Loss.SeriesResistanceOhm!.Value,
                        };
                        Impedance(c.From, c.To, r + (j * w * c.SeriesInductanceH) + (1 / (j * w * f)));
                        break;
                    }

                case Stub s:
                    {
                        Complex t = Complex.Tanh(Gamma(s.Velocity, s.Loss) * s.Length.Require());
                        if (s.End == StubEnd.Short)
                        {
                            Impedance(s.From, s.To, s.ImpedanceOhm * t);
                        }
                        else
                        {
                            Admittance(s.From, s.To, t / s.ImpedanceOhm);
                        }

                        break;
                    }

                case Line line:
                    {
                        // Chain form: V1 = cosh V2 - Z sinh I2, I1 = sinh/Z V2 - cosh I2 with both currents into the line.
                        Complex g = Gamma(line.Velocity, line.Loss) * line.Length.Require(), cosh = Complex.Cosh(g), sinh = Complex.Sinh(g);
                        int one = Branch(line.From, line.FromReturn), two = Branch(line.To, line.ToReturn);
                        laws.Add(m =>
                        {
                            int row = nodes.Count + one;
                            V(m, row, line.From, line.FromReturn, 1);
                            V(m, row, line.To, line.ToReturn, -cosh);
                            m[row, nodes.Count + two] += line.ImpedanceOhm * sinh;
                            row = nodes.Count + two;
                            m[row, nodes.Count + one] += line.ImpedanceOhm;
                            V(m, row, line.To, line.ToReturn, -sinh);
                            m[row, nodes.Count + two] += line.ImpedanceOhm * cosh;
                        });
                        break;
                    }

                case Transformer t:
                    {
                        int one = Branch(t.FirstFrom, t.FirstTo), two = Branch(t.SecondFrom, t.SecondTo);
                        laws.Add(m =>
                        {
                            V(m, nodes.Count + one, t.FirstFrom, t.FirstTo, 1 / t.FirstTurns);
                            V(m, nodes.Count + one, t.SecondFrom, t.SecondTo, -1 / t.SecondTurns);
                            m[nodes.Count + two, nodes.Count + one] += t.FirstTurns * z0;
                            m[nodes.Count + two, nodes.Count + two] += t.SecondTurns * z0;
                        });
                        break;
                    }

                case TwoPortBlock block:
                    {
                        TwoPortMatrix z = TwoPortAlgebra.ToImpedance(
                            block.Source.At(frequencyHz), block.Source.Reference1, block.Source.Reference2)!.Value;
                        int one = Branch(block.From, Circuit.Ground), two = Branch(block.To, Circuit.Ground);
                        laws.Add(m =>
                        {
                            int a = nodes.Count + one, b = nodes.Count + two;
                            V(m, a, block.From, Circuit.Ground, 1);
                            m[a, a] -= z.M11;
                            m[a, b] -= z.M12;
                            V(m, b, block.To, Circuit.Ground, 1);
                            m[b, a] -= z.M21;
                            m[b, b] -= z.M22;
                        });
                        break;
                    }
            }
        }

        foreach (Coupling k in circuit.Parts.OfType<Coupling>())
        {
            (int one, double a) = inductors[k.First];
            (int two, double b) = inductors[k.Second];
            Complex mutual = j * w * k.Coefficient.Require() * Math.Sqrt(a * b);
            laws.Add(m =>
            {
                m[nodes.Count + one, nodes.Count + two] -= mutual;
                m[nodes.Count + two, nodes.Count + one] -= mutual;
            });
        }

        Complex[,] result = new Complex[2, 2];
        string[] ports = [circuit.PortIn, circuit.PortOut];
        int sourceIn = Branch(Circuit.Ground, ports[0]), sourceOut = Branch(Circuit.Ground, ports[1]);
        int size = nodes.Count + branches.Count;
        Matrix<Complex> matrix = Matrix<Complex>.Build.Dense(size, size);
        for (int b = 0; b < branches.Count; b++)
        {
            (string from, string to) = branches[b];
            if (N(from) >= 0)
            {
                matrix[N(from), nodes.Count + b] += z0;
            }

            if (N(to) >= 0)
            {
                matrix[N(to), nodes.Count + b] -= z0;
            }
        }

        foreach (Action<Matrix<Complex>> law in laws)
        {
            law(matrix);
        }

        foreach (int s in new[] { sourceIn, sourceOut })
        {
            // EMF behind z0: EMF = V + z0 I, I towards the port.
            matrix[nodes.Count + s, N(s == sourceIn ? ports[0] : ports[1])] += 1;
            matrix[nodes.Count + s, nodes.Count + s] += z0;
        }

        var factors = matrix.LU();
        for (int driven = 0; driven < 2; driven++)
        {
            var right = MathNet.Numerics.LinearAlgebra.Vector<Complex>.Build.Dense(size);
            right[nodes.Count + (driven == 0 ? sourceIn : sourceOut)] = 2;
            var x = factors.Solve(right);
            for (int port = 0; port < 2; port++)
            {
                result[port, driven] = x[N(ports[port])] - (port == driven ? 1 : 0);
            }
        }

        return new(result[0, 0], result[0, 1], result[1, 0], result[1, 1]);
    }
}
