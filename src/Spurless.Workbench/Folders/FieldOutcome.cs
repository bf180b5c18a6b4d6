namespace Spurless.Workbench.Folders;

/// <summary>What became of an edit.</summary>
public enum FieldResult
{
    /// <summary>It is written, or stood there already.</summary>
    Saved,

    /// <summary>Someone else changed the same thing meanwhile; nothing was written.</summary>
    Conflict,

    /// <summary>It could not be written; nothing was.</summary>
    Refused,
}

/// <summary>How an edit ended.</summary>
/// <param name="Result">What became of it.</param>
/// <param name="There">In a conflict, the value that stands in the file now; null where the field is gone.</param>
/// <param name="Problem">Where it was refused, why: 'what; what to do instead'.</param>
public sealed record FieldOutcome(FieldResult Result, string? There = null, string? Problem = null)
{
    /// <summary>Whether it is written.</summary>
    public bool Ok => Result == FieldResult.Saved;
}
