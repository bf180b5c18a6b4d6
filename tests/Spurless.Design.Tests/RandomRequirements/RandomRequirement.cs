using Spurless.Design.Questions;

namespace Spurless.Design.Tests.RandomRequirements;

/// <summary>
/// A hundred requirements drawn by seed: some easy, some at the edge, some that no lumped filter meets. Seeds and generator were committed
/// before the
/// designer was written.
/// </summary>
internal static class RandomRequirement
{
    /// <summary>Number of requirements.</summary>
    public const int Count = 100;

    private const int FirstSeed = 41_000;

    /// <summary>One of them.</summary>
    /// <param name="number">0 to <see cref="Count"/> - 1.</param>
    public static DesignQuestion Make(int number)
    {
        Random random = new(FirstSeed + number);
        double Even(double low, double high) => low + ((high - low) * random.NextDouble());
        double Ratio(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        static double Kilohertz(double hertz) => 1e3 * Math.Round(hertz / 1e3);
        double centre = Kilohertz(Ratio(28e6, 440e6)), width = Ratio(0.002, 0.03) * centre;
        double from = Kilohertz(centre - (width / 2)), to = Kilohertz(centre + (width / 2));
        List<RejectDemand> reject = [];
        for (int i = random.Next(1, 5); i > 0; i--)
        {
            double far = width / centre * Ratio(2.5, 60);
            double at = Kilohertz(random.Next(2) == 0 ? centre / (1 + far) : centre * (1 + far));
            double by = Math.Round(Math.Min(45, Even(6, 22) + (14 * Math.Log10(far * centre / width))), 1);
            double top = random.Next(3) == 0 ? Kilohertz(at * Even(1.005, 1.03)) : at;
            if (at > to ? at > to + (0.5 * width) : top < from - (0.5 * width))
            {
                reject.Add(new(at, top, by));
            }
        }

        int?[] series = [12, 24, 24, 96, null];
        double x = 1 / (2 * Math.PI * centre);
        return new DesignQuestion
        {
            Name = $"random requirement {number}",
            PassFromHz = from,
            PassToHz = to,
            MostLossDb = Math.Round(Even(1.2, 5), 1),
            LeastReturnLossDb = random.Next(3) == 0 ? null : Math.Round(Even(8, 15), 1),
            Reject = reject,
            Parts = new PartLimits
            {
                InductorQ = new(Math.Round(Ratio(70, 350)), centre),
                CapacitorQ = new(Math.Round(Ratio(250, 1500)), centre),
                InductorsH = (5 * x, 600 * x),
                CapacitorsF = (0.5e-12, x / 3),
                Series = series[random.Next(series.Length)],
            },
            Seed = (ulong)number,
        };
    }
}
