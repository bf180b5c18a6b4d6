using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Tests.Stress;

/// <summary>
/// A circuit of inductors and capacitors with Q, step by step in time: every part is its trapezoidal companion (a conductance and a source
/// made of its last voltage and current), the nodal matrix is real and constant. Starts from rest.
/// </summary>
internal static class Transient
{
    public readonly record struct Peak(double Voltage, double RmsCurrent, double Heat);

    public static Peak[] Run(Circuit circuit, double frequencyHz, double powerW, int periods, int steps)
    {
        double w = 2 * Math.PI * frequencyHz, h = 1 / (frequencyHz * steps), z0 = circuit.ImpedanceOhm;
        List<string> nodes = [.. circuit.Parts.SelectMany(static p => p.Nodes).Where(static n => n != Circuit.Ground).Distinct()];
        int n = nodes.Count, m = circuit.Parts.Count;
        int Node(string name) => nodes.IndexOf(name);
        (int A, int B, double R, double Companion, bool Coil)[] parts = [.. circuit.Parts.Select(p => p switch
        {
            // R in series with the companion resistance 2L/h, or h/2C.
            Inductor l =>
                (
                    Node(l.From),
                    Node(l.To),
                    w * l.Inductance.Require() / l.Loss!.Q!.Value.Require() * Math.Sqrt(l.Loss.QFrequencyHz / frequencyHz),
                    2 * l.Inductance.Require() / h,
                    true),
            Capacitor c =>
                (
                    Node(c.From),
                    Node(c.To),
                    1 / (2 * Math.PI * c.Loss!.QFrequencyHz * c.Capacitance.Require() * c.Loss.Q!.Value.Require()),
                    h / (2 * c.Capacitance.Require()),
                    false),
            _ => throw new NotSupportedException(p.Name),
        })];
        Matrix<double> y = Matrix<double>.Build.Dense(n, n);
        void Add(int a, int b, double g)
        {
            if (a >= 0)
            {
                y[a, a] += g;
            }

            if (b >= 0)
            {
                y[b, b] += g;
            }

            if (a >= 0 && b >= 0)
            {
                y[a, b] -= g;
                y[b, a] -= g;
            }
        }

        foreach ((int a, int b, double r, double companion, _) in parts)
        {
            Add(a, b, 1 / (r + companion));
        }

        int input = Node(circuit.PortIn), output = Node(circuit.PortOut);
        Add(input, -1, 1 / z0);
        Add(output, -1, 1 / z0);
        double[,] inverse = y.Inverse().ToArray();
        double emf = 2 * Math.Sqrt(2 * powerW * z0);
        double[] current = new double[m],
        state = new double[m],
        right = new double[n],
        v = new double[n],
        peak = new double[m],
        square = new double[m],
        history = new double[m];
        for (int step = 1; step <= periods * steps; step++)
        {
            Array.Clear(right);
            right[input] += emf / z0 * Math.Sin(w * step * h);
            for (int i = 0; i < m; i++)
            {
                // Inductor: v = (2L/h)(i - i0) - vL0; capacitor: v = (h/2C)(i + i0) + vC0. State is the voltage of the pure L or C.
                (int a, int b, double r, double companion, bool coil) = parts[i];
                history[i] = coil ? -(companion * current[i]) - state[i] : (companion * current[i]) + state[i];
                double source = history[i] / (r + companion);
                if (a >= 0)
                {
                    right[a] += source;
                }

                if (b >= 0)
                {
                    right[b] -= source;
                }
            }

            for (int i = 0; i < n; i++)
            {
                double sum = 0;
                for (int j = 0; j < n; j++)
                {
                    sum += inverse[i, j] * right[j];
                }

                v[i] = sum;
            }

            bool last = step > (periods - 1) * steps;
            for (int i = 0; i < m; i++)
            {
                (int a, int b, double r, double companion, _) = parts[i];
                double across = (a >= 0 ? v[a] : 0) - (b >= 0 ? v[b] : 0);
                double now = (across - history[i]) / (r + companion);
                state[i] = (companion * now) + history[i];
                current[i] = now;
                if (last)
                {
                    peak[i] = Math.Max(peak[i], Math.Abs(across));
                    square[i] += now * now / steps;
                }
            }
        }

        return [.. Enumerable.Range(0, m).Select(i => new Peak(peak[i], Math.Sqrt(square[i]), square[i] * parts[i].R))];
    }
}
