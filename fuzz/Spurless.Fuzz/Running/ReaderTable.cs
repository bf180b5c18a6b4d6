using System.Globalization;

namespace Spurless.Fuzz.Running;

/// <summary>The table of a run over readers, and what its columns are.</summary>
internal static class ReaderTable
{
    private static readonly int[] Widths = [-16, 11, 7, 7, 7, 11, 13, 8, 8, 6];

    /// <summary>The head.</summary>
    public static string Head =>
        Line("reader", "inputs", "paths", "edges", "CPU s", "slowest ms", "allocated MB", "peak MB", "crashes", "hangs");

    /// <summary>What the columns are.</summary>
    public static string Legend => string.Create(CultureInfo.InvariantCulture, $"""
        paths: inputs that took an edge of the code, or an order of magnitude of passes over one, that none before took.
        slowest: processor time of one input; over {ReaderRun.HangS:0} s it counts as a hang.
        allocated: most that one input allocated beyond ten times its size, freed again or not. The whole heap was limited to
        {ReaderProcess.HeapBytes / 1e6:0} MB, so that an input which held more counts as a crash. peak: the process with the runtime.
        """);

    /// <summary>A row.</summary>
    public static string Row(ReaderReport r) => Line(r.Reader, N(r.Inputs, "#,0"), N(r.Paths, "0"), N(r.Edges, "0"), N(r.ProcessorS, "0"),
        N(r.SlowestMs, "0"), N(r.MostAllocated / 1e6, "0.0"), N(r.Peak / 1e6, "0"), N(r.Crashes, "0"), N(r.Hangs, "0"));

    private static string Line(params string[] cells) =>
        string.Join(' ', cells.Zip(Widths, static (c, w) => w < 0 ? c.PadRight(-w) : c.PadLeft(w)));

    private static string N(double number, string form) => number.ToString(form, CultureInfo.InvariantCulture);
}
