using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>
/// Tells the search what the lists of the strongest still want, where a whole list would be hopelessly long: what cannot get in is then not
/// even looked for, and so not counted either.
/// </summary>
/// <param name="sink">Keeps the products.</param>
/// <param name="rises">Which receivers' lists would be so long.</param>
internal sealed class RisingScoringSink(ScoringSink sink, IReadOnlyList<bool> rises) : IRisingSink
{
    public bool Add(in ProductRecord product) => sink.Add(product);

    public long WantedFromMicroDbm(int receiver) => rises[receiver] ? sink.WantedFromMicroDbm(receiver) : long.MinValue;
}
