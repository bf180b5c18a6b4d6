namespace Spurless.Mixing.Evidence;

/// <summary>Something that was observed on a receiver's channel, or could be: then its reading is not a number.</summary>
public abstract record Observation;

/// <summary>Something was changed, and the reading over noise fell.</summary>
public abstract record FallObservation : Observation
{
    /// <summary>One sigma of a fall where nothing is stated, in dB.</summary>
    public const double UsualSigmaDb = 1;

    /// <summary>What was read before, over noise, in dB.</summary>
    public required double OverNoiseDb { get; init; }

    /// <summary>By how much the reading fell, in dB.</summary>
    public double FallDb { get; init; } = double.NaN;

    /// <summary>One sigma of the fall as read, in dB, above 0.</summary>
    public double SigmaDb { get; init; } = UsualSigmaDb;

    /// <summary>
    /// What a hypothesis says of the attenuation of what is heard, in dB; not a number where it cannot be known, infinite where it is taken
    /// away.
    /// </summary>
    /// <param name="product">The product; null for something else.</param>
    /// <param name="productIndex">Its index; -1 for something else.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public abstract double AttenuationDb(EvidenceProduct? product, int productIndex, in Hypothesis hypothesis);
}

/// <summary>A pad was put in line.</summary>
public sealed record PadInLine : FallObservation
{
    /// <summary>Its attenuation in dB.</summary>
    public required double PadDb { get; init; }

    /// <summary>Index of the first active stage behind it; what a stage ahead of it makes arrives at it on channel.</summary>
    public int FirstStageBehind { get; init; }

    /// <inheritdoc/>
    public override double AttenuationDb(EvidenceProduct? product, int productIndex, in Hypothesis hypothesis) =>
        product is not null && hypothesis.Place == MakingPlace.Receiver && hypothesis.Index >= FirstStageBehind
            ? product.Order * PadDb
            : PadDb;
}

/// <summary>A filter was put in line at the antenna.</summary>
public sealed record FilterInLine : FallObservation
{
    /// <summary>Which filter of those at hand; -1 for one that was observed.</summary>
    public int Filter { get; init; } = -1;

    /// <summary>Its insertion loss at each emitter's frequency, in dB; not a number where it is not known.</summary>
    public required IReadOnlyList<double> LossOfEmitterDb { get; init; }

    /// <summary>Its insertion loss at each product's frequency, in dB.</summary>
    public required IReadOnlyList<double> LossOfProductDb { get; init; }

    /// <summary>Its insertion loss at the channel's centre, in dB.</summary>
    public required double LossOnChannelDb { get; init; }

    /// <inheritdoc/>
    public override double AttenuationDb(EvidenceProduct? product, int productIndex, in Hypothesis hypothesis)
    {
        if (product is null)
        {
            return LossOnChannelDb;
        }

        if (hypothesis.Place != MakingPlace.Receiver)
        {
            return LossOfProductDb[productIndex];
        }

        double sum = 0;
        foreach (EvidenceTerm term in product.Terms)
        {
            sum += Math.Abs(term.Coefficient) * LossOfEmitterDb[term.Emitter];
        }

        return sum;
    }
}

/// <summary>An emitter was reduced or switched off.</summary>
public sealed record EmitterDown : FallObservation
{
    /// <summary>Index of the emitter.</summary>
    public required int Emitter { get; init; }

    /// <summary>By how much its power was reduced, in dB; infinite for off.</summary>
    public required double ByDb { get; init; }

    /// <inheritdoc/>
    /// <remarks>
    /// In its own transmitter the product leaves with <c>P_A - sum |k_i| (P_A - P_i,A) - T</c>, the sum over the others: it falls by
    /// <c>b (1 - sum |k_i|)</c> and so rises where the others take part more than once.
    /// </remarks>
    public override double AttenuationDb(EvidenceProduct? product, int productIndex, in Hypothesis hypothesis)
    {
        int times = product?.TimesOf(Emitter) ?? 0;
        if (times == 0)
        {
            return 0;
        }

        bool own = hypothesis.Place == MakingPlace.Transmitter && hypothesis.Index == Emitter;
        return double.IsPositiveInfinity(ByDb) ? ByDb : own ? ByDb * (1 - (product!.Order - times)) : times * ByDb;
    }
}

/// <summary>The offset of what is heard from the channel's centre was measured.</summary>
public sealed record OffsetReading : Observation
{
    /// <summary>One sigma where nothing is stated, in hertz.</summary>
    public const double UsualSigmaHz = 50;

    /// <summary>The offset in hertz, up positive.</summary>
    public double OffsetHz { get; init; } = double.NaN;

    /// <summary>One sigma of the reading, in hertz, above 0.</summary>
    public double SigmaHz { get; init; } = UsualSigmaHz;
}

/// <summary>Who was on the air when it was heard and when it was not.</summary>
/// <param name="Moments">What was observed, moment by moment, all logs together: they have the same rates.</param>
public sealed record LogReading(LogMoments Moments) : Observation;

/// <summary>
/// How likely each hypothesis makes something else that was observed: the seam for what a recording holds. The place says nothing.
/// </summary>
/// <param name="LogLikelihoodOfProduct">Natural logarithm of the likelihood, by product.</param>
/// <param name="LogLikelihoodOfOther">The same for something else.</param>
public sealed record GivenLikelihoods(IReadOnlyList<double> LogLikelihoodOfProduct, double LogLikelihoodOfOther) : Observation;

/// <summary>A moment to wait for: these emitters on, that one off.</summary>
/// <param name="On">Indices of the emitters that are on.</param>
/// <param name="Off">Index of the emitter that is off.</param>
public sealed record MomentToWaitFor(IReadOnlyList<int> On, int Off) : Observation;
