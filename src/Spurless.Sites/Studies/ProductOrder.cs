using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>The order of products in results: descending in-channel level, unknown levels last, then mechanism, then terms.</summary>
internal sealed class ProductOrder(IReadOnlyList<EmitterSetup> emitters) : IComparer<ScoredProduct>
{
    /// <inheritdoc/>
    public int Compare(ScoredProduct x, ScoredProduct y)
    {
        if (x.HasLevel != y.HasLevel)
        {
            return x.HasLevel ? -1 : 1;
        }

        int c = x.HasLevel ? y.InChannel.CompareTo(x.InChannel) : x.Record.Order.CompareTo(y.Record.Order);
        c = c != 0 ? c : (x.Transmitter is null ? 0 : 1).CompareTo(y.Transmitter is null ? 0 : 1);
        c = c != 0 ? c : CompareTerms(Terms(x.Record), Terms(y.Record));
        return c != 0 ? c : (x.Transmitter ?? 0).CompareTo(y.Transmitter ?? 0);
    }

    /// <summary>The terms of a product in the order of the results: descending magnitude of the coefficient, then name.</summary>
    public Term[] Terms(in ProductRecord record)
    {
        Term[] terms = new Term[record.Signals];
        for (int t = 0; t < terms.Length; t++)
        {
            EmitterSetup emitter = emitters[record.Emitter(t)];
            terms[t] = new Term(record.Emitter(t), emitter.Name, emitter.FrequencyHz, record.Coefficient(t));
        }

        Array.Sort(terms, CompareTerm);
        return terms;
    }

    /// <summary>Compares two products by their terms, both in the order of the results.</summary>
    internal static int CompareTerms(IReadOnlyList<Term> x, IReadOnlyList<Term> y)
    {
        for (int i = 0; i < Math.Min(x.Count, y.Count); i++)
        {
            int c = CompareTerm(x[i], y[i]);
            if (c != 0)
            {
                return c;
            }
        }

        return x.Count.CompareTo(y.Count);
    }

    private static int CompareTerm(Term x, Term y)
    {
        int c = Math.Abs(y.Coefficient).CompareTo(Math.Abs(x.Coefficient));
        c = c != 0 ? c : string.CompareOrdinal(x.Name, y.Name);
        return c != 0 ? c : y.Coefficient.CompareTo(x.Coefficient);
    }
}
