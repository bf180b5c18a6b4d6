using Spurless.Files.Diagnostics;

namespace Spurless.Circuits.Touchstone;

/// <summary>The findings of one file: where they go, and no more of them than a person reads.</summary>
internal sealed class Findings(DiagnosticBag bag, string file)
{
    private const int Limit = 60;
    private readonly HashSet<string> _once = [];

    public int Errors { get; private set; }

    public bool IsFull => Errors >= Limit;

    public void Error(int line, int column, string what, string remedy)
    {
        if (IsFull)
        {
            return;
        }

        bag.Error(file, line, column, what, remedy);
        if (++Errors == Limit)
        {
            bag.Error(file, line, column, $"{Limit} errors so far, the rest of the file was not read", "correct these and read it again");
        }
    }

    public void Warning(int line, int column, string what, string remedy) => bag.Warning(file, line, column, what, remedy);

    /// <summary>A warning that is given for its first place only.</summary>
    public void WarnOnce(string key, int line, int column, string what, string remedy)
    {
        if (_once.Add(key))
        {
            Warning(line, column, what, remedy);
        }
    }
}
