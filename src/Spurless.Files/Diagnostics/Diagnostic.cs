namespace Spurless.Files.Diagnostics;

/// <summary>How much a <see cref="Diagnostic"/> weighs.</summary>
public enum Severity
{
    /// <summary>The document cannot be used as it stands.</summary>
    Error,

    /// <summary>The document is used, but something in it is probably not what was meant.</summary>
    Warning,
}

/// <summary>
/// One thing that is wrong with a text of the user's, at one place.
/// Printed it reads <c>file:line:column: what; what to write instead</c>, of a file that has no lines <c>file: what; what to do</c>.
/// </summary>
/// <param name="Severity">Whether the document can still be used.</param>
/// <param name="File">The file's name as the user gave it.</param>
/// <param name="Line">Line, from 1; 0 where the finding is about the whole file, -1 for a file that has no lines (a recording).</param>
/// <param name="Column">Column in characters, from 1; 0 where the finding is about the file as a whole.</param>
/// <param name="What">What was found, without a full stop.</param>
/// <param name="Remedy">What to write instead, without a full stop.</param>
public sealed record Diagnostic(Severity Severity, string File, int Line, int Column, string What, string Remedy)
{
    /// <summary>How many findings beyond those kept this one stands for; 0 for a finding of its own.</summary>
    public int More { get; init; }

    /// <summary>The finding on one line, as commands print it.</summary>
    public override string ToString() =>
        $"{(Line < 0 ? File : $"{File}:{Line}:{Column}")}: {(Severity == Severity.Warning ? "warning: " : "")}{What}; {Remedy}";
}
