using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>
/// Hands on what the search of one transmitter found; a product without a level is said once for the transmitter, not here.
/// </summary>
/// <param name="sink">Keeps the products of all receivers.</param>
/// <param name="transmitter">Index of the transmitter among those computed.</param>
/// <param name="receivers">Which receiver of the sink each receiver of this search is.</param>
internal sealed class TransmitterSink(ScoringSink sink, int transmitter, IReadOnlyList<int> receivers) : IProductSink
{
    public bool Add(in ProductRecord product) => !product.HasLevel || sink.AddMade(receivers[product.Receiver], product, transmitter);
}
