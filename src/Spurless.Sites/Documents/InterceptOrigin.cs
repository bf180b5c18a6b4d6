namespace Spurless.Sites.Documents;

/// <summary>Where a receiver's intercepts are from.</summary>
public enum InterceptOrigin
{
    /// <summary>A data sheet or a guess.</summary>
    DataSheet,

    /// <summary>Two generators on a bench.</summary>
    Bench,

    /// <summary>A mixture at a known site that was identified and read.</summary>
    OnTheAir,
}
