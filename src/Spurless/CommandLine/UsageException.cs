namespace Spurless.CommandLine;

/// <summary>A command line that reads well but cannot be carried out, such as an <c>--out</c> in a folder that is not there.</summary>
/// <param name="what">What was found; what to write instead.</param>
internal sealed class UsageException(string what) : Exception(what);
