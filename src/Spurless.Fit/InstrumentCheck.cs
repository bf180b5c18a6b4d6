namespace Spurless.Fit;

/// <summary>
/// Whether the instrument, as found, is such as its calibration lets expect. If it is not, the sweep is hardly one of this circuit.
/// </summary>
internal static class InstrumentCheck
{
    /// <summary>
    /// Alarms from this many sigmas on, for a number that is real; for a complex one from where chance is as rare (Rayleigh's law: 3.44).
    /// </summary>
    public const double AlarmFrom = 3;

    private const double AlarmFromComplex = 3.44;

    /// <summary>
    /// By how much instrument and parasitics are off more than their sizes say: rms of what was found over rms of what is to be expected of
    /// it, at least 1.
    /// A tracing that is not quite right shows here before it shows in what is left over.
    /// </summary>
    /// <param name="model">The fit.</param>
    /// <param name="x">Where it stands.</param>
    /// <param name="w">Memory.</param>
    public static double Excess(FitModel model, double[] x, FitWorkspace w)
    {
        (double found, double expected) = Squares(model, x, w);
        return expected < 1 ? 1 : Math.Max(1, Math.Sqrt(found / expected));
    }

    /// <summary>
    /// Where what is left over, though every error of the instrument was free to take it up, has a shape of its own and is as large as such
    /// an error itself: no instrument leaves that. Null elsewhere, and for magnitudes, whose errors in dB have no such size.
    /// </summary>
    /// <param name="data">The sweep.</param>
    /// <param name="leftOver"><see cref="ModelError.LeftOver"/> of the fit.</param>
    /// <param name="errors">How large the instrument's errors are beforehand.</param>
    public static LeftOverAlarm? LeftOver(FitData data, double[] leftOver, InstrumentErrors errors)
    {
        if (errors.Directivity <= 0)
        {
            return null;
        }

        int[] large = [.. Enumerable.Range(0, leftOver.Length).Where(t => !data.Magnitude[t] && leftOver[t] > errors.Directivity)];
        if (large.Length == 0)
        {
            return null;
        }

        int worst = large.MaxBy(t => leftOver[t]);
        return new LeftOverAlarm(data.Parameters[worst], 20 * Math.Log10(leftOver[worst]), 20 * Math.Log10(errors.Directivity));
    }

    /// <summary>All that is too large; none where the instrument is as expected.</summary>
    /// <param name="model">The fit.</param>
    /// <param name="x">Where it stands.</param>
    public static IEnumerable<InstrumentAlarm> Alarms(FitModel model, double[] x)
    {
        if (model.Instrument is not { } own)
        {
            yield break;
        }

        int first = model.Unknowns.Length;
        foreach ((InstrumentError error, int at, bool complex) in own.Named)
        {
            double size = x[at] / own.Sigmas[at - first], other = complex ? x[at + 1] / own.Sigmas[at + 1 - first] : 0;
            double sigmas = double.Hypot(size, other);
            if (sigmas > (complex ? AlarmFromComplex : AlarmFrom))
            {
                yield return new InstrumentAlarm(error, sigmas);
            }
        }
    }

    // Sum of the squares of what was found of instrument and parasitics, in their sigmas, and what is to be expected of it: as many as
    // the sweep makes known.
    private static (double Found, double Expected) Squares(FitModel model, double[] x, FitWorkspace w)
    {
        int n = model.Count, sought = model.Sought, unknowns = model.Unknowns.Length;
        if (model.Instrument is not { } own || own.Functions.Length == 0)
        {
            return (0, 0);
        }

        double[] a = new double[n * n], g = new double[n];
        model.Normal(x, w, a, g);
        double[] covariance = FitInformation.Inverse(a, n);
        double found = 0, expected = 0;
        for (int i = sought; i < n; i++)
        {
            (double mean, double sigma) = i < unknowns ? (model.Unknowns[i].Mean ?? 0, model.Unknowns[i].Sigma)
                : (0, own.Sigmas[i - unknowns]);
            double z = (x[i] - mean) / sigma;
            found += z * z;
            expected += Math.Max(0, 1 - (covariance[(i * n) + i] / (sigma * sigma)));
        }

        return (found, expected);
    }
}
