using Spurless.Numerics;

namespace Spurless.Mixing.Screening;

/// <summary>
/// The emitters of one band in boxes within boxes, eight to one. Each box knows the most that any emitter in it can bring over a distance.
/// Figures of eight boxes, or eight emitters, lie side by side, each kind together: <see cref="ScreenSight"/> asks eight at once.
/// </summary>
internal sealed class ScreenTree
{
    /// <summary>So many boxes are in one, and emitters in the smallest.</summary>
    public const int Lanes = 8;

    /// <summary>Kinds of figures of a box: edges (X, Y, Z at the least, then at the greatest), what <see cref="ScreenField.OverDistance"/>
    /// and <see cref="ScreenField.OverDistanceSquared"/> say at the greatest, greatest height over ground and over sea level, least ground.
    /// NaN where one of its emitters has no heights.</summary>
    public const int BoxFigures = 11;

    /// <summary>Kinds of figures of an emitter: place, the two of <see cref="ScreenField"/>, height, ground. The place is off by less than
    /// half a metre, the rest by less than one part in a million.</summary>
    public const int SeatFigures = 7;

    /// <summary>Over a run of a field's emitters.</summary>
    /// <param name="field">The field.</param>
    /// <param name="from">First emitter.</param>
    /// <param name="to">One behind the last.</param>
    /// <param name="nearSquared">What <see cref="NearSquared"/> is of emitters that these are a part of; null to go by these.</param>
    public ScreenTree(ScreenField field, int from, int to, float? nearSquared = null)
    {
        Members = [.. Enumerable.Range(from, to - from)];
        EarthPoint[] points = [.. Members.Select(i => field.Sites[i].Point)];
        List<(int From, int To, int Half)> cuts = ScreenCuts.Of(points, Members);
        (Frequency, Seats) = (new int[Members.Length], new float[(Members.Length + Lanes - 1) / Lanes * Lanes * SeatFigures]);
        for (int k = 0; k < Members.Length; k++)
        {
            Seat(field, k);
        }

        (Boxes, Below, Count) = Widened(cuts);
        (FrequencyFrom, FrequencyTo) = (field.FrequencyHz[from], field.FrequencyHz[to - 1]);
        (FirstFrequency, LastFrequency) = (field.FrequencyIndex[from], field.FrequencyIndex[to - 1]);
        double wave = PhysicalConstants.SpeedOfLight / FrequencyFrom;
        NearSquared = nearSquared ?? (float)(1.05 * wave * wave);
    }

    /// <summary>The emitters, as indices of the field, in the order of the boxes.</summary>
    public int[] Members { get; }

    /// <summary>Index of each one's frequency.</summary>
    public int[] Frequency { get; }

    /// <summary>Their figures, eight emitters after eight.</summary>
    public float[] Seats { get; }

    /// <summary>The figures of boxes, those of the eight in one after another; those in the whole first.</summary>
    public float[] Boxes { get; }

    /// <summary>Per box: where those in it stand, as a number of eight; of a smallest one the complement of where its emitters
    /// do.</summary>
    public int[] Below { get; }

    /// <summary>How many boxes there are in each eight.</summary>
    public byte[] Count { get; }

    public long FrequencyFrom { get; }

    public long FrequencyTo { get; }

    /// <summary>The square of the longest wavelength, and a little more: what may be nearer than its own.</summary>
    public float NearSquared { get; }

    /// <summary>Index of the lowest of its frequencies.</summary>
    public int FirstFrequency { get; }

    /// <summary>Index of the highest of its frequencies.</summary>
    public int LastFrequency { get; }

    /// <summary>Those of eight that there are, as bits.</summary>
    public uint BoxesIn(int eight) => (1u << Count[eight]) - 1;

    /// <summary>Those emitters of eight that there are, as bits.</summary>
    public uint SeatsIn(int eight) => (1u << Math.Min(Lanes, Members.Length - (eight * Lanes))) - 1;

    private void Seat(ScreenField field, int k)
    {
        ref readonly ScreenField.Site site = ref field.Sites[Members[k]];
        int at = (k / Lanes * Lanes * SeatFigures) + (k % Lanes);
        ReadOnlySpan<float> figures =
        [
            (float)site.Point.X, (float)site.Point.Y, (float)site.Point.Z, (float)field.OverDistance[Members[k]],
            (float)field.OverDistanceSquared[Members[k]], site.HeightM, site.GroundM,
        ];
        for (int n = 0; n < SeatFigures; n++)
        {
            Seats[at + (n * Lanes)] = figures[n];
        }

        Frequency[k] = field.FrequencyIndex[Members[k]];
    }

    /// <summary>Boxes of eight from boxes of two.</summary>
    private (float[] Boxes, int[] Below, byte[] Count) Widened(List<(int From, int To, int Half)> cuts)
    {
        float[] bounds = new float[cuts.Count * BoxFigures];
        for (int i = cuts.Count - 1; i >= 0; i--)
        {
            // Halves stand behind their whole: from the end on, both are known.
            Span<float> own = bounds.AsSpan(i * BoxFigures, BoxFigures);
            if (cuts[i].Half < 0)
            {
                Gather(cuts[i].From, cuts[i].To, own);
            }
            else
            {
                Span<float> halves = bounds.AsSpan(cuts[i].Half * BoxFigures, 2 * BoxFigures);
                halves[..BoxFigures].CopyTo(own);
                Join(own, halves[BoxFigures..]);
            }
        }

        List<int> wholes = [0];
        List<int> below = [];
        List<byte> count = [];
        List<float> boxes = [];
        for (int w = 0; w < wholes.Count; w++)
        {
            List<int> parts = Parts(cuts, wholes[w]);
            count.Add((byte)parts.Count);
            boxes.AddRange(new float[Lanes * BoxFigures]);
            for (int k = 0; k < Lanes; k++)
            {
                int part = k < parts.Count ? parts[k] : -1;
                below.Add(part < 0 ? 0 : cuts[part].Half < 0 ? ~(cuts[part].From / Lanes) : wholes.Count);
                if (part >= 0 && cuts[part].Half >= 0)
                {
                    wholes.Add(part);
                }

                for (int n = 0; part >= 0 && n < BoxFigures; n++)
                {
                    boxes[(((w * BoxFigures) + n) * Lanes) + k] = bounds[(part * BoxFigures) + n];
                }
            }
        }

        return ([.. boxes], [.. below], [.. count]);
    }

    /// <summary>What cuts down to the next unit make of a box: at most eight.</summary>
    private static List<int> Parts(List<(int From, int To, int Half)> cuts, int whole)
    {
        int unit = ScreenCuts.Unit(cuts[whole].To - cuts[whole].From);
        List<int> parts = [whole];
        for (int k = 0; k < parts.Count;)
        {
            (int from, int to, int half) = cuts[parts[k]];
            if (to - from <= unit)
            {
                k++;
                continue;
            }

            parts[k] = half;
            parts.Insert(k + 1, half + 1);
        }

        return parts;
    }

    /// <summary>Forms the bounds over the emitters of a box.</summary>
    private void Gather(int from, int to, Span<float> box)
    {
        Span<float> own = stackalloc float[BoxFigures];
        for (int k = from; k < to; k++)
        {
            ReadOnlySpan<float> seat = Seats.AsSpan(k / Lanes * Lanes * SeatFigures);
            int at = k % Lanes;
            (float height, float ground) = (seat[(5 * Lanes) + at], seat[(6 * Lanes) + at]);
            for (int axis = 0; axis < 3; axis++)
            {
                own[axis] = own[axis + 3] = seat[(axis * Lanes) + at];
            }

            (own[6], own[7]) = (seat[(3 * Lanes) + at], seat[(4 * Lanes) + at]);
            (own[8], own[9], own[10]) = (height, height + ground, ground);
            if (k == from)
            {
                own.CopyTo(box);
            }
            else
            {
                Join(box, own);
            }
        }
    }

    private static void Join(Span<float> box, ReadOnlySpan<float> other)
    {
        for (int n = 0; n < BoxFigures; n++)
        {
            // NaN wins in both: a box with one emitter of unknown height is bounded by free space alone.
            box[n] = n is < 3 or 10 ? MathF.Min(box[n], other[n]) : MathF.Max(box[n], other[n]);
        }
    }
}
