namespace Spurless.Mixing.Tests.Evidence;

/// <summary>
/// The closed forms of the method once more, written as plainly as they stand there and sharing no code with the program: products of
/// ratios in place of beta functions, row by row in place of bits.
/// </summary>
internal static class PlainEvidence
{
    public sealed record Product((int Emitter, int K)[] Terms, double Offset, double OffsetSigma, Place[] Places);

    public sealed record Place(char Kind, int Index, double? Over, double Sigma);

    /// <summary>Kind p: pad, f: filter, d: emitter down.</summary>
    public sealed record Fall(
        char Kind, double X, double D, double S, double A, int Which, double[] EmitterLoss, double[] ProductLoss, double ChannelLoss);

    public static List<double> Posterior(
        Product[] products, Fall[] falls, (double M, double S)[] offsets, bool?[][] rows, int receiver, int[] columns, bool[] follows,
        double channel, bool byLevel)
    {
        List<double> weights = [];
        for (int p = 0; p <= products.Length; p++)
        {
            Place[] places = p < products.Length ? products[p].Places : [new Place('o', -1, null, 0)];
            double total = 0;
            foreach (char kind in "rtx")
            {
                total += places.Any(q => q.Kind == kind) ? (kind == 'r' ? 2 : 1) : 0;
            }

            foreach (Place place in places)
            {
                double prior = place.Kind == 'o' ? 1 : (place.Kind == 'r' ? 2 : 1) / total / places.Count(q => q.Kind == place.Kind);
                if (byLevel)
                {
                    prior *= place.Over is { } over ? 0.5 * Erfc(-over / place.Sigma / Math.Sqrt(2)) : 0.5;
                }

                double log = Math.Log(prior);
                Product? product = p < products.Length ? products[p] : null;
                if (falls.Length > 0)
                {
                    Fall top = falls.First(f => f.X == falls.Max(g => g.X));
                    log += place.Over is { } o ? Gauss(top.X, o, (place.Sigma * place.Sigma) + (top.S * top.S)) : Math.Log(1.0 / 90);
                }

                foreach (Fall fall in falls)
                {
                    double y = Attenuation(fall, product, p, place);
                    double before = Math.Pow(10, fall.X / 10);
                    double after = double.IsPositiveInfinity(y) ? 0 : Math.Pow(10, (fall.X - y) / 10);
                    double mean = 10 * Math.Log10((1 + before) / (1 + after));
                    double slope = (before / (1 + before)) - (after / (1 + after));
                    log += Gauss(fall.D, mean, (fall.S * fall.S) + (slope * slope));
                }

                foreach ((double m, double s) in offsets)
                {
                    log += product is null
                        ? Math.Log(1 / channel)
                        : Gauss(m, product.Offset, (s * s) + (product.OffsetSigma * product.OffsetSigma));
                }

                weights.Add(log + Log(product, rows, receiver, columns, follows));
            }
        }

        double most = weights.Max();
        double sum = weights.Sum(w => Math.Exp(w - most));
        return [.. weights.Select(w => Math.Exp(w - most) / sum)];
    }

    public static double Attenuation(Fall fall, Product? product, int index, Place place)
    {
        int order = product?.Terms.Sum(static t => Math.Abs(t.K)) ?? 1;
        switch (fall.Kind)
        {
            case 'p':
                return place.Kind == 'r' && place.Index >= fall.Which ? order * fall.A : fall.A;
            case 'f':
                return product is null ? fall.ChannelLoss
                    : place.Kind == 'r' ? product.Terms.Sum(t => Math.Abs(t.K) * fall.EmitterLoss[t.Emitter])
                    : fall.ProductLoss[index];
            default:
                int k = product?.Terms.Where(t => t.Emitter == fall.Which).Sum(static t => Math.Abs(t.K)) ?? 0;
                return k == 0 ? 0
                    : double.IsPositiveInfinity(fall.A) ? fall.A
                    : place.Kind == 't' && place.Index == fall.Which ? -fall.A * (order - k - 1)
                    : k * fall.A;
        }
    }

    private static double Log(Product? product, bool?[][] rows, int receiver, int[] columns, bool[] follows)
    {
        // Rates integrated out one moment after the other: (a + heard so far) / (a + b + moments so far).
        double[] heard = [9, 1, 1];
        double[] all = [10, 20, 2];
        double log = 0;
        for (int r = 0; r < rows.Length; r++)
        {
            if (rows[r][receiver] is not { } hears || (r > 0 && rows[r].SequenceEqual(rows[r - 1])))
            {
                continue;
            }

            bool?[] states = [.. (product?.Terms ?? []).Select(t => columns[t.Emitter] < 0 ? null
                : !follows[t.Emitter] ? rows[r][columns[t.Emitter]]
                : r > 0 ? rows[r - 1][columns[t.Emitter]] : null)];
            bool after = r > 0 && rows[r - 1][receiver] == false;
            bool keepsUp = product is not null && product.Terms.Any(t => follows[t.Emitter]);
            int c = product is null || (keepsUp && !after) ? 2
                : states.Contains(false) ? 1
                : states.Contains(null) ? 2
                : 0;
            log += Math.Log(hears ? heard[c] / all[c] : (all[c] - heard[c]) / all[c]);
            heard[c] += hears ? 1 : 0;
            all[c]++;
        }

        return log;
    }

    private static double Gauss(double x, double mean, double variance) =>
        (-(x - mean) * (x - mean) / (2 * variance)) - (0.5 * Math.Log(2 * Math.PI * variance));

    // By Simpson's rule; slow, and good to 1e-12 over the range that the tests use.
    public static double Erfc(double x)
    {
        const int Steps = 20_000;
        double to = Math.Max(x, 0) + 8;
        double h = (to - x) / Steps;
        double sum = Math.Exp(-x * x) + Math.Exp(-to * to);
        for (int i = 1; i < Steps; i++)
        {
            double t = x + (i * h);
            sum += (i % 2 == 0 ? 2 : 4) * Math.Exp(-t * t);
        }

        return 2 / Math.Sqrt(Math.PI) * sum * h / 3;
    }
}
