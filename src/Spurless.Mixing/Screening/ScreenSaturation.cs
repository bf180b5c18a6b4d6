using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Caps what the stages of one receiver cannot deliver, as a study does: a level over <see cref="Saturation.MostDbm"/> that the next degree
/// does not vouch for. Carriers too weak to take part in a product twice are left out of the power at a stage.
/// </summary>
internal sealed class ScreenSaturation
{
    private readonly SearchProblem _problem;
    private readonly IReadOnlyList<int> _emitters;
    private readonly ScreenReceiver _receiver;
    private readonly long[] _most;
    private readonly double[] _totalMw;
    private Dictionary<int, int>? _places;

    public ScreenSaturation(SearchProblem problem, IReadOnlyList<int> emitters, ScreenReceiver receiver)
    {
        (_problem, _emitters, _receiver) = (problem, emitters, receiver);
        int stages = problem.Receivers[0].Stages.Length;
        _most = new long[stages];
        _totalMw = new double[stages];
        for (int s = 0; s < stages; s++)
        {
            SearchStage stage = problem.Receivers[0].Stages[s];
            foreach (int level in stage.LevelMicroDbm)
            {
                _totalMw[s] += Math.Pow(10, MicroDb.ToDecibels(level) / 10);
            }

            _most[s] = stage.ReferralMicroDb
                + MicroDb.Clamped(Saturation.MostDbm(_totalMw[s], receiver.Profile.Stages[s].Intercepts.Dbm(3)));
        }
    }

    /// <summary>Caps.</summary>
    /// <param name="stages">The product's level in each stage, referred to the receiver's input, in micro-dBm.</param>
    /// <param name="indices">Its emitters as indices of the field.</param>
    /// <param name="coefficients">Their coefficients.</param>
    /// <param name="order">Its order.</param>
    /// <returns>Whether the stage that makes most of it was capped.</returns>
    public bool Cap(Span<long> stages, ReadOnlySpan<int> indices, ReadOnlySpan<int> coefficients, int order)
    {
        long most = long.MinValue;
        bool capped = false;
        for (int s = 0; s < stages.Length; s++)
        {
            bool cap = stages[s] > _most[s] && !IsTrusted(s, indices, coefficients, order);
            stages[s] = cap ? _most[s] : stages[s];
            (most, capped) = stages[s] > most ? (stages[s], cap) : (most, capped);
        }

        return capped;
    }

    private bool IsTrusted(int stage, ReadOnlySpan<int> indices, ReadOnlySpan<int> coefficients, int order)
    {
        if (order > NextDegree.MaxOrder)
        {
            return false;
        }

        _places ??= _emitters.Select(static (e, k) => (e, k)).ToDictionary(static p => p.e, static p => p.k);
        double weighted = _totalMw[stage];
        for (int i = 0; i < indices.Length; i++)
        {
            if (_places.TryGetValue(indices[i], out int k))
            {
                double own = Math.Pow(10, MicroDb.ToDecibels(_problem.Receivers[0].Stages[stage].LevelMicroDbm[k]) / 10);
                weighted -= own - (own / (Math.Abs(coefficients[i]) + 1));
            }
        }

        Intercepts intercepts = _receiver.Profile.Stages[stage].Intercepts;
        return NextDegree.ErrorDb(NextDegree.Ratio(
            order, Math.Max(0, weighted), intercepts.Dbm(order), intercepts.Dbm(order + 2))) <= NextDegree.TrustLimitDb;
    }
}
