using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Parts;

namespace Spurless.Bench.Circuits;

/// <summary>
/// The baseline: the same nodal matrix filled in and solved densely at each frequency by the general numerics library, its memory used
/// again.
/// </summary>
internal sealed class LibraryAnalysis
{
    private readonly (int A, int B, bool Coil, double Value, double LossAt)[] _parts;
    private readonly Matrix<Complex> _matrix = Matrix<Complex>.Build.Dense(BenchCircuit.Nodes, BenchCircuit.Nodes);
    private readonly MathNet.Numerics.LinearAlgebra.Vector<Complex> _right = MathNet.Numerics.LinearAlgebra.Vector<Complex>.Build.Dense(
        BenchCircuit.Nodes);

    public LibraryAnalysis(Circuit circuit)
    {
        static int Node(string name) =>
            name == Circuit.Ground ? -1 : int.Parse(name.AsSpan(1), System.Globalization.CultureInfo.InvariantCulture);
        _parts = [.. circuit.Parts.Select(static p => p switch
        {
            Inductor l =>
                (
                    Node(l.From),
                    Node(l.To),
                    true,
                    l.Inductance.Require(),
                    2 * Math.PI * l.Loss!.QFrequencyHz * l.Inductance.Require() / l.Loss.Q!.Value.Require() / Math.Sqrt(
                        l.Loss.QFrequencyHz)),
            Capacitor c =>
                (
                    Node(c.From),
                    Node(c.To),
                    false,
                    c.Capacitance.Require(),
                    1 / (2 * Math.PI * c.Loss!.QFrequencyHz * c.Capacitance.Require() * c.Loss.Q!.Value.Require())),
            _ => throw new NotSupportedException(p.Name),
        })];
        _right[0] = 2;
    }

    /// <summary>S21 at every frequency.</summary>
    public void Run(double[] frequenciesHz, Complex[] s21)
    {
        for (int k = 0; k < frequenciesHz.Length; k++)
        {
            double f = frequenciesHz[k], w = 2 * Math.PI * f;
            _matrix.Clear();
            foreach ((int a, int b, bool coil, double value, double loss) in _parts)
            {
                Complex y = 50 / (coil ? new Complex(loss * Math.Sqrt(f), w * value) : new Complex(loss, -1 / (w * value)));
                _matrix[a, a] += y;
                if (b >= 0)
                {
                    _matrix[b, b] += y;
                    _matrix[a, b] -= y;
                    _matrix[b, a] -= y;
                }
            }

            _matrix[0, 0] += 1;
            _matrix[BenchCircuit.Nodes - 1, BenchCircuit.Nodes - 1] += 1;
            s21[k] = _matrix.LU().Solve(_right)[BenchCircuit.Nodes - 1];
        }
    }
}
