namespace Spurless.Radio.Terrain;

/// <summary>What is wrong with a profile; <c>default</c> is nothing.</summary>
/// <param name="Point">The point, counted from 1; null where the whole is meant.</param>
/// <param name="Text">What was found; what to write instead.</param>
public readonly record struct ProfileProblem(int? Point, string? Text)
{
    /// <summary>Whether nothing is wrong.</summary>
    public bool IsNone => Text is null;
}
