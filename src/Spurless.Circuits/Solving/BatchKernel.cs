using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Solving;

/// <summary>S-parameters of 8 frequencies of a reciprocal network.</summary>
internal struct Lanes
{
    public V S11Re, S11Im, S21Re, S21Im, S22Re, S22Im;

    /// <summary>Bits of the lanes in which elimination without pivoting lost digits, so that the pivoted solver must do them.</summary>
    public int Bad;
}

/// <summary>
/// Eight frequencies at once: assembles the nodal matrix with both ports terminated, eliminates all nodes but the ports by LDL^T in the
/// fixed order, and reads the S-parameters from what is left. Nothing pivots; instead two quantities that bound the error are watched: an
/// entry over its pivot (growth), and the largest admittance between two nodes over that of the port (digits lost in a diagonal). With both
/// below 1e4 the result is that of a network whose admittances are changed by some 1e-12 of themselves. Products are added fused on every
/// processor, so that a result has the same bits on all of them.
/// </summary>
internal static unsafe class BatchKernel
{
    private const int Size = SparseStructure.EntrySize;

    /// <summary>Square of the greatest ratio of an entry to its pivot.</summary>
    private const double Growth = 1e8;

    /// <summary>Square of the greatest ratio of an admittance between nodes to that of a port.</summary>
    private const double Stiffness = 1e8;

    /// <summary>Computes the functions of frequency of the classes of lossy parts.</summary>
    [SkipLocalsInit]
    public static void Functions(AssemblyPlan plan, ReadOnlySpan<double> values, V omega, V inverse, double* functions)
    {
        foreach (AssemblyPlan.LossClass c in plan.Classes)
        {
            double q = values[c.Parameter];
            if (c.Kind == ElementKind.Inductance)
            {
                // 1 / (r + j w), r = (w0 / Q) sqrt(w / w0).
                V r = Vector512.Create(Math.Sqrt(c.QOmega) / q) * Vector512.Sqrt(omega);
                V d = Vector512<double>.One / ((r * r) + (omega * omega));
                (r * d).StoreAligned(functions);
                (-omega * d).StoreAligned(functions + 8);
            }
            else
            {
                // 1 / (a - j / w), a = 1 / (w0 Q).
                V a = Vector512.Create(1 / (c.QOmega * q));
                V d = Vector512<double>.One / ((a * a) + (inverse * inverse));
                (a * d).StoreAligned(functions);
                (inverse * d).StoreAligned(functions + 8);
            }

            functions += Size;
        }
    }

    /// <summary>Fills the matrix from the numbers of entries and terms; general elements are added by the caller.</summary>
    [SkipLocalsInit]
    public static void Assemble(SparseStructure structure, AssemblyPlan plan, SolverWorkspace w, V omega, V inverse)
    {
        double* y = w.Matrix, numbers = w.Entries;
        for (double* end = y + (structure.EntryCount * Size); y < end; y += Size, numbers += 3)
        {
            Vector512.Create(numbers[0]).StoreAligned(y);
            ((omega * numbers[1]) - (inverse * numbers[2])).StoreAligned(y + 8);
        }

        double* functions = w.Functions, term = w.Terms;
        fixed (int* entries = plan.TermEntries, classes = plan.TermClasses)
        {
            int* e = entries, c = classes;
            for (int i = 0; i < plan.TermEntryCount; i++, e += 2)
            {
                double* at = w.Matrix + e[0];
                V re = Vector512.LoadAligned(at), im = Vector512.LoadAligned(at + 8);
                for (int k = e[1]; k > 0; k--)
                {
                    V number = Vector512.Create(*term++);
                    double* f = functions + *c++;
                    re = Vector512.FusedMultiplyAdd(number, Vector512.LoadAligned(f), re);
                    im = Vector512.FusedMultiplyAdd(number, Vector512.LoadAligned(f + 8), im);
                }

                re.StoreAligned(at);
                im.StoreAligned(at + 8);
            }
        }
    }

    /// <summary>Adds 8 admittances to an entry.</summary>
    public static void Add(double* entry, V re, V im, double sign)
    {
        (Vector512.LoadAligned(entry) + (re * sign)).StoreAligned(entry);
        (Vector512.LoadAligned(entry + 8) + (im * sign)).StoreAligned(entry + 8);
    }

    /// <summary>Terminates, eliminates, reads off.</summary>
    /// <param name="structure">The structure.</param>
    /// <param name="y">The matrix; overwritten by its factors.</param>
    /// <param name="g">Admittance of a port in siemens.</param>
    /// <param name="v1">Where to put the ports' voltages for a unit wave into port 1; null if not wanted. Then <paramref name="v2"/> the
    /// same for port 2.</param>
    /// <param name="v2">See <paramref name="v1"/>.</param>
    /// <param name="portIn">Offset of the voltage of port 1.</param>
    /// <param name="portOut">Offset of the voltage of port 2.</param>
    [SkipLocalsInit]
    public static Lanes Solve(SparseStructure structure, double* y, double g, double* v1, double* v2, int portIn, int portOut)
    {
        V gv = Vector512.Create(g);
        double* inIn = y + structure.InIn, outOut = y + structure.OutOut;
        (Vector512.LoadAligned(inIn) + gv).StoreAligned(inIn);
        (Vector512.LoadAligned(outOut) + gv).StoreAligned(outOut);
        V worst = V.Zero, largest = V.Zero;
        fixed (int* program = structure.Program)
        {
            int* p = program;
            for (int k = structure.Pivots; k > 0; k--)
            {
                double* diagonal = y + p[0];
                int count = p[1];
                int* columns = p + 2;
                int* target = columns + count;
                V dr = Vector512.LoadAligned(diagonal), di = Vector512.LoadAligned(diagonal + 8);
                V inverse = V.One / ((dr * dr) + (di * di));
                V ir = dr * inverse, ii = -di * inverse;
                V big = V.Zero;
                for (int a = 0; a < count; a++)
                {
                    double* column = y + columns[a];
                    V cr = Vector512.LoadAligned(column), ci = Vector512.LoadAligned(column + 8);
                    big = Vector512.Max(big, Vector512.FusedMultiplyAdd(cr, cr, ci * ci));
                    V tr = (cr * ir) - (ci * ii), ti = (cr * ii) + (ci * ir);
                    for (int b = a; b < count; b++)
                    {
                        double* other = y + columns[b];
                        double* at = y + *target++;
                        V or = Vector512.LoadAligned(other), oi = Vector512.LoadAligned(other + 8);
                        V re = Vector512.LoadAligned(at), im = Vector512.LoadAligned(at + 8);
                        re = Vector512.FusedMultiplyAdd(ti, oi, Vector512.FusedMultiplyAdd(-tr, or, re));
                        im = Vector512.FusedMultiplyAdd(-ti, or, Vector512.FusedMultiplyAdd(-tr, oi, im));
                        re.StoreAligned(at);
                        im.StoreAligned(at + 8);
                    }

                    tr.StoreAligned(column);
                    ti.StoreAligned(column + 8);
                }

                worst = Vector512.Max(worst, big * inverse);
                largest = Vector512.Max(largest, big);
                p = target;
            }
        }

        Lanes lanes = default;
        V ar = Vector512.LoadAligned(inIn), ai = Vector512.LoadAligned(inIn + 8), two = gv + gv;
        if (structure.OnePort)
        {
            V inverse = V.One / ((ar * ar) + (ai * ai));
            V re = two * ar * inverse, im = -two * ai * inverse;
            Finish(ref lanes, re - V.One, im, re, im, re - V.One, im, worst, largest, gv);
            if (v1 != null)
            {
                Store(v1 + portIn, re, im);
                Store(v2 + portIn, re, im);
            }

            return lanes;
        }

        V br = Vector512.LoadAligned(outOut), bi = Vector512.LoadAligned(outOut + 8);
        V mr = V.Zero, mi = V.Zero;
        if (structure.InOut >= 0)
        {
            mr = Vector512.LoadAligned(y + structure.InOut);
            mi = Vector512.LoadAligned(y + structure.InOut + 8);
        }

        V abr = (ar * br) - (ai * bi), abi = (ar * bi) + (ai * br);
        V detr = abr - ((mr * mr) - (mi * mi)), deti = abi - (2 * mr * mi);
        V over = V.One / ((detr * detr) + (deti * deti));
        V sr = two * detr * over, si = -two * deti * over;
        V v11r = (br * sr) - (bi * si), v11i = (br * si) + (bi * sr);
        V v22r = (ar * sr) - (ai * si), v22i = (ar * si) + (ai * sr);
        V v21r = (mi * si) - (mr * sr), v21i = -((mr * si) + (mi * sr));
        worst = Vector512.Max(worst, ((abr * abr) + (abi * abi)) * over);
        largest = Vector512.Max(largest, (mr * mr) + (mi * mi));
        Finish(ref lanes, v11r - V.One, v11i, v21r, v21i, v22r - V.One, v22i, worst, largest, gv);
        if (v1 != null)
        {
            Store(v1 + portIn, v11r, v11i);
            Store(v1 + portOut, v21r, v21i);
            Store(v2 + portIn, v21r, v21i);
            Store(v2 + portOut, v22r, v22i);
        }

        return lanes;
    }

    /// <summary>All other nodes' voltages from the ports', for two drives.</summary>
    [SkipLocalsInit]
    public static void Substitute(SparseStructure structure, double* y, double* v1, double* v2)
    {
        fixed (int* program = structure.BackProgram)
        {
            int* p = program;
            for (int k = structure.Pivots; k > 0; k--)
            {
                int at = p[0], count = p[1];
                p += 2;
                V ar = V.Zero, ai = V.Zero, br = V.Zero, bi = V.Zero;
                for (int a = 0; a < count; a++, p += 2)
                {
                    double* entry = y + p[0];
                    V tr = Vector512.LoadAligned(entry), ti = Vector512.LoadAligned(entry + 8);
                    double* x = v1 + p[1];
                    V xr = Vector512.LoadAligned(x), xi = Vector512.LoadAligned(x + 8);
                    ar = Vector512.FusedMultiplyAdd(ti, xi, Vector512.FusedMultiplyAdd(-tr, xr, ar));
                    ai = Vector512.FusedMultiplyAdd(-ti, xr, Vector512.FusedMultiplyAdd(-tr, xi, ai));
                    x = v2 + p[1];
                    xr = Vector512.LoadAligned(x);
                    xi = Vector512.LoadAligned(x + 8);
                    br = Vector512.FusedMultiplyAdd(ti, xi, Vector512.FusedMultiplyAdd(-tr, xr, br));
                    bi = Vector512.FusedMultiplyAdd(-ti, xr, Vector512.FusedMultiplyAdd(-tr, xi, bi));
                }

                Store(v1 + at, ar, ai);
                Store(v2 + at, br, bi);
            }
        }
    }

    private static void Store(double* at, V re, V im)
    {
        re.StoreAligned(at);
        im.StoreAligned(at + 8);
    }

    private static void Finish(ref Lanes lanes, V s11r, V s11i, V s21r, V s21i, V s22r, V s22i, V worst, V largest, V g)
    {
        (lanes.S11Re, lanes.S11Im, lanes.S21Re, lanes.S21Im, lanes.S22Re, lanes.S22Im) = (s11r, s11i, s21r, s21i, s22r, s22i);

        // Written so that a lane that is not a number counts as bad.
        V good = Vector512.LessThan(worst, Vector512.Create(Growth)) & Vector512.LessThan(largest, Vector512.Create(Stiffness) * g * g)
            & Vector512.Equals(s11r + s21r + s22r - (s11r + s21r + s22r), V.Zero);
        lanes.Bad = (int)(~Vector512.ExtractMostSignificantBits(good) & 0xFF);
    }
}
