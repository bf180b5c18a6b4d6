namespace Spurless.Mixing.Screening;

/// <summary>One or two strong emitters with their coefficients: what a weak one completes to a product.</summary>
internal sealed class WeakPrefix
{
    /// <summary>Order of the product.</summary>
    public int Order { get; set; }

    /// <summary>The stage whose strongest first order is meant.</summary>
    public int Stage { get; set; }

    /// <summary>Number of emitters.</summary>
    public int Count { get; private set; }

    /// <summary>First among the strong ones.</summary>
    public int First { get; private set; }

    /// <summary>Second among the strong ones.</summary>
    public int Second { get; private set; }

    /// <summary>Coefficient of the first, above 0.</summary>
    public int OfFirst { get; private set; }

    /// <summary>Coefficient of the second.</summary>
    public int OfSecond { get; private set; }

    /// <summary>Whether the parts of the levels were not summed yet.</summary>
    public bool IsNew { get; set; }

    public void Take(int first, int ofFirst) => (Count, First, OfFirst, Second, OfSecond, IsNew) = (1, first, ofFirst, 0, 0, true);

    public void Take(int first, int ofFirst, int second, int ofSecond) =>
        (Count, First, OfFirst, Second, OfSecond, IsNew) = (2, first, ofFirst, second, ofSecond, true);

    /// <summary>Variance of its momentary frequency in hertz squared.</summary>
    public double Variance(StrongEmitters strong) =>
        ((double)OfFirst * OfFirst * strong.Variance[First]) + ((double)OfSecond * OfSecond * strong.Variance[Second]);

    /// <summary>Greatest sum of shifts in hertz.</summary>
    public double Shift(StrongEmitters strong) =>
        (OfFirst * strong.Shift[First]) + (Math.Abs(OfSecond) * strong.Shift[Second]);
}
