namespace Spurless.Circuits.Fit;

/// <summary>
/// Intervals by profile: a value is held further and further from the minimum while all others are fitted anew, until the sum of squares has
/// risen by 3.84 (95 % of chi-squared with one degree of freedom; a textbook figure, from memory).
/// </summary>
internal static class FitProfile
{
    private const double Rise = 3.841459;

    /// <summary>Adds the profiles.</summary>
    public static FittedValue[] Add(FitModel model, double[] x, double[] sigmas, double widened, FittedValue[] values, int threads, CancellationToken cancellation)
    {
        FittedValue[] with = [.. values];
        double least;
        {
            FitWorkspace w = model.CreateWorkspace();
            least = model.Cost(x, w);
        }

        ParallelOptions parallel = new() { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        Parallel.For(0, values.Length, parallel, i =>
        {
            if (!cancellation.IsCancellationRequested)
            {
                FitUnknown u = model.Unknowns[i];
                double low = u.From(End(model, x, i, -1, sigmas[i], least, widened)), high = u.From(End(model, x, i, 1, sigmas[i], least, widened));
                with[i] = values[i] with { Profile = (Math.Min(low, high), Math.Max(low, high)) };
            }
        });
        return with;
    }

    private static double End(FitModel model, double[] x, int i, int side, double sigma, double least, double widened)
    {
        FitModel held = model.Copy();
        FitWorkspace w = held.CreateWorkspace();
        double wanted = Rise * widened * widened;
        double inside = 0, step = 1.96 * Math.Min(sigma, 1), outside = double.NaN;
        double[] at = [.. x];
        for (int turn = 0; turn < 24; turn++)
        {
            double reach = double.IsNaN(outside) ? inside + step : (inside + outside) / 2;
            double place = x[i] + (side * reach);
            if (place <= model.Low[i] || place >= model.High[i])
            {
                place = side < 0 ? model.Low[i] : model.High[i];
                if (Held(held, w, at, i, place) - least < wanted)
                {
                    return place;
                }

                outside = Math.Abs(place - x[i]);
                at = [.. x];
                continue;
            }

            if (Held(held, w, at, i, place) - least < wanted)
            {
                inside = reach;
                step *= 1.5;
            }
            else
            {
                outside = reach;
                at = [.. x];
            }

            if (!double.IsNaN(outside) && outside - inside < 0.01 * outside)
            {
                break;
            }
        }

        return x[i] + (side * inside);
    }

    private static double Held(FitModel held, FitWorkspace w, double[] at, int i, double place)
    {
        held.Low[i] = held.High[i] = place;
        at[i] = place;
        return LevenbergMarquardt.Run(held, at, w, 40, 1e-8).Cost;
    }
}
