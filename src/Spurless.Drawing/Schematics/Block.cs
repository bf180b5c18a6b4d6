using Spurless.Circuits.Parts;

namespace Spurless.Drawing.Schematics;

/// <summary>A network between two nodes, made of one part, of blocks one after another, or of blocks side by side.</summary>
internal abstract record Block
{
    /// <summary>Its parts, in drawing order.</summary>
    public abstract IEnumerable<Part> Parts { get; }

    /// <summary>How many parts stand in the longest chain through it.</summary>
    public abstract int Length { get; }

    /// <summary>How many chains stand side by side at most.</summary>
    public abstract int Breadth { get; }

    /// <summary>Whether what hangs at its lower end is wider than one part.</summary>
    public virtual bool EndsWide => false;

    /// <summary>How wide it is drawn along a line.</summary>
    /// <param name="part">Width of one part.</param>
    public virtual double WidthAcross(double part) => part;

    /// <summary>The same seen from the other end.</summary>
    public abstract Block Reversed();

    /// <summary>One after another, chains of chains made one.</summary>
    public static Block InSeries(Block a, Block b) =>
        new SeriesBlock([.. a is SeriesBlock x ? x.Items : [a], .. b is SeriesBlock y ? y.Items : [b]]);

    /// <summary>Side by side, bundles of bundles made one.</summary>
    public static Block InParallel(Block a, Block b) =>
        new ParallelBlock([.. a is ParallelBlock x ? x.Items : [a], .. b is ParallelBlock y ? y.Items : [b]]);
}

/// <summary>One part.</summary>
internal sealed record PartBlock(Part Part) : Block
{
    public override IEnumerable<Part> Parts => [Part];

    public override int Length => 1;

    public override int Breadth => 1;

    public override Block Reversed() => this;
}

/// <summary>Blocks one after another.</summary>
internal sealed record SeriesBlock(IReadOnlyList<Block> Items) : Block
{
    public override IEnumerable<Part> Parts => Items.SelectMany(static i => i.Parts);

    public override int Length => Items.Sum(static i => i.Length);

    public override int Breadth => Items.Max(static i => i.Breadth);

    public override bool EndsWide => Items[^1].EndsWide;

    public override double WidthAcross(double part) => Items.Sum(i => i.WidthAcross(part));

    public override Block Reversed() => new SeriesBlock([.. Items.Reverse().Select(static i => i.Reversed())]);
}

/// <summary>Blocks side by side.</summary>
internal sealed record ParallelBlock(IReadOnlyList<Block> Items) : Block
{
    public override IEnumerable<Part> Parts => Items.SelectMany(static i => i.Parts);

    public override int Length => Items.Max(static i => i.Length);

    public override int Breadth => Items.Sum(static i => i.Breadth);

    public override bool EndsWide => true;

    public override double WidthAcross(double part) => Items.Max(i => i.WidthAcross(part)) + 12;

    public override Block Reversed() => new ParallelBlock([.. Items.Select(static i => i.Reversed())]);
}
