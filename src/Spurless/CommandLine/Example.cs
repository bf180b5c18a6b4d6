namespace Spurless.CommandLine;

/// <summary>A worked example of a command's help, which a test runs in the folder that holds <c>demo/</c>.</summary>
/// <param name="Line">What one types after <c>spurless</c>.</param>
/// <param name="Says">What comes of it.</param>
internal sealed record Example(string Line, string Says)
{
    /// <summary>Whether it runs until it is stopped; a test then stops it once it has told its address.</summary>
    public bool RunsOn { get; init; }
}
