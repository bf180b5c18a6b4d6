using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Solving;

/// <summary>
/// Derivatives by the values of simple elements, 8 frequencies at a time: <c>dS = -1/2 Z0 (va - vb)(ua - ub) dY</c>, u the solution of the
/// adjoint drive. The product of voltages is that of all elements between two nodes.
/// </summary>
internal static unsafe class GradientKernel
{
    private const int Size = SparseStructure.EntrySize;

    /// <summary>Computes the derivatives of all simple elements for the batch whose voltages the workspace holds.</summary>
    [SkipLocalsInit]
    public static void Simple(AssemblyPlan plan, SolverWorkspace w, GradientBuffer gradient, int start)
    {
        bool byQ = (gradient.Parts & GradientParts.QualityFactors) != 0;
        V omega = Vector512.LoadAligned(w.Frequencies) * (2 * Math.PI), root = byQ ? Vector512.Sqrt(omega) : V.One;
        double* plain = w.Functions + (plan.Classes.Length * Size);
        Put(plain, V.One, V.Zero);
        Put(plain + Size, V.Zero, omega);
        Put(plain + (2 * Size), V.Zero, -V.One / omega);
        int batch = gradient.Offset(0, start);
        double* s11 = gradient.Plane(0), s21 = gradient.Plane(1), s22 = gradient.Plane(2);
        ReadOnlySpan<AssemblyPlan.Branch> branches = plan.Branches;
        ReadOnlySpan<double> numbers = w.GradientNumbers;
        foreach (ref readonly AssemblyPlan.Group group in plan.Groups.AsSpan())
        {
            double* a = w.Voltages1 + group.A, b = w.Voltages1 + group.B;
            V vr = Vector512.LoadAligned(a) - Vector512.LoadAligned(b), vi = Vector512.LoadAligned(a + 8) - Vector512.LoadAligned(b + 8);
            a = w.Voltages2 + group.A;
            b = w.Voltages2 + group.B;
            V ur = Vector512.LoadAligned(a) - Vector512.LoadAligned(b), ui = Vector512.LoadAligned(a + 8) - Vector512.LoadAligned(b + 8);
            ReadOnlySpan<AssemblyPlan.Branch> own = branches[..group.Count];
            ReadOnlySpan<double> factors = numbers[..(2 * group.Count)];
            branches = branches[group.Count..];
            numbers = numbers[(2 * group.Count)..];
            if (s21 != null)
            {
                Elements(own, factors, w.Functions, s21 + batch, (vr * ur) - (vi * ui), (vr * ui) + (vi * ur), root, byQ);
            }

            if (s11 != null)
            {
                Elements(own, factors, w.Functions, s11 + batch, (vr * vr) - (vi * vi), 2 * vr * vi, root, byQ);
            }

            if (s22 != null)
            {
                Elements(own, factors, w.Functions, s22 + batch, (ur * ur) - (ui * ui), 2 * ur * ui, root, byQ);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Elements(
        ReadOnlySpan<AssemblyPlan.Branch> branches,
        ReadOnlySpan<double> numbers,
        double* functions,
        double* into,
        V pr,
        V pi,
        V root,
        bool byQ)
    {
        for (int i = 0; i < branches.Length; i++)
        {
            ref readonly AssemblyPlan.Branch e = ref branches[i];
            V fr = Vector512.LoadAligned(functions + e.Function), fi = Vector512.LoadAligned(functions + e.Function + 8);
            V number = Vector512.Create(numbers[2 * i]);
            V tr = (fr * pr) - (fi * pi), ti = (fr * pi) + (fi * pr);
            Put(into + (e.Value * Size), tr * number, ti * number);
            if (byQ && e.Q >= 0)
            {
                number = Vector512.Create(numbers[(2 * i) + 1]);
                number = e.Coil ? number * root : number;
                Put(into + (e.Q * Size), ((fr * tr) - (fi * ti)) * number, ((fr * ti) + (fi * tr)) * number);
            }
        }
    }

    private static void Put(double* at, V re, V im)
    {
        re.StoreAligned(at);
        im.StoreAligned(at + 8);
    }
}
