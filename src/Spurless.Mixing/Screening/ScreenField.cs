using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Screening;

/// <summary>
/// All emitters of a screening, laid out for being asked from any place: for each band of frequency a tree of boxes in space, each with
/// bounds of what its
/// emitters can bring. Immutable; some 220 bytes an emitter.
/// </summary>
public sealed class ScreenField
{
    /// <summary>Edges of the bands in hertz: what a chain takes away differs little within one, and much between them.</summary>
    private static readonly long[] BandEdgesHz =
        [60_000_000, 88_000_000, 130_000_000, 150_000_000, 180_000_000, 300_000_000, 420_000_000, 520_000_000, 1_000_000_000];

    private const int MostStretches = 1 << 17;
    private const int FewFrequencies = 8;

    private int[] _stretches = [];
    private int _shift = 10;

    private ScreenField(int count)
    {
        FrequencyHz = new long[count];
        BandwidthHz = new long[count];
        Spread = new EmitterSpread[count];
        OverDistance = new double[count];
        OverDistanceSquared = new double[count];
        Sites = new Site[count];
        Latitude = new double[count];
        Longitude = new double[count];
        NoiseLike = new bool[count];
        FrequencyIndex = new int[count];
        Original = new int[count];
    }

    /// <summary>Number of emitters that take part.</summary>
    public int Count => FrequencyHz.Length;

    /// <summary>Number of those that were given without a radiated power.</summary>
    public int WithoutPower { get; private init; }

    internal long[] FrequencyHz { get; }

    internal long[] BandwidthHz { get; }

    internal EmitterSpread[] Spread { get; }

    /// <summary>EIRP over the square of the frequency, in milliwatts and hertz: what free space takes is this over the distance
    /// squared.</summary>
    internal double[] OverDistance { get; }

    /// <summary>The root of the EIRP in milliwatts: what plane earth takes goes with the heights over the distance squared.</summary>
    internal double[] OverDistanceSquared { get; }

    /// <summary>What a level needs of each emitter, together: most are asked for one level alone.</summary>
    internal Site[] Sites { get; }

    internal double[] Latitude { get; }

    internal double[] Longitude { get; }

    internal bool[] NoiseLike { get; }

    internal int[] FrequencyIndex { get; }

    /// <summary>Index of each emitter in the list it came from.</summary>
    internal int[] Original { get; }

    internal long[] Frequencies { get; private set; } = [];

    internal IReadOnlyList<ScreenTree> Trees { get; private set; } = [];

    /// <summary>The same emitters in runs of neighbouring frequencies.</summary>
    internal ScreenRuns Runs { get; private set; } = null!;

    internal bool AnyNoiseLike { get; private set; }

    /// <summary>Lays emitters out.</summary>
    /// <param name="emitters">The emitters; those without a power take no part.</param>
    public static ScreenField Of(IReadOnlyList<ScreenEmitter> emitters) => Of(emitters, ScreenRuns.UsualLeast);

    /// <summary>Lays emitters out, so many at least in a run of frequencies.</summary>
    internal static ScreenField Of(IReadOnlyList<ScreenEmitter> emitters, int leastInRun)
    {
        ArgumentNullException.ThrowIfNull(emitters);
        List<int>[] bands = [.. Enumerable.Range(0, BandEdgesHz.Length + 1).Select(static _ => new List<int>())];
        int without = 0;
        for (int i = 0; i < emitters.Count; i++)
        {
            if (!double.IsFinite(emitters[i].EirpDbm))
            {
                without++;
                continue;
            }

            int band = 0;
            while (band < BandEdgesHz.Length && emitters[i].FrequencyHz >= BandEdgesHz[band])
            {
                band++;
            }

            bands[band].Add(i);
        }

        // In order of frequency: what is asked for by frequency lies together.
        int[] sorted = [.. bands.SelectMany(static b => b)];
        long[] keys = [.. sorted.Select(i => emitters[i].FrequencyHz)];
        int[] place = [.. Enumerable.Range(0, sorted.Length)];
        Array.Sort(keys, place);
        ScreenField field = new(sorted.Length) { WithoutPower = without };
        for (int k = 0; k < place.Length; k++)
        {
            int original = sorted[place[k]];
            field.Put(k, original, emitters[original], EarthPoint.Of(emitters[original].Place));
        }

        field.LayFrequencies();
        List<ScreenTree> trees = [];
        int at = 0;
        foreach (List<int> band in bands.Where(static b => b.Count > 0))
        {
            trees.Add(new ScreenTree(field, at, at + band.Count));
            at += band.Count;
        }

        field.Trees = trees;
        field.Runs = new ScreenRuns(field, leastInRun);
        return field;
    }

    internal long MaxBandwidthHz { get; private set; }

    /// <summary>Index of the first frequency that is not lower; their number where all are.</summary>
    internal int FirstAt(long hertz)
    {
        long stretch = hertz >> _shift;
        if (hertz <= 0 || stretch >= _stretches.Length - 1)
        {
            return hertz <= 0 ? 0 : Frequencies.Length;
        }

        (int from, int to) = (_stretches[stretch], _stretches[stretch + 1]);
        if (to - from > FewFrequencies)
        {
            int f = Array.BinarySearch(Frequencies, from, to - from, hertz);
            return f < 0 ? ~f : f;
        }

        while (from < to && Frequencies[from] < hertz)
        {
            from++;
        }

        return from;
    }

    private void LayFrequencies()
    {
        Frequencies = [.. FrequencyHz.Distinct()];
        for (int i = 0, f = 0; i < Count; i++)
        {
            f += Frequencies[f] == FrequencyHz[i] ? 0 : 1;
            FrequencyIndex[i] = f;
            AnyNoiseLike |= NoiseLike[i];
            MaxBandwidthHz = Math.Max(MaxBandwidthHz, BandwidthHz[i]);
        }

        // Stretches of equal width from 0 on, each with the first frequency in it or behind it.
        long most = Count == 0 ? 0 : Frequencies[^1];
        while (most >> _shift >= MostStretches)
        {
            _shift++;
        }

        _stretches = new int[(most >> _shift) + 2];
        for (int s = 0, f = 0; s < _stretches.Length; s++)
        {
            while (f < Frequencies.Length && Frequencies[f] >> _shift < s)
            {
                f++;
            }

            _stretches[s] = f;
        }
    }

    private void Put(int at, int original, in ScreenEmitter emitter, EarthPoint point)
    {
        Original[at] = original;
        (FrequencyHz[at], BandwidthHz[at], Spread[at]) = (emitter.FrequencyHz, emitter.BandwidthHz, emitter.Spread);
        OverDistanceSquared[at] = Math.Pow(10, emitter.EirpDbm / 20);
        OverDistance[at] = OverDistanceSquared[at] * OverDistanceSquared[at] / ((double)emitter.FrequencyHz * emitter.FrequencyHz);
        (Latitude[at], Longitude[at]) = (emitter.Place.LatitudeDegrees, emitter.Place.LongitudeDegrees);
        bool heights = emitter.HeightM > 0 && float.IsFinite(emitter.GroundM);
        bool beam = float.IsFinite(emitter.AzimuthDegrees) && emitter.BeamwidthDegrees is > 0 and < 360;
        Sites[at] = new Site(
            point, emitter.EirpDbm, emitter.FrequencyHz, 20 * Math.Log10(emitter.FrequencyHz), heights ? emitter.HeightM : float.NaN,
            heights ? emitter.GroundM : float.NaN, beam ? emitter.AzimuthDegrees : float.NaN, beam ? emitter.BeamwidthDegrees : float.NaN);
        NoiseLike[at] = emitter.NoiseLike;
    }

    /// <summary>Where an emitter stands and what it radiates; what is not known is NaN.</summary>
    /// <param name="Point">Its place.</param>
    /// <param name="EirpDbm">Radiated power.</param>
    /// <param name="FrequencyHz">Its frequency.</param>
    /// <param name="FrequencyDb">Twenty times the logarithm of it.</param>
    /// <param name="HeightM">Height over ground.</param>
    /// <param name="GroundM">Height of the ground.</param>
    /// <param name="Azimuth">Main direction in degrees.</param>
    /// <param name="Beamwidth">Half-power beamwidth in degrees.</param>
    internal readonly record struct Site(
        EarthPoint Point, double EirpDbm, double FrequencyHz, double FrequencyDb, float HeightM, float GroundM, float Azimuth,
            float Beamwidth);
}
