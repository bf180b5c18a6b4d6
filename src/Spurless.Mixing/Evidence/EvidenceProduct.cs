namespace Spurless.Mixing.Evidence;

/// <summary>One emitter's share in a product.</summary>
/// <param name="Emitter">Index of the emitter.</param>
/// <param name="Coefficient">How many times it takes part, with sign; never 0.</param>
public readonly record struct EvidenceTerm(int Emitter, int Coefficient);

/// <summary>A product that could be what is heard, with the places that can make it.</summary>
public sealed record EvidenceProduct
{
    /// <summary>Its emitters, each once.</summary>
    public required IReadOnlyList<EvidenceTerm> Terms { get; init; }

    /// <summary>The places that can make it, one or more.</summary>
    public required IReadOnlyList<EvidencePlace> Places { get; init; }

    /// <summary>Where it lies from the centre of the channel, in hertz, up positive; measured offsets of its emitters are in it.</summary>
    public double OffsetHz { get; init; }

    /// <summary>One sigma of that by its emitters' references, in hertz.</summary>
    public double OffsetSigmaHz { get; init; }

    /// <summary>The sum of the coefficients' magnitudes.</summary>
    public int Order => Terms.Sum(static t => Math.Abs(t.Coefficient));

    /// <summary>How many times an emitter takes part, without sign; 0 where it does not.</summary>
    /// <param name="emitter">Index of the emitter.</param>
    public int TimesOf(int emitter)
    {
        foreach (EvidenceTerm term in Terms)
        {
            if (term.Emitter == emitter)
            {
                return Math.Abs(term.Coefficient);
            }
        }

        return 0;
    }
}
