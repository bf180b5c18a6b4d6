using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Solving;

/// <summary>Derivatives by the values of simple elements, 8 frequencies at a time: <c>dS = -1/2 Z0 (va - vb)(ua - ub) dY</c>, u the solution of the adjoint drive.</summary>
internal static unsafe class GradientKernel
{
    private const int Size = SparseStructure.EntrySize;

    /// <summary>Computes the derivatives of all simple elements for the batch whose voltages the workspace holds.</summary>
    [SkipLocalsInit]
    public static void Simple(Netlist netlist, AssemblyPlan plan, ReadOnlySpan<double> values, SolverWorkspace w, GradientBuffer gradient, int start)
    {
        double half = -0.5 * netlist.Circuit.ImpedanceOhm;
        int ground = netlist.NodeNames.Length;
        double* s11 = gradient.Plane(0), s11i = gradient.Plane(1), s21 = gradient.Plane(2), s21i = gradient.Plane(3), s22 = gradient.Plane(4), s22i = gradient.Plane(5);
        bool byQ = (gradient.Parts & GradientParts.QualityFactors) != 0;
        V omega = Vector512.LoadAligned(w.Frequencies) * (2 * Math.PI), inverse = V.One / omega;
        Element[] elements = netlist.Elements;
        for (int i = 0; i < elements.Length; i++)
        {
            Element e = elements[i];
            if (e.Value < 0 || !e.IsSimple)
            {
                continue;
            }

            int a = (e.A < 0 ? ground : e.A) * Size, b = (e.B < 0 ? ground : e.B) * Size;
            V vr = Vector512.LoadAligned(w.Voltages1 + a) - Vector512.LoadAligned(w.Voltages1 + b);
            V vi = Vector512.LoadAligned(w.Voltages1 + a + 8) - Vector512.LoadAligned(w.Voltages1 + b + 8);
            V ur = Vector512.LoadAligned(w.Voltages2 + a) - Vector512.LoadAligned(w.Voltages2 + b);
            V ui = Vector512.LoadAligned(w.Voltages2 + a + 8) - Vector512.LoadAligned(w.Voltages2 + b + 8);

            // dY = number times the function; 1/R and 1/L fall with the value.
            double x = values[e.Value];
            double number = e.Kind == ElementKind.Capacitance ? half : -half / (x * x);
            V fr, fi;
            int c = plan.ClassOf[i];
            if (c >= 0)
            {
                fr = Vector512.LoadAligned(w.Functions + (c * Size));
                fi = Vector512.LoadAligned(w.Functions + (c * Size) + 8);
            }
            else
            {
                fr = e.Kind == ElementKind.Resistance ? V.One : V.Zero;
                fi = e.Kind switch { ElementKind.Resistance => V.Zero, ElementKind.Capacitance => omega, _ => -inverse };
            }

            V yr = fr * number, yi = fi * number;

            // With w = dY v: dS11 = w v, dS21 = w u.
            V wr = (yr * vr) - (yi * vi), wi = (yr * vi) + (yi * vr);
            nint at = (e.Value * gradient.Stride) + start;
            if (s21 != null)
            {
                ((wr * ur) - (wi * ui)).Store(s21 + at);
                ((wr * ui) + (wi * ur)).Store(s21i + at);
            }

            if (s11 != null)
            {
                ((wr * vr) - (wi * vi)).Store(s11 + at);
                ((wr * vi) + (wi * vr)).Store(s11i + at);
            }

            if (s22 != null)
            {
                V zr = (yr * ur) - (yi * ui), zi = (yr * ui) + (yi * ur);
                ((zr * ur) - (zi * ui)).Store(s22 + at);
                ((zr * ui) + (zi * ur)).Store(s22i + at);
            }

            if (e.Q < 0 || !byQ)
            {
                continue;
            }

            at = (e.Q * gradient.Stride) + start;

            // The function is 1 / (loss + j ...), loss over Q: its derivative is function^2 loss / Q.
            double q = values[e.Q];
            V loss = e.Kind == ElementKind.Inductance
                ? Vector512.Create(Math.Sqrt(e.QOmega) / (q * q)) * Vector512.Sqrt(omega)
                : Vector512.Create(1 / (e.QOmega * q * q));
            loss *= half * AssemblyPlan.Factor(e, values);
            (yr, yi) = (((fr * fr) - (fi * fi)) * loss, 2 * fr * fi * loss);
            (wr, wi) = ((yr * vr) - (yi * vi), (yr * vi) + (yi * vr));
            if (s21 != null)
            {
                ((wr * ur) - (wi * ui)).Store(s21 + at);
                ((wr * ui) + (wi * ur)).Store(s21i + at);
            }

            if (s11 != null)
            {
                ((wr * vr) - (wi * vi)).Store(s11 + at);
                ((wr * vi) + (wi * vr)).Store(s11i + at);
            }

            if (s22 != null)
            {
                V zr = (yr * ur) - (yi * ui), zi = (yr * ui) + (yi * ur);
                ((zr * ur) - (zi * ui)).Store(s22 + at);
                ((zr * ui) + (zi * ur)).Store(s22i + at);
            }
        }
    }
}
