using Spurless.Numerics;

namespace Spurless.Mixing.Screening;

/// <summary>The emitters of one band in boxes within boxes. Each box knows the most that any emitter in it can bring over a
/// distance.</summary>
internal sealed class ScreenTree
{
    private const int LeafSize = 12;

    /// <summary>A box: its edges, its emitters as places in the list of members, the first of its halves (-1 for none; the other stands
    /// behind it), and bounds over its emitters.</summary>
    internal struct Node
    {
        public float MinX, MinY, MinZ, MaxX, MaxY, MaxZ;
        public int From, To, Half;

        /// <summary>Greatest that <see cref="ScreenField.OverDistance"/> and <see cref="ScreenField.OverDistanceSquared"/> say.</summary>
        public float OverDistance, OverDistanceSquared;

        /// <summary>Greatest height over ground and over sea level, least ground; NaN where one of them has none.</summary>
        public float Height, Top, LeastGround;
    }

    /// <summary>What a bound needs of an emitter, in half a line of the processor's store: most emitters are asked for no more. The place
    /// is off by less than half a metre, the rest by less than one part in a million.</summary>
    internal struct Seat
    {
        public float X, Y, Z, OverDistance, OverDistanceSquared, Height, Ground;
        public int Frequency;
    }

    /// <summary>Over a run of a field's emitters.</summary>
    public ScreenTree(ScreenField field, int from, int to)
    {
        Members = [.. Enumerable.Range(from, to - from)];
        EarthPoint[] points = [.. Members.Select(i => field.Sites[i].Point)];
        List<(int From, int To, int Half)> cuts = Cut(points, Members);
        Seats = [.. Members.Select(i => SeatOf(field, i))];
        Nodes = new Node[cuts.Count];
        // Halves stand behind their whole: from the end on, both are known.
        for (int i = cuts.Count - 1; i >= 0; i--)
        {
            ref Node node = ref Nodes[i];
            (node.From, node.To, node.Half) = cuts[i];
            if (node.Half < 0)
            {
                Gather(Seats, ref node);
            }
            else
            {
                Join(ref node, Nodes[node.Half], Nodes[node.Half + 1]);
            }
        }

        (FrequencyFrom, FrequencyTo) = (field.FrequencyHz[from], field.FrequencyHz[to - 1]);
        (FirstFrequency, LastFrequency) = (field.FrequencyIndex[from], field.FrequencyIndex[to - 1]);
        double wave = PhysicalConstants.SpeedOfLight / FrequencyFrom;
        NearSquared = 1.05 * wave * wave;
    }

    /// <summary>The emitters, as indices of the field, in the order of the boxes.</summary>
    public int[] Members { get; }

    /// <summary>What is asked of them first, in the same order.</summary>
    public Seat[] Seats { get; }

    /// <summary>The boxes, the whole first.</summary>
    public Node[] Nodes { get; }

    public long FrequencyFrom { get; }

    public long FrequencyTo { get; }

    /// <summary>The square of the longest wavelength, and a little more: what may be nearer than its own.</summary>
    public double NearSquared { get; }

    /// <summary>Index of the lowest of its frequencies.</summary>
    public int FirstFrequency { get; }

    /// <summary>Index of the highest of its frequencies.</summary>
    public int LastFrequency { get; }

    private static Seat SeatOf(ScreenField field, int i) => new()
    {
        X = (float)field.Sites[i].Point.X,
        Y = (float)field.Sites[i].Point.Y,
        Z = (float)field.Sites[i].Point.Z,
        OverDistance = (float)field.OverDistance[i],
        OverDistanceSquared = (float)field.OverDistanceSquared[i],
        Height = field.Sites[i].HeightM,
        Ground = field.Sites[i].GroundM,
        Frequency = field.FrequencyIndex[i],
    };

    /// <summary>Cuts points in halves, along the axis in which they are widest, until few are left; orders them so.</summary>
    private static List<(int From, int To, int Half)> Cut(EarthPoint[] points, int[] items)
    {
        List<(int From, int To, int Half)> nodes = [(0, points.Length, -1)];
        for (int i = 0; i < nodes.Count; i++)
        {
            (int from, int to, _) = nodes[i];
            if (to - from <= LeafSize)
            {
                continue;
            }

            int axis = Widest(points.AsSpan(from, to - from), out double width);
            if (width == 0)
            {
                // All on one mast: nothing left to cut.
                continue;
            }

            int count = to - from;
            double[] keys = new double[count];
            int[] order = new int[count];
            for (int k = 0; k < count; k++)
            {
                ref readonly EarthPoint point = ref points[from + k];
                (keys[k], order[k]) = (axis == 0 ? point.X : axis == 1 ? point.Y : point.Z, k);
            }

            Array.Sort(keys, order);
            EarthPoint[] sortedPoints = new EarthPoint[count];
            int[] sortedItems = new int[count];
            for (int k = 0; k < count; k++)
            {
                (sortedPoints[k], sortedItems[k]) = (points[from + order[k]], items[from + order[k]]);
            }

            sortedPoints.CopyTo(points, from);
            sortedItems.CopyTo(items, from);
            int middle = (from + to) / 2;
            nodes[i] = (from, to, nodes.Count);
            nodes.Add((from, middle, -1));
            nodes.Add((middle, to, -1));
        }

        return nodes;
    }

    private static int Widest(ReadOnlySpan<EarthPoint> points, out double width)
    {
        (double minX, double maxX, double minY, double maxY, double minZ, double maxZ) =
            (double.MaxValue, double.MinValue, double.MaxValue, double.MinValue, double.MaxValue, double.MinValue);
        foreach (ref readonly EarthPoint p in points)
        {
            (minX, maxX) = (Math.Min(minX, p.X), Math.Max(maxX, p.X));
            (minY, maxY) = (Math.Min(minY, p.Y), Math.Max(maxY, p.Y));
            (minZ, maxZ) = (Math.Min(minZ, p.Z), Math.Max(maxZ, p.Z));
        }

        (double x, double y, double z) = (maxX - minX, maxY - minY, maxZ - minZ);
        width = Math.Max(x, Math.Max(y, z));
        return width == x ? 0 : width == y ? 1 : 2;
    }

    /// <summary>Forms the bounds over the emitters of a box.</summary>
    private static void Gather(Seat[] seats, ref Node node)
    {
        (node.MinX, node.MinY, node.MinZ) = (float.MaxValue, float.MaxValue, float.MaxValue);
        (node.MaxX, node.MaxY, node.MaxZ) = (float.MinValue, float.MinValue, float.MinValue);
        (node.Height, node.Top, node.LeastGround) = (float.NegativeInfinity, float.NegativeInfinity, float.PositiveInfinity);
        for (int k = node.From; k < node.To; k++)
        {
            ref readonly Seat s = ref seats[k];
            (node.MinX, node.MinY, node.MinZ) = (MathF.Min(node.MinX, s.X), MathF.Min(node.MinY, s.Y), MathF.Min(node.MinZ, s.Z));
            (node.MaxX, node.MaxY, node.MaxZ) = (MathF.Max(node.MaxX, s.X), MathF.Max(node.MaxY, s.Y), MathF.Max(node.MaxZ, s.Z));
            node.OverDistance = MathF.Max(node.OverDistance, s.OverDistance);
            node.OverDistanceSquared = MathF.Max(node.OverDistanceSquared, s.OverDistanceSquared);

            // NaN wins in all of these: a box with one emitter of unknown height is bounded by free space alone.
            (node.Height, node.Top) = (MathF.Max(node.Height, s.Height), MathF.Max(node.Top, s.Height + s.Ground));
            node.LeastGround = MathF.Min(node.LeastGround, s.Ground);
        }
    }

    private static void Join(ref Node node, in Node a, in Node b)
    {
        (node.MinX, node.MinY, node.MinZ) = (MathF.Min(a.MinX, b.MinX), MathF.Min(a.MinY, b.MinY), MathF.Min(a.MinZ, b.MinZ));
        (node.MaxX, node.MaxY, node.MaxZ) = (MathF.Max(a.MaxX, b.MaxX), MathF.Max(a.MaxY, b.MaxY), MathF.Max(a.MaxZ, b.MaxZ));
        (node.OverDistance, node.OverDistanceSquared) =
            (MathF.Max(a.OverDistance, b.OverDistance), MathF.Max(a.OverDistanceSquared, b.OverDistanceSquared));
        (node.Height, node.Top, node.LeastGround) =
            (MathF.Max(a.Height, b.Height), MathF.Max(a.Top, b.Top), MathF.Min(a.LeastGround, b.LeastGround));
    }
}
