namespace Spurless.Sites.Terrain;

/// <summary>An elevation file that cannot be used.</summary>
/// <param name="File">Its name within the folder.</param>
/// <param name="Text">What was found; what to do.</param>
public sealed record ElevationProblem(string File, string Text);
