using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Screening;

/// <summary>Sums up the levels of products of a prefix and a weak emitter and hands them to the sink. One instance a thread.</summary>
internal sealed class WeakJudge(ScreenField field, ScreenSink sink, StrongEmitters strong)
{
    private const int Orders = Multinomial.MaxOrder + 1;

    private ProfileGains _gains = null!;
    private ReceiverLaw[] _laws = [];

    // Per stage and order: the constant part of a level. Per stage: what the prefix's emitters make of it.
    private long[] _constant = [];
    private long[] _prefixLevel = [];
    private double[] _prefixParts = [];

    /// <summary>Turns to a receiver.</summary>
    public void Begin(ScreenReceiver receiver, ProfileGains gains, ReceiverLaw[] laws, int[] referral, ScreenOptions options)
    {
        (_gains, _laws) = (gains, laws);
        if (_prefixLevel.Length != laws.Length)
        {
            (_constant, _prefixLevel, _prefixParts) = (new long[laws.Length * Orders], new long[laws.Length], new double[laws.Length]);
        }

        for (int s = 0; s < laws.Length; s++)
        {
            foreach (int n in options.Orders)
            {
                _constant[(s * Orders) + n] =
                    ProductLevel.OrderMicroDb(n, receiver.Profile.Stages[s].Intercepts.MicroDbm(n), referral[s]);
            }
        }
    }

    /// <summary>Judges a product.</summary>
    /// <param name="prefix">The strong ones.</param>
    /// <param name="total">Its frequency in hertz, above 0.</param>
    /// <param name="image">-1 where all coefficients are to be turned round.</param>
    /// <param name="sign">The weak one's coefficient before that.</param>
    /// <param name="emitter">The weak one as index of the field.</param>
    /// <param name="level">Its level at the antenna connector.</param>
    /// <param name="drop">By how much more than the threshold it was looked for.</param>
    public void Judge(WeakPrefix prefix, long total, int image, int sign, int emitter, double level, double drop)
    {
        if (prefix.IsNew)
        {
            Sum(prefix);
        }

        int count = prefix.Count + 1;
        Span<int> indices = stackalloc int[3];
        Span<int> coefficients = stackalloc int[3];
        (indices[0], coefficients[0]) = (strong.Emitter[prefix.First], image * prefix.OfFirst);
        (indices[1], coefficients[1]) = (strong.Emitter[prefix.Second], image * prefix.OfSecond);
        (indices[count - 1], coefficients[count - 1]) = (emitter, image * sign);
        Span<long> stages = stackalloc long[_laws.Length];
        for (int s = 0; s < stages.Length; s++)
        {
            double here = level + _gains.At(s, field.FrequencyIndex[emitter]);
            stages[s] = _prefixLevel[s] + ProductLevel.EmitterMicroDb(1, MicroDb.Clamped(here), field.NoiseLike[emitter]);

            // An earlier stage that can make it has found it already. Where the worst alone is sought it may have been left out there:
            // to judge one twice does no harm then.
            if (s < prefix.Stage && sink.IsCounting
                && _prefixParts[s] + (here - _laws[s].Penalty(1)) >= _laws[s].Need(prefix.Order) + drop)
            {
                return;
            }
        }

        sink.Judge(indices[..count], coefficients[..count], prefix.Order, total, stages);
    }

    private void Sum(WeakPrefix prefix)
    {
        prefix.IsNew = false;
        for (int s = 0; s < _laws.Length; s++)
        {
            (_prefixLevel[s], _prefixParts[s]) = (_constant[(s * Orders) + prefix.Order], 0);
            Add(s, prefix.First, prefix.OfFirst);
            if (prefix.Count > 1)
            {
                Add(s, prefix.Second, Math.Abs(prefix.OfSecond));
            }
        }
    }

    private void Add(int stage, int k, int times)
    {
        int emitter = strong.Emitter[k];
        double here = strong.Antenna[k] + _gains.At(stage, field.FrequencyIndex[emitter]);
        _prefixLevel[stage] += ProductLevel.EmitterMicroDb(times, MicroDb.Clamped(here), field.NoiseLike[emitter]);
        _prefixParts[stage] += (times * here) - _laws[stage].Penalty(times);
    }
}
