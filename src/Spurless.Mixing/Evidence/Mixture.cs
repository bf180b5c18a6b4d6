namespace Spurless.Mixing.Evidence;

/// <summary>What all hypotheses together say a reading will be: a mixture, of which those that say the same are one part.</summary>
internal sealed class Mixture
{
    // Six points a sigma: the trapezoid rule on a Gaussian is then exact to far under 1e-9.
    private const double PointsPerSigma = 6;
    private const double Reach = 7;
    private const int MostPoints = 40_000;

    private readonly Dictionary<(long, long), int> _partOf = [];
    private readonly List<Part> _parts = [];

    public void Add(int index, in Hypothesis hypothesis, double weight, Prediction says)
    {
        (long, long) key = says.IsNormal
            ? ((long)Math.Round(says.Mean * 1e6), (long)Math.Round(says.Sigma * 1e6))
            : (long.MaxValue, (long)Math.Round((says.High - says.Low) * 1e6));
        PartOf(key, says, double.NaN).Add(index, hypothesis, weight);
    }

    public void Add(int index, in Hypothesis hypothesis, double weight, double chanceHeard) =>
        PartOf(((long)Math.Round(chanceHeard * 1e12), 0), default, chanceHeard).Add(index, hypothesis, weight);

    /// <summary>Expected fall of entropy in nats by a moment at which it is heard or not.</summary>
    public double GainOfTwo()
    {
        double heard = _parts.Sum(static p => p.Weight * p.Chance);
        return Math.Max(0, Entropy(heard) - _parts.Sum(static p => p.Weight * Entropy(p.Chance)));
    }

    /// <summary>Chance that one hypothesis, or one place, is sure after a moment at which it is heard or not.</summary>
    public double DecidesOfTwo(bool place)
    {
        double decided = 0;
        foreach (bool heard in (bool[])[true, false])
        {
            double all = 0;
            Dictionary<(int, int), double> of = [];
            foreach (Part part in _parts)
            {
                double chance = heard ? part.Chance : 1 - part.Chance;
                all += part.Weight * chance;
                foreach (((int, int) key, double weight) in place ? part.Places : part.Single)
                {
                    of[key] = of.GetValueOrDefault(key) + (weight * chance);
                }
            }

            decided += of.Values.Max() >= NextObservations.Sure * all ? all : 0;
        }

        return decided;
    }

    /// <summary>The same for a reading: <c>I = h(Y) - sum w h(Y | hypothesis)</c>, h(Y) by the trapezoid rule.</summary>
    public Advice Integrate(Observation ask, int index)
    {
        Part[] normal = [.. _parts.Where(static p => p.Says.IsNormal)];
        double step = normal.Length > 0 ? normal.Min(static p => p.Says.Sigma) / PointsPerSigma : 1;
        double low = _parts.Min(static p => p.Says.IsNormal ? p.Says.Mean - (Reach * p.Says.Sigma) : p.Says.Low - 1e-9);
        double high = _parts.Max(static p => p.Says.IsNormal ? p.Says.Mean + (Reach * p.Says.Sigma) : p.Says.High + 1e-9);
        int points = (int)Math.Min(MostPoints, Math.Ceiling((high - low) / step) + 1);
        step = points > 1 ? (high - low) / (points - 1) : 1;
        double[] density = new double[points];
        foreach (Part part in _parts)
        {
            part.AddTo(density, part.Weight, low, step);
        }

        double entropy = 0;
        for (int i = 0; i < points; i++)
        {
            entropy -= density[i] > 0 ? density[i] * Math.Log(density[i]) * step : 0;
        }

        double given = _parts.Sum(static p => p.Weight * p.EntropyNats);
        return new Advice(
            ask, index, Math.Max(0, entropy - given), Decides(density, low, step, static p => p.Single),
            Decides(density, low, step, static p => p.Places));
    }

    private double Decides(double[] density, double low, double step, Func<Part, Dictionary<(int, int), double>> by)
    {
        // Only what holds some weight in some part can come to be sure anywhere.
        Dictionary<(int, int), List<(Part Part, double Weight)>> groups = [];
        foreach (Part part in _parts)
        {
            foreach (((int, int) key, double weight) in by(part))
            {
                if (!groups.TryGetValue(key, out List<(Part, double)>? list))
                {
                    groups[key] = list = [];
                }

                list.Add((part, weight));
            }
        }

        bool[] sure = new bool[density.Length];
        double[] own = new double[density.Length];
        foreach (List<(Part Part, double Weight)> group in groups.Values.Where(g => g.Sum(static w => w.Weight) > 1e-3))
        {
            Array.Clear(own);
            foreach ((Part part, double weight) in group)
            {
                part.AddTo(own, weight, low, step);
            }

            for (int i = 0; i < own.Length; i++)
            {
                sure[i] |= density[i] > 0 && own[i] >= NextObservations.Sure * density[i];
            }
        }

        double decided = 0;
        for (int i = 0; i < sure.Length; i++)
        {
            decided += sure[i] ? density[i] * step : 0;
        }

        return Math.Min(1, decided);
    }

    private Part PartOf((long, long) key, Prediction says, double chance)
    {
        if (!_partOf.TryGetValue(key, out int at))
        {
            _partOf[key] = at = _parts.Count;
            _parts.Add(new Part(says, chance));
        }

        return _parts[at];
    }

    private static double Entropy(double p) => p is > 0 and < 1 ? -(p * Math.Log(p)) - ((1 - p) * Math.Log(1 - p)) : 0;

    /// <summary>Hypotheses that say the same of the reading.</summary>
    private sealed class Part(Prediction says, double chance)
    {
        public Prediction Says => says;

        public double Chance => chance;

        public double Weight { get; private set; }

        public Dictionary<(int, int), double> Single { get; } = [];

        public Dictionary<(int, int), double> Places { get; } = [];

        public double EntropyNats => says.IsNormal
            ? 0.5 * Math.Log(2 * Math.PI * Math.E * says.Sigma * says.Sigma)
            : Math.Log(says.High - says.Low);

        public void Add(int index, in Hypothesis hypothesis, double weight)
        {
            Weight += weight;
            Single[(index, 0)] = weight;
            (int, int) place = ((int)hypothesis.Place, hypothesis.Place == MakingPlace.Receiver ? 0 : hypothesis.Index);
            Places[place] = Places.GetValueOrDefault(place) + weight;
        }

        public void AddTo(double[] density, double weight, double low, double step)
        {
            double from = says.IsNormal ? says.Mean - (Reach * says.Sigma) : says.Low;
            double to = says.IsNormal ? says.Mean + (Reach * says.Sigma) : says.High;
            int first = Math.Max(0, (int)Math.Ceiling((from - low) / step));
            int last = Math.Min(density.Length - 1, (int)Math.Floor((to - low) / step));
            double flat = weight / (says.High - says.Low);
            double scale = says.IsNormal ? weight / (says.Sigma * Math.Sqrt(2 * Math.PI)) : 0;
            for (int i = first; i <= last; i++)
            {
                double z = (low + (i * step) - says.Mean) / says.Sigma;
                density[i] += says.IsNormal ? scale * Math.Exp(-0.5 * z * z) : flat;
            }
        }
    }
}
