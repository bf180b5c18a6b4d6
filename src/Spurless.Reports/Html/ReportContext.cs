namespace Spurless.Reports.Html;

/// <summary>What a report says of its own making.</summary>
public sealed record ReportContext
{
    /// <summary>When it was made, with the offset of the place.</summary>
    public required DateTimeOffset GeneratedAt { get; init; }

    /// <summary>Version of the program.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The options that were in force, as they were written on the command line; may be empty.</summary>
    public IReadOnlyList<string> Options { get; init; } = [];

    /// <summary>A line under the program's name, such as that the site is invented; null for none.</summary>
    public string? Notice { get; init; }

    /// <summary>A context for now.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="programVersion">Version of the program.</param>
    /// <param name="options">The options as they were written.</param>
    public static ReportContext Now(TimeProvider time, string programVersion, IReadOnlyList<string>? options = null) => new()
    {
        GeneratedAt = time.GetLocalNow(),
        ProgramVersion = programVersion,
        Options = options ?? [],
    };
}
