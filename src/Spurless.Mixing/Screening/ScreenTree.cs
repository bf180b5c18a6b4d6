namespace Spurless.Mixing.Screening;

/// <summary>The emitters of one band in boxes within boxes. Each box knows the most that any emitter in it can bring over a
/// distance.</summary>
internal sealed class ScreenTree
{
    private const int LeafSize = 12;

    /// <summary>A box: its edges, its emitters as places in the list of members, its halves (-1 for none), and bounds over its
    /// emitters.</summary>
    internal struct Node
    {
        public double MinX, MinY, MinZ, MaxX, MaxY, MaxZ;
        public int From, To, Left, Right;

        /// <summary>Greatest EIRP less 20 lg f, and greatest EIRP.</summary>
        public double OverFrequency, Eirp;

        /// <summary>Greatest height over ground and over sea level, least ground; NaN where one of them has none.</summary>
        public float Height, Top, LeastGround;
    }

    /// <summary>Over a run of a field's emitters.</summary>
    public ScreenTree(ScreenField field, int from, int to)
    {
        Members = [.. Enumerable.Range(from, to - from)];
        EarthPoint[] points = [.. Members.Select(i => field.Position[i])];
        List<(int From, int To, int Left, int Right)> cuts = Cut(points, Members);
        Nodes = new Node[cuts.Count];
        // Halves stand behind their whole: from the end on, both are known.
        for (int i = cuts.Count - 1; i >= 0; i--)
        {
            ref Node node = ref Nodes[i];
            (node.From, node.To, node.Left, node.Right) = cuts[i];
            if (node.Left < 0)
            {
                Gather(field, Members, ref node);
            }
            else
            {
                Join(ref node, Nodes[node.Left], Nodes[node.Right]);
            }
        }

        (FrequencyFrom, FrequencyTo) = (field.FrequencyHz[from], field.FrequencyHz[to - 1]);
    }

    /// <summary>The emitters, as indices of the field, in the order of the boxes.</summary>
    public int[] Members { get; }

    /// <summary>The boxes, the whole first.</summary>
    public Node[] Nodes { get; }

    public long FrequencyFrom { get; }

    public long FrequencyTo { get; }

    /// <summary>Cuts points in halves, along the axis in which they are widest, until few are left; orders them so.</summary>
    private static List<(int From, int To, int Left, int Right)> Cut(EarthPoint[] points, int[] items)
    {
        List<(int From, int To, int Left, int Right)> nodes = [(0, points.Length, -1, -1)];
        for (int i = 0; i < nodes.Count; i++)
        {
            (int from, int to, _, _) = nodes[i];
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
            nodes[i] = (from, to, nodes.Count, nodes.Count + 1);
            nodes.Add((from, middle, -1, -1));
            nodes.Add((middle, to, -1, -1));
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
    internal static void Gather(ScreenField field, int[] members, ref Node node)
    {
        (node.MinX, node.MinY, node.MinZ) = (double.MaxValue, double.MaxValue, double.MaxValue);
        (node.MaxX, node.MaxY, node.MaxZ) = (double.MinValue, double.MinValue, double.MinValue);
        (node.OverFrequency, node.Eirp) = (double.NegativeInfinity, double.NegativeInfinity);
        (node.Height, node.Top, node.LeastGround) = (float.NegativeInfinity, float.NegativeInfinity, float.PositiveInfinity);
        for (int k = node.From; k < node.To; k++)
        {
            int i = members[k];
            EarthPoint p = field.Position[i];
            (node.MinX, node.MinY, node.MinZ) = (Math.Min(node.MinX, p.X), Math.Min(node.MinY, p.Y), Math.Min(node.MinZ, p.Z));
            (node.MaxX, node.MaxY, node.MaxZ) = (Math.Max(node.MaxX, p.X), Math.Max(node.MaxY, p.Y), Math.Max(node.MaxZ, p.Z));
            node.Eirp = Math.Max(node.Eirp, field.EirpDbm[i]);
            node.OverFrequency = Math.Max(node.OverFrequency, field.EirpDbm[i] - (20 * Math.Log10(field.FrequencyHz[i])));

            // NaN wins in all of these: a box with one emitter of unknown height is bounded by free space alone.
            (node.Height, node.Top) = (MathF.Max(node.Height, field.HeightM[i]), MathF.Max(node.Top, field.HeightM[i] + field.GroundM[i]));
            node.LeastGround = MathF.Min(node.LeastGround, field.GroundM[i]);
        }
    }

    private static void Join(ref Node node, in Node a, in Node b)
    {
        (node.MinX, node.MinY, node.MinZ) = (Math.Min(a.MinX, b.MinX), Math.Min(a.MinY, b.MinY), Math.Min(a.MinZ, b.MinZ));
        (node.MaxX, node.MaxY, node.MaxZ) = (Math.Max(a.MaxX, b.MaxX), Math.Max(a.MaxY, b.MaxY), Math.Max(a.MaxZ, b.MaxZ));
        (node.OverFrequency, node.Eirp) = (Math.Max(a.OverFrequency, b.OverFrequency), Math.Max(a.Eirp, b.Eirp));
        (node.Height, node.Top, node.LeastGround) =
            (MathF.Max(a.Height, b.Height), MathF.Max(a.Top, b.Top), MathF.Min(a.LeastGround, b.LeastGround));
    }
}
