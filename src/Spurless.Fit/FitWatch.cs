using Spurless.Circuits.Parts;

namespace Spurless.Fit;

/// <summary>
/// Tells how a fit comes along: share done and the nearest to the sweep so far. It only looks on, with a copy of the sweep and memory of
/// its own: the fit is the same with it and without. Safe for use by several threads.
/// </summary>
internal sealed class FitWatch : IProgress<double>
{
    private readonly Lock _lock = new();
    private readonly IProgress<FitProgress> _to;
    private readonly Circuit _circuit;
    private readonly FitProblem _problem;
    private readonly FitModel _model;
    private readonly FitWorkspace _memory;
    private double _share;
    private double _least = double.PositiveInfinity;
    private FitSoFar? _best;

    /// <param name="to">Who is told.</param>
    /// <param name="problem">The circuit whose numbers are looked for.</param>
    /// <param name="data">The sweep as weighted at the beginning; its noise floor is taken over, its weights are not.</param>
    public FitWatch(IProgress<FitProgress> to, FitProblem problem, FitData data)
    {
        FitData own = new(data.Sweep);
        data.Bias.CopyTo(own.Bias, 0);
        (_to, _circuit, _problem, _model) = (to, problem.Circuit, problem, problem.Fine(own));
        _memory = _model.CreateWorkspace();
    }

    /// <inheritdoc/>
    public void Report(double value)
    {
        lock (_lock)
        {
            _share = Math.Max(_share, value);
            _to.Report(new FitProgress(_share, _best));
        }
    }

    /// <summary>A place was come to.</summary>
    /// <param name="place">All unknowns; those of the instrument may be missing.</param>
    public void Offer(ReadOnlySpan<double> place)
    {
        lock (_lock)
        {
            double[] x = _problem.Place(place, _model.Count);
            double difference = Difference(x);
            if (!(difference < _least))
            {
                return;
            }

            _least = difference;
            _best = new FitSoFar(
                FittedCircuit.WithLeads(_circuit, _problem.Capacitors.Select((c, k) =>
                    (c, _model.Unknowns[_model.Sought + k].From(x[_model.Sought + k])))),
                _model.Data.Magnitude[0] ? difference : 20 * Math.Log10(Math.Max(difference, 1e-20)),
                _model.Data.Magnitude[0],
                [.. _problem.Sought.Select((u, i) => (u.Part, u.Quantity, u.From(x[i])))]);
            _to.Report(new FitProgress(_share, _best));
        }
    }

    // Rms over all points of all S-parameters, none weighted and none left out.
    private double Difference(double[] x)
    {
        if (!double.IsFinite(_model.Cost(x, _memory)))
        {
            return double.PositiveInfinity;
        }

        double sum = 0;
        for (int t = 0; t < _model.Data.Parameters.Length; t++)
        {
            _model.Residuals(x, t, _memory);
            for (int i = 0; i < _model.Data.Points; i++)
            {
                sum += (_memory.Re[i] * _memory.Re[i]) + (_memory.Im[i] * _memory.Im[i]);
            }
        }

        return Math.Sqrt(sum / (_model.Data.Points * _model.Data.Parameters.Length));
    }
}
