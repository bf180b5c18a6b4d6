using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>Counts products and groups them, and keeps none.</summary>
/// <param name="receivers">Number of receivers in the problem.</param>
/// <param name="emitters">Number of emitters in the problem.</param>
internal sealed class ProductTally(int receivers, int emitters) : IProductSink
{
    private readonly Group[] _byOrder = new Group[receivers * (Multinomial.MaxOrder + 1)];
    private readonly Group[] _byEmitter = new Group[receivers * emitters];

    /// <summary>Number of all products.</summary>
    public long Total { get; private set; }

    /// <summary>The products of one order on one receiver.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="order">2 to 9.</param>
    public Group OfOrder(int receiver, int order) => _byOrder[(receiver * (Multinomial.MaxOrder + 1)) + order];

    /// <summary>The products on one receiver in which an emitter takes part; a product stands with each of its emitters.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="emitter">Index of the emitter.</param>
    public Group OfEmitter(int receiver, int emitter) => _byEmitter[(receiver * emitters) + emitter];

    /// <summary>All products on one receiver.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    public Group OfReceiver(int receiver)
    {
        Group all = default;
        for (int n = 2; n <= Multinomial.MaxOrder; n++)
        {
            all = all.With(OfOrder(receiver, n));
        }

        return all;
    }

    /// <inheritdoc/>
    public bool Add(in ProductRecord product)
    {
        Total++;
        Group one = new(1, product.HasLevel ? 0 : 1, product.HasLevel ? product.LevelMicroDbm : null);
        ref Group order = ref _byOrder[(product.Receiver * (Multinomial.MaxOrder + 1)) + product.Order];
        order = order.With(one);
        for (int i = 0; i < product.Signals; i++)
        {
            ref Group emitter = ref _byEmitter[(product.Receiver * emitters) + product.Emitter(i)];
            emitter = emitter.With(one);
        }

        return true;
    }

    /// <summary>A group of products.</summary>
    /// <param name="Count">How many there are.</param>
    /// <param name="Unknown">How many of them have no known level.</param>
    /// <param name="StrongestMicroDbm">Level of the strongest, or null where none has a level.</param>
    public readonly record struct Group(long Count, long Unknown, long? StrongestMicroDbm)
    {
        /// <summary>Both groups together.</summary>
        public Group With(Group other) => new(
            Count + other.Count,
            Unknown + other.Unknown,
            StrongestMicroDbm is { } a && other.StrongestMicroDbm is { } b ? Math.Max(a, b) : StrongestMicroDbm ?? other.StrongestMicroDbm);
    }
}
