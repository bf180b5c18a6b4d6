using BenchmarkDotNet.Running;

namespace Spurless.Bench;

/// <summary>The long way: BenchmarkDotNet on the benchmark classes of this assembly.</summary>
internal static class FullMode
{
    public static int Run(string[] args)
    {
        List<string> others = [.. args.Where(static a => a != "--full")];
        int root = others.IndexOf("--root");
        if (root >= 0)
        {
            others.RemoveRange(root, Math.Min(2, others.Count - root));
        }

        BenchmarkSwitcher.FromAssembly(typeof(FullMode).Assembly).Run([.. others]);
        return 0;
    }
}
