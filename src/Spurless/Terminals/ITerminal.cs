namespace Spurless.Terminals;

/// <summary>
/// Where a command writes, and what it may know of the place. Data go to <see cref="OutputStream"/>, everything else to
/// <see cref="Error"/>.
/// </summary>
internal interface ITerminal
{
    /// <summary>Standard input.</summary>
    Stream InputStream { get; }

    /// <summary>Standard output.</summary>
    Stream OutputStream { get; }

    /// <summary>Standard error as text; not buffered.</summary>
    TextWriter Error { get; }

    /// <summary>Whether a person sees the output, not a file or a pipe.</summary>
    bool OutputIsTerminal { get; }

    /// <summary>Whether a person sees the messages, not a file or a pipe.</summary>
    bool ErrorIsTerminal { get; }

    /// <summary>A variable of the environment; null where it is not set or empty.</summary>
    string? Variable(string name);
}
