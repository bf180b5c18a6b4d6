using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

/// <summary>
/// An invented site with a hidden truth: 8 emitters, 6 to 12 products that could be it, and whatever is asked answered as the truth would,
/// with the noise that readings have; each draw is another truth of the same site. The truth is
/// drawn with the weights that hypotheses have before any evidence.
/// </summary>
internal sealed class MadeSite
{
    public const int Emitters = 8;

    private const double MissShare = 0.10;
    private const double FalseShare = 0.05;

    private readonly Random _random;
    private readonly double _level;
    private readonly double _read;
    private readonly double _otherRate;

    public MadeSite(int seed, int draw = 0)
    {
        _random = new Random(seed);
        Products = [.. Enumerable.Range(0, _random.Next(6, 13)).Select(_ => Product())];
        double[] losses = [.. Enumerable.Range(0, Emitters).Select(_ => _random.NextDouble() * 20)];
        Hypotheses = Hypothesis.All(Products, PriorKind.Equal);
        _random = new Random((seed * 1000) + draw);
        double at = _random.NextDouble();
        while (at > Hypotheses[Truth].Prior && Truth < Hypotheses.Length - 1)
        {
            at -= Hypotheses[Truth++].Prior;
        }

        Hypothesis truth = Hypotheses[Truth];
        _level = truth.OverNoiseDb is { } over ? over + (truth.SigmaDb * Gauss()) : (_random.NextDouble() * 90) - 10;
        _read = _level + Gauss();
        _otherRate = _random.NextDouble();
        Filter = new FilterInLine
        {
            OverNoiseDb = _read,
            LossOfEmitterDb = losses,
            LossOfProductDb = [.. Products.Select(_ => 2.0)],
            LossOnChannelDb = 2,
        };
    }

    public EvidenceProduct[] Products { get; }

    public Hypothesis[] Hypotheses { get; }

    public int Truth { get; private set; }

    public FilterInLine Filter { get; }

    public EvidenceProduct? True => Hypotheses[Truth].Product < 0 ? null : Products[Hypotheses[Truth].Product];

    /// <summary>Everything that can be asked but the log.</summary>
    public IReadOnlyList<Observation> Asks =>
    [
        .. new[] { 3.0, 6, 10 }.Select(a => new PadInLine { OverNoiseDb = _read, PadDb = a }),
        Filter,
        .. Enumerable.Range(0, Emitters).Select(e => new EmitterDown
        {
            OverNoiseDb = _read,
            Emitter = e,
            ByDb = double.PositiveInfinity,
        }),
        .. Enumerable.Range(0, Emitters).Select(e => new EmitterDown { OverNoiseDb = _read, Emitter = e, ByDb = 3 }),
        new OffsetReading(),
    ];

    public EvidenceCase Case(params IReadOnlyList<Observation> observed) =>
        new() { Products = Products, Observations = observed, ChannelHz = 12_500 };

    /// <summary>What is read.</summary>
    public Observation Answer(Observation ask) => ask switch
    {
        FallObservation fall => fall with
        {
            FallDb = FallLaw.Db(_level, fall.AttenuationDb(True, Hypotheses[Truth].Product, Hypotheses[Truth])) + Gauss(),
        },
        _ => ((OffsetReading)ask) with
        {
            OffsetHz = True is { } product
                ? product.OffsetHz + (product.OffsetSigmaHz * Gauss()) + (OffsetReading.UsualSigmaHz * Gauss())
                : (_random.NextDouble() - 0.5) * 12_500,
        },
    };

    /// <summary>A log: each emitter goes on and off, one state in ten is not observed.</summary>
    public LogReading Log(int rows)
    {
        bool[] on = [.. Enumerable.Range(0, Emitters).Select(_ => _random.Next(2) == 0)];
        bool?[][] all = new bool?[rows][];
        for (int r = 0; r < rows; r++)
        {
            for (int e = 0; e < Emitters; e++)
            {
                on[e] ^= _random.NextDouble() < 0.3;
            }

            bool heard = True is { } product
                ? product.Terms.All(t => on[t.Emitter]) ? _random.NextDouble() >= MissShare : _random.NextDouble() < FalseShare
                : _random.NextDouble() < _otherRate;
            all[r] = [heard, .. on.Select(s => _random.Next(10) == 0 ? (bool?)null : s)];
        }

        return new LogReading(LogMoments.Of(all, 0, [.. Enumerable.Range(1, Emitters)], new bool[Emitters]));
    }

    private EvidenceProduct Product()
    {
        int[] of = [.. Enumerable.Range(0, Emitters).OrderBy(_ => _random.Next()).Take(_random.Next(2, 4))];
        EvidenceTerm[] terms = [.. of.Select((e, i) => new EvidenceTerm(e, i == 0 ? _random.Next(1, 3) : i % 2 == 1 ? -1 : 1))];
        List<EvidencePlace> places =
        [
            new EvidencePlace { Kind = MakingPlace.Receiver, Index = 0, OverNoiseDb = 10 + (_random.NextDouble() * 30), SigmaDb = 7 },
            new EvidencePlace { Kind = MakingPlace.Outside },
        ];
        if (_random.Next(3) == 0)
        {
            double? level = _random.Next(2) == 0 ? 10 + (_random.NextDouble() * 30) : null;
            places.Add(new EvidencePlace { Kind = MakingPlace.Transmitter, Index = of[0], OverNoiseDb = level, SigmaDb = 10 });
        }

        double sigma = Math.Sqrt(terms.Sum(static t => Math.Pow(t.Coefficient * 400.0, 2)));
        return new EvidenceProduct
        {
            Terms = terms,
            Places = places,
            OffsetHz = _random.Next(-2, 3) * 1000,
            OffsetSigmaHz = sigma,
        };
    }

    public double Gauss() =>
        Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());

    public int Next(int below) => _random.Next(below);
}
