using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Solving;

/// <content>Derivatives of what the batch kernel leaves out: general elements, and points that need the pivoted solver.</content>
public sealed unsafe partial class CircuitSolver
{
    private void General(
        ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<double> values, SolverWorkspace w, GradientBuffer gradient, int start, int bad)
    {
        if (!_general!.Any)
        {
            return;
        }

        double reference = Circuit.ImpedanceOhm;
        int n = Netlist.NodeNames.Length;
        bool byQ = (gradient.Parts & GradientParts.QualityFactors) != 0;
        for (int lane = 0; lane < frequenciesHz.Length; lane++)
        {
            if ((bad >> lane & 1) != 0)
            {
                continue;
            }

            double omega = 2 * Math.PI * frequenciesHz[lane];
            _general.States(lane, omega, values, reference, w.General, w.Voltages1, n, w.Pivoted, w.States1);
            _general.States(lane, omega, values, reference, w.General, w.Voltages2, n, w.Pivoted, w.States2);
            for (int kind = 0; kind < 3; kind++)
            {
                double* plane = gradient.Plane(kind);
                if (plane == null)
                {
                    continue;
                }

                Span<Complex> sums = w.Gradient.AsSpan(0, Parameters.Count);
                foreach (int p in _generalParameters)
                {
                    sums[p] = Complex.Zero;
                }

                _general.Gradient(
                    omega, values, reference, w.Pivoted, kind == 2 ? w.States2 : w.States1, kind == 0 ? w.States1 : w.States2, sums);
                foreach (int p in _generalParameters)
                {
                    if (!byQ && !Parameters[p].IsPartValue)
                    {
                        continue;
                    }

                    int at = gradient.Offset(p, start + lane);
                    plane[at] = sums[p].Real;
                    plane[at + 8] = sums[p].Imaginary;
                }
            }
        }
    }

    private CircuitFault? PivotedGradient(
        double frequencyHz, ReadOnlySpan<double> values, SolverWorkspace w, out ScatteringMatrix s, GradientBuffer gradient, int at)
    {
        if (Pivoted(frequencyHz, values, w, out s) is { } fault)
        {
            return fault;
        }

        double omega = 2 * Math.PI * frequencyHz;
        w.Pivoted.States(w.Solution1, w.States1);
        w.Pivoted.States(w.Solution2, w.States2);
        (Complex[] adjoint1, Complex[] adjoint2) = (w.States1, w.States2);
        if (w.Pivoted.HasBlocks)
        {
            int singular = w.Pivoted.Factor(omega, values, transposed: true);
            if (singular >= 0 || !w.Pivoted.Drive(Netlist.PortIn, w.Solution1) || !w.Pivoted.Drive(Netlist.PortOut, w.Solution2))
            {
                return SolverFaults.Singular(Netlist, frequencyHz, singular, w);
            }

            (adjoint1, adjoint2) = (w.Adjoint1, w.Adjoint2);
            w.Pivoted.States(w.Solution1, adjoint1);
            w.Pivoted.States(w.Solution2, adjoint2);
        }

        int n = Parameters.Count;
        bool byQ = (gradient.Parts & GradientParts.QualityFactors) != 0;
        for (int kind = 0; kind < 3; kind++)
        {
            double* plane = gradient.Plane(kind);
            if (plane == null)
            {
                continue;
            }

            Span<Complex> sums = w.Gradient.AsSpan(0, n);
            sums.Clear();
            Complex[] driven = kind == 2 ? w.States2 : w.States1, adjoint = kind == 0 ? adjoint1 : adjoint2;
            for (int i = 0; i < Netlist.Elements.Length; i++)
            {
                int first = w.Pivoted.StateStart(i);
                ElementGradient.Add(
                    Netlist.Elements[i], omega, values, Circuit.ImpedanceOhm, driven.AsSpan(first), adjoint.AsSpan(first), sums);
            }

            for (int p = 0; p < n; p++)
            {
                if (!byQ && !Parameters[p].IsPartValue)
                {
                    continue;
                }

                int place = gradient.Offset(p, at);
                plane[place] = sums[p].Real;
                plane[place + 8] = sums[p].Imaginary;
            }
        }

        return null;
    }
}
