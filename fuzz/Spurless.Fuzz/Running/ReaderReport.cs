namespace Spurless.Fuzz.Running;

/// <summary>What a run of one reader came to.</summary>
internal sealed record ReaderReport
{
    /// <summary>The reader.</summary>
    public required string Reader { get; init; }

    /// <summary>Inputs that were read, examples included.</summary>
    public long Inputs { get; init; }

    /// <summary>Inputs that took a new path: a new edge, or an edge in another order of magnitude.</summary>
    public long Paths { get; init; }

    /// <summary>Edges taken; 0 where the code is not instrumented.</summary>
    public int Edges { get; init; }

    /// <summary>Processor time of the whole run, in seconds.</summary>
    public double ProcessorS { get; init; }

    /// <summary>Processor time of the slowest input, in milliseconds.</summary>
    public double SlowestMs { get; init; }

    /// <summary>Most that was allocated for one input beyond ten times its size, in bytes: a bound above of what it held at once.</summary>
    public long MostAllocated { get; init; }

    /// <summary>Largest working set of the process, in bytes: runtime, inputs kept and all.</summary>
    public long Peak { get; init; }

    /// <summary>Inputs that left an exception, broke a rule, filled the memory or ended the process.</summary>
    public int Crashes { get; init; }

    /// <summary>Inputs that took more than the limit of processor time.</summary>
    public int Hangs { get; init; }

    /// <summary>The first words of what was found, and where the inputs lie.</summary>
    public IReadOnlyList<string> Found { get; init; } = [];

    /// <summary>Whether nothing was found.</summary>
    public bool IsClean => Crashes == 0 && Hangs == 0;

    /// <summary>Two runs of the same reader as one.</summary>
    public ReaderReport Plus(ReaderReport other) => this with
    {
        Inputs = Inputs + other.Inputs,
        Paths = Paths + other.Paths,
        Edges = Math.Max(Edges, other.Edges),
        ProcessorS = ProcessorS + other.ProcessorS,
        SlowestMs = Math.Max(SlowestMs, other.SlowestMs),
        MostAllocated = Math.Max(MostAllocated, other.MostAllocated),
        Peak = Math.Max(Peak, other.Peak),
        Crashes = Crashes + other.Crashes,
        Hangs = Hangs + other.Hangs,
        Found = [.. Found, .. other.Found],
    };
}
