using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition;

/// <summary>Puts the begin and end of a place where its level steps, to some milliseconds.</summary>
internal static class Edges
{
    private const double StepS = 0.002;
    private const double ReachS = 0.16;
    private const double LeastStepDb = 3;

    /// <summary>The place with its edges at the steps, where there are any within 160 ms; else as it was.</summary>
    public static Span Refine(Stretch stretch, Span span)
    {
        double from = Find(stretch, span.FromS, 1, span) ?? span.FromS;
        double to = Find(stretch, span.ToS, -1, span) ?? span.ToS;
        return to > from ? new Span(from, to) : span;
    }

    private static double? Find(Stretch stretch, double edge, int inwards, Span span)
    {
        double reach = Math.Min(ReachS, span.LengthS / 2);
        double inside = Db(stretch, edge + inwards * reach, edge + inwards * (reach + 0.06));
        double outside = Db(stretch, edge - inwards * (ReachS + 0.06), edge - inwards * ReachS);
        if (double.IsNaN(inside) || double.IsNaN(outside) || Math.Abs(inside - outside) < LeastStepDb)
        {
            return null;
        }

        // From outside on, the first 6 ms over the middle of both levels.
        double middle = (inside + outside) / 2;
        bool rises = inside > outside;
        for (double t = edge - inwards * ReachS; inwards > 0 ? t < edge + reach : t > edge - reach; t += inwards * StepS)
        {
            double db = Db(stretch, t, t + inwards * 3 * StepS);
            if (!double.IsNaN(db) && db > middle == rises)
            {
                return t + inwards * StepS;
            }
        }

        return null;
    }

    private static double Db(Stretch stretch, double a, double b)
    {
        int from = (int)(Math.Min(a, b) * Stretch.WideRate);
        int to = (int)(Math.Max(a, b) * Stretch.WideRate);
        return from < 0 || to > stretch.Wide.Length || to - from < 40 ? double.NaN
            : 10 * Math.Log10(Kernels.Power(stretch.Wide.AsSpan(from, to - from)) + 1e-15);
    }
}
