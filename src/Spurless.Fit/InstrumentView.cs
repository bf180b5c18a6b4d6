using System.Numerics;

namespace Spurless.Fit;

/// <summary>What an instrument with residual errors shows of one S-parameter, with the derivatives of that.</summary>
internal static class InstrumentView
{
    /// <summary>Number of kinds of errors.</summary>
    public const int Kinds = 6;

    /// <summary>
    /// Computes it at all points of a trace: into <see cref="FitWorkspace.Seen"/>, <see cref="FitWorkspace.BySeen"/> and
    /// <see cref="FitWorkspace.ByError"/>.
    /// </summary>
    /// <param name="model">The fit, with an instrument.</param>
    /// <param name="own">The instrument.</param>
    /// <param name="x">Where it stands.</param>
    /// <param name="trace">Which trace.</param>
    /// <param name="w">Memory; holds the S-parameters.</param>
    public static void Compute(FitModel model, FitInstrument own, ReadOnlySpan<double> x, int trace, FitWorkspace w)
    {
        FitData data = model.Data;
        SweepParameter parameter = data.Parameters[trace];
        bool reflection = parameter is SweepParameter.S11 or SweepParameter.S22, first =
            parameter is SweepParameter.S11 or SweepParameter.S21;
        Complex[]? drives = data.Clean[(int)(first ? SweepParameter.S11 : SweepParameter.S22)], listens =
            data.Clean[(int)(first ? SweepParameter.S22 : SweepParameter.S11)];
        Complex[]? s21 = data.Clean[(int)SweepParameter.S21], s12 = data.Clean[(int)SweepParameter.S12];
        ErrorTerm[] terms = own.Terms(trace);
        Span<Complex> e = stackalloc Complex[Kinds], by = stackalloc Complex[Kinds];
        for (int i = 0; i < data.Points; i++)
        {
            e.Clear();
            by.Clear();
            foreach (ErrorTerm term in terms)
            {
                double part = x[term.At] * own.Functions[term.Order][i];
                e[(int)term.Kind] += term.Imaginary ? new Complex(0, part) : new Complex(part, 0);
            }

            Complex s = TraceOf.Pick(w.S[i], parameter), one = 1 + e[(int)ErrorKind.Tracking];
            if (reflection)
            {
                Complex load = e[(int)ErrorKind.LoadInReflection], back = 1 - (load * (listens?[i] ?? 0)), around =
                    (s21?[i] ?? 0) * (s12?[i] ?? 0);
                Complex g = s + (load * around / back), again = 1 / (1 - (e[(int)ErrorKind.SourceInReflection] * g));
                w.Seen[i] = e[(int)ErrorKind.Directivity] + (one * g * again);
                w.BySeen[i] = one * again * again;
                by[(int)ErrorKind.Directivity] = 1;
                by[(int)ErrorKind.Tracking] = g * again;
                by[(int)ErrorKind.SourceInReflection] = one * g * g * again * again;
                by[(int)ErrorKind.LoadInReflection] = w.BySeen[i] * around / (back * back);
            }
            else
            {
                Complex source = e[(int)ErrorKind.SourceInTransmission], load = e[(int)ErrorKind.LoadInTransmission];
                Complex d = drives?[i] ?? 0, l = listens?[i] ?? 0, both = (d * l) - ((s21?[i] ?? 0) * (s12?[i] ?? 0));
                Complex below = 1 - (source * d) - (load * l) + (source * load * both);
                w.BySeen[i] = one / below;
                w.Seen[i] = s * w.BySeen[i];
                by[(int)ErrorKind.Tracking] = s / below;
                by[(int)ErrorKind.SourceInTransmission] = w.Seen[i] * (d - (load * both)) / below;
                by[(int)ErrorKind.LoadInTransmission] = w.Seen[i] * (l - (source * both)) / below;
            }

            for (int k = 0; k < Kinds; k++)
            {
                w.ByError[k][i] = by[k];
            }
        }
    }
}
