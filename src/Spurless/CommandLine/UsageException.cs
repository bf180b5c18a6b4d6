namespace Spurless.CommandLine;

/// <summary>A command line that reads well but cannot be carried out, such as an <c>--out</c> in a folder that is not there.</summary>
/// <param name="findings">Each: what was found; what to write instead.</param>
internal sealed class UsageException(params IReadOnlyList<string> findings) : Exception(string.Join(". ", findings))
{
    /// <summary>All that is wrong.</summary>
    public IReadOnlyList<string> Findings => findings;
}
