namespace Spurless.Sites.Levels;

/// <summary>How an emitter's level came to be known.</summary>
public enum LevelOrigin
{
    /// <summary>Measured at the site.</summary>
    Measured,

    /// <summary>Computed from power, gains and a path.</summary>
    Predicted,

    /// <summary>Neither a level nor what it could be computed from was given.</summary>
    Unknown,
}
