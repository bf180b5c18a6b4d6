namespace Spurless.Mixing.Screening;

/// <summary>
/// The emitters of a field once more, in runs of neighbouring frequencies with boxes of their own: for who asks for a frequency and wants
/// of everywhere only what is strong enough. All emitters of one frequency are in one run. Immutable; some 50 bytes an emitter.
/// </summary>
internal sealed class ScreenRuns
{
    /// <summary>So many emitters at least are a run, but for the last of a band.</summary>
    public const int UsualLeast = 600;

    private const int MostStretches = 1 << 16;

    private readonly int[] _firstAt;
    private readonly int[] _lastAt;
    private readonly int _shift = 10;

    /// <summary>Over a field whose trees are laid out.</summary>
    /// <param name="field">The field.</param>
    /// <param name="least">Least emitters in a run.</param>
    public ScreenRuns(ScreenField field, int least)
    {
        List<ScreenTree> trees = [];
        List<int> bands = [];
        for (int band = 0, from = 0, to, end = 0; band < field.Trees.Count; band++)
        {
            for (end += field.Trees[band].Members.Length; from < end; from = to)
            {
                to = Math.Min(end, from + least);
                while (to < end && field.FrequencyIndex[to] == field.FrequencyIndex[to - 1])
                {
                    to++;
                }

                // What is at hand is so for a run as for its band: else it would be put down by both.
                trees.Add(new ScreenTree(field, from, to, field.Trees[band].NearSquared));
                bands.Add(band);
            }
        }

        (Trees, Band) = ([.. trees], [.. bands]);
        RunOf = new int[field.Frequencies.Length];
        (SigmaSquared, ShiftHz, BandwidthHz) = (new double[Trees.Length], new double[Trees.Length], new long[Trees.Length]);
        for (int g = 0; g < Trees.Length; g++)
        {
            Array.Fill(RunOf, g, Trees[g].FirstFrequency, Trees[g].LastFrequency - Trees[g].FirstFrequency + 1);
            foreach (int i in Trees[g].Members)
            {
                SigmaSquared[g] = Math.Max(SigmaSquared[g], field.Spread[i].SigmaHz * field.Spread[i].SigmaHz);
                ShiftHz[g] = Math.Max(ShiftHz[g], Math.Abs(field.Spread[i].ShiftHz));
                BandwidthHz[g] = Math.Max(BandwidthHz[g], field.BandwidthHz[i]);
            }
        }

        // Stretches of equal width from 0 on: the first run that ends in it or behind it, the last that begins in it or before it.
        long most = field.Count == 0 ? 0 : field.Frequencies[^1];
        while (most >> _shift >= MostStretches)
        {
            _shift++;
        }

        _firstAt = new int[(most >> _shift) + 1];
        _lastAt = new int[_firstAt.Length];
        for (int s = 0, first = 0, last = -1; s < _firstAt.Length; s++)
        {
            while (first < Trees.Length && Trees[first].FrequencyTo >> _shift < s)
            {
                first++;
            }

            while (last + 1 < Trees.Length && Trees[last + 1].FrequencyFrom >> _shift <= s)
            {
                last++;
            }

            (_firstAt[s], _lastAt[s]) = (first, last);
        }
    }

    /// <summary>The boxes of each run, by rising frequency.</summary>
    public ScreenTree[] Trees { get; }

    /// <summary>Per frequency of the field: its run.</summary>
    public int[] RunOf { get; }

    /// <summary>Per run: the tree of the field that has its emitters too.</summary>
    public int[] Band { get; }

    /// <summary>Per run: greatest variance of an emitter's momentary frequency, in hertz squared.</summary>
    public double[] SigmaSquared { get; }

    /// <summary>Per run: greatest shift of an emitter, in hertz.</summary>
    public double[] ShiftHz { get; }

    /// <summary>Per run: greatest width of an emitter, in hertz.</summary>
    public long[] BandwidthHz { get; }

    /// <summary>The first and the last run that can have a frequency between two; the last before the first where none can.</summary>
    public (int First, int Last) Between(long lowHz, long highHz)
    {
        long low = Math.Max(0, lowHz) >> _shift;
        long high = highHz >> _shift;
        return highHz < 0 || low >= _firstAt.Length
            ? (0, -1)
            : (_firstAt[low], _lastAt[Math.Min(high, _lastAt.Length - 1)]);
    }
}
