using MathNet.Numerics;

namespace Spurless.Sites.Tests.Studies.Oracle;

/// <summary>A product as the plain study finds it.</summary>
/// <param name="Coefficients">One for each emitter of the site, zeros for those that take no part; the frequency is above 0.</param>
internal sealed record PlainProduct(int[] Coefficients)
{
    public int Order => Coefficients.Sum(Math.Abs);

    public required long Hz { get; init; }

    /// <summary>Level of each active stage alone at the receiver's input in dBm.</summary>
    public required double[] StageDbm { get; init; }

    public required double PowerDbm { get; init; }

    public required double VoltageDbm { get; init; }

    public required double InChannelDbm { get; init; }

    public required double SigmaDb { get; init; }

    public required double? NextDegreeDb { get; init; }

    public required double OnTogether { get; init; }
}

/// <summary>
/// The study of a small site as it stands in docs/method (noise.md, product-levels.md, product-search.md), done in the plainest way:
/// every vector of coefficients, doubles, no bounds, no rounding, no index.
/// </summary>
internal sealed class PlainStudy
{
    private const double Boltzmann = 1.380649e-23;
    private readonly SmallSite _site;
    private readonly List<(double GainDb, Func<int, double> Iip, Func<int, double> SigmaDb)> _stages = [];

    public PlainStudy(SmallSite site)
    {
        _site = site;
        if (site.Amplifier is { } amplifier)
        {
            Dictionary<int, double> stated = new() { [3] = amplifier.Iip3Dbm };
            _stages.Add((amplifier.GainDb, n => Rule(n, stated), static n => Doubt(n, [3])));
        }

        _stages.Add((0, n => Rule(n, site.Receiver), n => Doubt(n, [.. site.Receiver.Keys])));
        NoiseDbm = Noise();
    }

    public double NoiseDbm { get; }

    public double FloorDbm => _site.FloorDbm ?? NoiseDbm - 20;

    /// <summary>Everything that can hit, whatever its level.</summary>
    public IEnumerable<PlainProduct> All()
    {
        int[] k = new int[_site.Emitters.Count];
        return Vectors(k, 0, _site.Orders.Highest).Select(Of).OfType<PlainProduct>();
    }

    /// <summary>Gain from the antenna connector to the input of an active stage, the receiver's selectivity counted for the last.</summary>
    private double GainTo(int stage, double hz)
    {
        double gain = -_site.FeedlineDb * Math.Sqrt(hz / 145e6);
        if (_site.Amplifier is { } amplifier && stage == 1)
        {
            gain += amplifier.GainDb - 2;
        }

        return stage == _stages.Count - 1 ? gain - Selectivity(hz) : gain;
    }

    /// <summary>Gain from the input of an active stage to the receiver's input, before its selectivity.</summary>
    private double Referral(int stage, double hz) =>
        stage == _stages.Count - 1 ? Selectivity(hz) : _site.Amplifier!.Value.GainDb - 2;

    private double Selectivity(double hz)
    {
        IReadOnlyList<(double Db, long Hz)> points = _site.Selectivity;
        if (points.Count == 0)
        {
            return 0;
        }

        for (int i = 1; i < points.Count; i++)
        {
            if (hz <= points[i].Hz)
            {
                double at = Math.Log10(Math.Max(hz, points[0].Hz) / points[i - 1].Hz) / Math.Log10((double)points[i].Hz / points[i - 1].Hz);
                return points[i - 1].Db + (at * (points[i].Db - points[i - 1].Db));
            }
        }

        return points[^1].Db;
    }

    private double Noise()
    {
        double bandwidth = _site.RasterHz == 12_500 ? 8_000 : 12_600;
        double feedline = Ratio(-_site.FeedlineDb * Math.Sqrt(_site.ChannelHz / 145e6));
        double gain = feedline;
        double factor = 1 / feedline;
        if (_site.Amplifier is { } amplifier)
        {
            factor += (Ratio(amplifier.NoiseFigureDb) - 1) / gain;
            gain *= Ratio(amplifier.GainDb);
            factor += (Ratio(2) - 1) / gain;
            gain *= Ratio(-2);
        }

        factor += (Ratio(_site.NoiseFigureDb) - 1) / gain;
        double external = _site.ExternalDb is { } db ? Ratio(db) : 1;
        return 30 + (10 * Math.Log10(Boltzmann * 290 * bandwidth * (((external - 1) * gain) + (factor * gain))));
    }

    private static IEnumerable<int[]> Vectors(int[] k, int at, int left)
    {
        if (at == k.Length)
        {
            yield return [.. k];
            yield break;
        }

        for (int c = -left; c <= left; c++)
        {
            k[at] = c;
            foreach (int[] one in Vectors(k, at + 1, left - Math.Abs(c)))
            {
                yield return one;
            }
        }

        k[at] = 0;
    }

    private PlainProduct? Of(int[] k)
    {
        int order = k.Sum(Math.Abs);
        int signals = k.Count(static c => c != 0);
        long hz = k.Select((c, i) => c * _site.Emitters[i].Hz).Sum();
        long width = k.Select((c, i) => Math.Abs(c) * _site.Emitters[i].WidthHz).Sum();
        bool apart = _site.Exclusive.Any(g => g.Count(i => k[i] != 0) > 1);
        if (order < _site.Orders.Lowest || signals > _site.Signals || hz <= 0 || apart
            || 2 * Math.Abs(hz - _site.ChannelHz) > _site.RasterHz + width)
        {
            return null;
        }

        double[] stage = [.. Enumerable.Range(0, _stages.Count).Select(s => StageDbm(k, order, s, hz))];
        double power = 10 * Math.Log10(stage.Sum(Ratio));
        int strongest = Array.IndexOf(stage, stage.Max());
        double iipSigma = _stages[strongest].SigmaDb(order);
        double variance = Square(order * _site.CommonSigmaDb) + Square((order - 1) * iipSigma)
            + k.Select((c, i) => Square(c * (_site.Emitters[i].SigmaDb ?? 2))).Sum();
        return new PlainProduct(k)
        {
            Hz = hz,
            StageDbm = stage,
            PowerDbm = power,
            VoltageDbm = 20 * Math.Log10(stage.Sum(static d => Math.Pow(10, d / 20))),
            InChannelDbm = power + (10 * Math.Log10(Share(k, hz))),
            SigmaDb = Math.Sqrt(variance),
            NextDegreeDb = NextDegreeDb(k, order, strongest),
            OnTogether = k.Select((c, i) => c == 0 ? 1 : _site.Emitters[i].ActivityPercent / 100.0).Aggregate(1.0, static (a, b) => a * b),
        };
    }

    private double StageDbm(int[] k, int order, int stage, double hz)
    {
        double level = (20 * Math.Log10(Factor(k) / Reference(order))) - ((order - 1) * _stages[stage].Iip(order));
        for (int i = 0; i < k.Length; i++)
        {
            int times = Math.Abs(k[i]);
            level += times * (_site.Emitters[i].Dbm + GainTo(stage, _site.Emitters[i].Hz));
            level += _site.Emitters[i].NoiseLike ? 10 * Math.Log10(SpecialFunctions.Factorial(times)) : 0;
        }

        double all = 10 * Math.Log10(_site.Emitters.Sum(e => Ratio(e.Dbm + GainTo(stage, e.Hz))));
        double most = Math.Min(all, _stages[stage].Iip(3) - 9.64);
        bool trusted = NextDegreeDb(k, order, stage) <= 3;
        return (level > most && !trusted ? most : level) + Referral(stage, hz);
    }

    private double? NextDegreeDb(int[] k, int order, int stage)
    {
        if (order > 7)
        {
            return null;
        }

        double sum = 0;
        for (int i = 0; i < k.Length; i++)
        {
            double p = _site.Emitters[i].Dbm + GainTo(stage, _site.Emitters[i].Hz);
            sum += Ratio(p + ((order - 1) / 2.0 * _stages[stage].Iip(order)) - ((order + 1) / 2.0 * _stages[stage].Iip(order + 2)))
                / (Math.Abs(k[i]) + 1);
        }

        return 20 * Math.Log10(1 + (Reference(order) / Reference(order + 2) * (order + 2) * (order + 1) * sum));
    }

    /// <summary>The share in the channel; every choice of lines in turn, each a Gaussian with the tail of docs/method.</summary>
    private double Share(int[] k, long hz)
    {
        double half = (_site.RasterHz == 12_500 ? 8_000 : 12_600) / 2.0;
        double variance = 0;
        double modulation = 0;
        List<double> lines = [hz - _site.ChannelHz];
        for (int i = 0; i < k.Length; i++)
        {
            SmallEmitter e = _site.Emitters[i];
            if (k[i] == 0 || e.WidthHz == 0)
            {
                continue;
            }

            double wide = e.WidthHz > 100_000 ? 15_000 : 3_000;
            modulation = Math.Max(modulation, wide);
            double sigma = e.Class switch
            {
                "F3E" or "F8E" => 0.35 * Math.Max(300, (e.WidthHz / 2.0) - wide),
                "F1D" => 0.05 * e.WidthHz,
                _ => e.WidthHz / Math.Sqrt(12),
            };
            variance += Square(k[i] * sigma);
            if (e.Class == "F1D")
            {
                double shift = 0.28 * e.WidthHz * k[i];
                lines = [.. lines.SelectMany(l => (double[])[l - shift, l + shift])];
            }
        }

        return Math.Clamp(lines.Average(l => Part(Math.Abs(l), half, Math.Sqrt(variance), modulation)), 1e-7, 1);
    }

    private static double Part(double distance, double half, double sigma, double modulation)
    {
        if (sigma == 0)
        {
            return distance < half ? 1 : distance > half ? 0 : 0.5;
        }

        double Gaussian(double d) =>
            0.5 * (SpecialFunctions.Erfc((d - half) / sigma / Math.Sqrt(2)) - SpecialFunctions.Erfc((d + half) / sigma / Math.Sqrt(2)));

        // -35 dB: Q(z) = 10^-3.5 at z = 3.4173, from the nearer edge; 14 dB a width of the modulating signal from there, or from where the
        // Gaussian is as steep (z + 1/z sigmas out is its logarithm's slope to the first order, so z = s - 1/s).
        double slope = 14 * Math.Log(10) / 10 / modulation;
        double steep = slope * sigma;
        double from = half + (sigma * Math.Max(3.4173, steep - (1 / steep)));
        return distance <= from ? Gaussian(distance) : Gaussian(from) * Math.Exp(-slope * (distance - from));
    }

    private static double Rule(int n, IReadOnlyDictionary<int, double> given)
    {
        double three = given[3];
        double two = given.TryGetValue(2, out double stated) ? stated : three + 30;
        return given.TryGetValue(n, out double own) ? own
            : n == 2 ? two
            : n % 2 == 1 ? three
            : three + (Math.Max(0, two - three) / (n - 1));
    }

    private static double Doubt(int n, int[] given) => given.Contains(n) ? 3 : n == 2 ? 10 : 5;

    private static double Factor(int[] k) =>
        SpecialFunctions.Factorial(k.Sum(Math.Abs)) / k.Aggregate(1.0, static (all, c) => all * SpecialFunctions.Factorial(Math.Abs(c)));

    private static double Reference(int n) => SpecialFunctions.Binomial(n, n / 2);

    private static double Ratio(double db) => Math.Pow(10, db / 10);

    private static double Square(double x) => x * x;
}
