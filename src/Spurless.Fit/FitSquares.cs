using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>A fit's sum of squares with the memory of one thread, as least squares ask for it.</summary>
internal sealed class FitSquares(FitModel model, FitWorkspace workspace) : ILeastSquares
{
    public int Count => model.Count;

    public int Scaled => model.Unknowns.Length;

    public ReadOnlySpan<double> Low => model.Low;

    public ReadOnlySpan<double> High => model.High;

    public double Cost(ReadOnlySpan<double> x) => model.Cost(x, workspace);

    public double Normal(ReadOnlySpan<double> x, double[] normal, double[] gradient) => model.Normal(x, workspace, normal, gradient);
}
