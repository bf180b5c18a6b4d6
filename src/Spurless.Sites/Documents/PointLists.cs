using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>Lists of points over frequency, offset or order: sorted, each place once.</summary>
internal static class PointLists
{
    public static Shape<IReadOnlyList<NoiseDensityAt>> NoiseByOffset { get; } = Shapes.OneOrMany(QuantityShapes.NoiseAt)
        .Check(
            static points =>
                Twice(points, static p => p.Offset.Hertz) is { } p
                    ? new Refusal($"the offset {p.Offset} stands twice", "keep one of the two")
                    : null)
        .Select(static points => (IReadOnlyList<NoiseDensityAt>)[.. points.OrderBy(static p => p.Offset)]);

    public static Shape<IReadOnlyList<CarrierRatioAtOrder>> HarmonicsByOrder { get; } = Shapes.OneOrMany(QuantityShapes.Harmonic)
        .Check(
            static points =>
                Twice(points, static p => p.Order) is { } p
                    ? new Refusal(FormattableString.Invariant($"the harmonic {p.Order} stands twice"), "keep one of the two")
                    : null)
        .Select(static points => (IReadOnlyList<CarrierRatioAtOrder>)[.. points.OrderBy(static p => p.Order)]);

    public static Shape<IReadOnlyList<DecibelsAtOrder>> LossByOrder { get; } = ByOrder(QuantityShapes.LossAtOrder);

    public static Shape<IReadOnlyList<DecibelsAtOrder>> SigmaByOrder { get; } = ByOrder(QuantityShapes.SigmaAtOrder);

    public static Shape<IReadOnlyList<DecibelsAt>> ByFrequency(Shape<DecibelsAt> point) => Shapes.ListOf(point, 1)
        .Check(
            static points =>
                Twice(points, static p => p.Frequency.Hertz) is { } p
                    ? new Refusal($"the frequency {p.Frequency} stands twice", "keep one of the two")
                    : null)
        .Select(static points => (IReadOnlyList<DecibelsAt>)[.. points.OrderBy(static p => p.Frequency)]);

    private static T? Twice<T>(IReadOnlyList<T> points, Func<T, long> place)
        where T : struct => points.GroupBy(place).Where(static g => g.Count() > 1).Select(static g => (T?)g.First()).FirstOrDefault();

    private static Shape<IReadOnlyList<DecibelsAtOrder>> ByOrder(Shape<DecibelsAtOrder> point) => Shapes.ListOf(point, 1)
        .Check(
            static points =>
                Twice(points, static p => p.Order) is { } p
                    ? new Refusal(FormattableString.Invariant($"the order {p.Order} stands twice"), "keep one of the two")
                    : null)
        .Select(static points => (IReadOnlyList<DecibelsAtOrder>)[.. points.OrderBy(static p => p.Order)]);
}
