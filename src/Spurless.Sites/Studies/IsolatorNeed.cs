namespace Spurless.Sites.Studies;

/// <summary>What a transmitter has to be given against what comes in there.</summary>
public enum IsolatorKind
{
    /// <summary>One isolator.</summary>
    Single,

    /// <summary>Two in a row.</summary>
    Double,

    /// <summary>Two in a row and a filter at the output.</summary>
    DoubleWithFilter,
}

/// <summary>The isolation that would bring a product made in a transmitter down to the noise.</summary>
/// <param name="Transmitter">The transmitter's name.</param>
/// <param name="NeededDb">Isolation wanted on top of what there is, in dB.</param>
/// <param name="HasDb">What its isolator has now against the carriers of the product, in dB; 0 for none.</param>
/// <param name="Kind">What gives so much in all.</param>
public sealed record IsolatorNeed(string Transmitter, double NeededDb, double HasDb, IsolatorKind Kind)
{
    // What one isolator and two in a row give, tuned to the transmitter's band (common practice).
    private const double SingleDb = 25;
    private const double DoubleDb = 55;

    /// <summary>What to ask the owner of a transmitter for that makes a product.</summary>
    /// <param name="product">A product made in a transmitter, over noise.</param>
    /// <returns>Null for any other product. An isolator acts on each incoming carrier as often as it takes part.</returns>
    public static IsolatorNeed? Of(ProductFinding product)
    {
        if (product is not { Mechanism: Mechanism.Transmitter, Sum: { } sum, OverNoiseDb: { } over and >= 0 })
        {
            return null;
        }

        double needed = over / sum.Incoming.Sum(static i => i.Times);
        double has = sum.Incoming.Min(static i => i.IsolatorDb);
        return new IsolatorNeed(
            product.MadeIn, needed, has, has + needed <= SingleDb
                ? IsolatorKind.Single
                : has + needed <= DoubleDb ? IsolatorKind.Double
                : IsolatorKind.DoubleWithFilter);
    }
}
