using CsCheck;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>Records of products, their order, the best of them, and how many there can be, each against something plain.</summary>
public sealed class KeptProductsTests
{
    private static readonly Gen<(int Receiver, (int Emitter, int Times)[] Terms, long Level)> _drawn = Gen.Select(
        Gen.Int[0, 2],
        Gen.Select(Gen.Int[0, 5], Gen.Int[-3, 3].Where(static t => t != 0)).Array[1, 4].Select(static t =>
            t.DistinctBy(static x => x.Item1).ToArray()),
        Gen.OneOf<long>(Gen.Long[-150_000_000, -140_000_000], Gen.Const(ProductRecord.UnknownLevel), Gen.OneOf(-100L, -50L, 0L)));

    private static ProductRecord Record((int Receiver, (int Emitter, int Times)[] Terms, long Level) d) => new(
        d.Receiver, [.. d.Terms.Select(static t => t.Emitter)], [.. d.Terms.Select(static t => t.Times)], false, d.Level, 0);

    [Fact]
    public void Of_keeps_the_first_in_order_whatever_order_they_come_in() =>
        Gen.Select(_drawn.Array[0, 60], Gen.Int[1, 20], Gen.Int[0, 1_000_000])
        .Sample(static (drawn, keep, seed) =>
        {
            ProductRecord[] records = [.. drawn.Select(Record)];
            TopProducts top = new(3, keep);
            ProductRecord[] shuffled = [.. records];
            new Random(seed).Shuffle(shuffled);
            foreach (ProductRecord record in shuffled)
            {
                Assert.True(top.Add(record));
            }

            for (int r = 0; r < 3; r++)
            {
                List<ProductRecord> expected = [.. records.Where(p => p.Receiver == r).OrderBy(static p => p).Take(keep)];
                Assert.Equal(expected, top.Of(r));

                // What is told to the search: from where on a product could still matter.
                bool full = expected.Count == keep && expected[^1].HasLevel;
                Assert.Equal(full ? expected[^1].LevelMicroDbm : long.MinValue, top.WantedFromMicroDbm(r));
            }
        });

    /// <summary>Known before unknown, strong before weak, low orders before high ones; an order in the mathematical sense.</summary>
    [Fact]
    public void CompareTo_is_an_order() => Gen.Select(_drawn, _drawn, _drawn).Sample(static (x, y, z) =>
    {
        (ProductRecord a, ProductRecord b, ProductRecord c) = (Record(x), Record(y), Record(z));
        Assert.Equal(Math.Sign(a.CompareTo(b)), -Math.Sign(b.CompareTo(a)));
        Assert.True(a.CompareTo(b) > 0 || b.CompareTo(c) > 0 || a.CompareTo(c) <= 0);
        Assert.Equal(0, a.CompareTo(Record(x)));
        Assert.Equal(a.CompareTo(b) == 0, a == b);
        Assert.True(a != b || a.GetHashCode() == b.GetHashCode());
        Assert.Equal((a < b, a <= b, a > b, a >= b), (a.CompareTo(b) < 0, a.CompareTo(b) <= 0, a.CompareTo(b) > 0, a.CompareTo(b) >= 0));
        if (a.Receiver == b.Receiver && a.HasLevel && b.HasLevel && a.LevelMicroDbm > b.LevelMicroDbm)
        {
            Assert.True(a < b);
        }
    }, iter: 500);

    /// <summary>A mixture is a set: its terms in any order are one record, and turned round every coefficient has the other sign.</summary>
    [Fact]
    public void A_record_does_not_know_the_order_of_its_terms() => Gen.Select(_drawn, Gen.Int[0, 1_000_000]).Sample(static (drawn, seed) =>
    {
        (int, int)[] mixed = [.. drawn.Terms];
        new Random(seed).Shuffle(mixed);
        ProductRecord one = Record(drawn), other = Record((drawn.Receiver, mixed, drawn.Level));
        Assert.Equal(one, other);
        Assert.Equal(drawn.Terms.Sum(static t => Math.Abs(t.Times)), one.Order);
        Assert.Equal(drawn.Terms.Length, one.Signals);
        ProductRecord turned = new(
            drawn.Receiver, [.. drawn.Terms.Select(static t => t.Emitter)], [.. drawn.Terms.Select(static t => t.Times)], true,
                drawn.Level, 0);
        foreach ((int emitter, int times) in drawn.Terms)
        {
            int at = Enumerable.Range(0, one.Signals).Single(i => one.Emitter(i) == emitter);
            Assert.Equal(times, one.Coefficient(at));
            Assert.Equal(-times, turned.Coefficient(at));
        }
    });

    /// <summary>Counted one by one: all vectors of whole numbers in the bounds, of two that differ by their sign one.</summary>
    [Theory]
    [InlineData(1, 1, 5, 3)]
    [InlineData(3, 2, 4, 3)]
    [InlineData(4, 1, 5, 2)]
    [InlineData(5, 3, 5, 5)]
    [InlineData(6, 2, 3, 1)]
    public void Canonical_is_how_many_vectors_there_are(int emitters, int minOrder, int maxOrder, int maxSignals)
    {
        int[] k = new int[emitters];
        long count = 0;
        Walk(0);
        Assert.Equal(count / 2, VectorCount.Canonical(emitters, minOrder, maxOrder, maxSignals));

        void Walk(int at)
        {
            if (at == emitters)
            {
                int order = k.Sum(Math.Abs), signals = k.Count(static c => c != 0);
                count += order >= minOrder && order <= maxOrder && signals >= 1 && signals <= maxSignals ? 1 : 0;
                return;
            }

            for (k[at] = -maxOrder; k[at] <= maxOrder; k[at]++)
            {
                Walk(at + 1);
            }
        }
    }

    /// <summary>Pascal's triangle, row by row.</summary>
    [Fact]
    public void Binomial_is_Pascals_triangle()
    {
        double[] row = [1];
        for (int n = 0; n <= 40; n++)
        {
            Assert.All(Enumerable.Range(0, row.Length), k => Assert.Equal(row[k], VectorCount.Binomial(n, k), 1e-6 * row[k]));
            Assert.Equal(0, VectorCount.Binomial(n, n + 1));
            double[] last = row;
            row = [1, .. Enumerable.Range(1, n).Select(k => last[k - 1] + last[k]), 1];
        }
    }
}
