namespace Spurless.Fit;

/// <summary>A minimum with the information about it.</summary>
/// <param name="Model">The fit.</param>
/// <param name="X">The minimum.</param>
/// <param name="OfSweep">Information of the sweep alone about the unknowns asked for.</param>
/// <param name="All">The same with what is known beforehand.</param>
/// <param name="Sigmas">One sigma of each unknown.</param>
internal sealed record FitSurroundings(FitModel Model, double[] X, double[] OfSweep, double[] All, double[] Sigmas)
{
    /// <summary>What was asked for.</summary>
    public FitUnknown[] Unknowns { get; } = Model.Unknowns[..Model.Sought];
}
