namespace Spurless.Sites.Studies;

/// <summary>
/// Which product on which receiver, wherever it is made: what study, comparison, pages and report mean by 'the same mixture'.
/// </summary>
/// <remarks>Equal by the receiver's name and the emitters' names with their coefficients, so that it holds across studies of files in which
/// an emitter's place in the list or its frequency changed.</remarks>
/// <param name="Receiver">The receiver's name.</param>
/// <param name="Terms">In the order of the results.</param>
public sealed record ProductIdentity(string Receiver, IReadOnlyList<Term> Terms)
{
    /// <summary>Whether both are the same product on receivers of one name.</summary>
    /// <param name="other">Another identity, or null.</param>
    public bool Equals(ProductIdentity? other)
    {
        if (other is null || Receiver != other.Receiver || Terms.Count != other.Terms.Count)
        {
            return false;
        }

        for (int i = 0; i < Terms.Count; i++)
        {
            if (Terms[i].Coefficient != other.Terms[i].Coefficient || Terms[i].Name != other.Terms[i].Name)
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        HashCode hash = default;
        hash.Add(Receiver, StringComparer.Ordinal);
        foreach (Term term in Terms)
        {
            hash.Add(term.Coefficient);
            hash.Add(term.Name, StringComparer.Ordinal);
        }

        return hash.ToHashCode();
    }
}

/// <summary>
/// What makes two rows of a list one: the product, and the transmitter that makes it where one does. The receiver and its amplifiers are
/// one row.
/// </summary>
/// <param name="Product">The product.</param>
/// <param name="Transmitter">The transmitter's name; null for a product of the receiver's own stages.</param>
public sealed record ProductRow(ProductIdentity Product, string? Transmitter);
