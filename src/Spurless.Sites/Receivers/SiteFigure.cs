using Spurless.Mixing.Measurements;

namespace Spurless.Sites.Receivers;

/// <summary>What became of a key of a receiver in a site file.</summary>
/// <param name="Key">The key, as <c>iip3</c>.</param>
/// <param name="Was">What stood there; null for nothing.</param>
/// <param name="Now">What stands there now; null where the key was taken away.</param>
/// <param name="Figure">The figure that was written, before it was rounded; null for a file's name.</param>
/// <param name="Intercept">The intercept, where it is one.</param>
public sealed record SiteFigure(string Key, string? Was, string? Now, MeasuredFigure? Figure, InterceptFinding? Intercept);

/// <summary>A site file's text with a receiver's figures in it.</summary>
/// <param name="Text">The new text; the old one where nothing was to be changed.</param>
/// <param name="Figures">What became of the keys, in the order in which they were written.</param>
public sealed record SiteWithFigures(string Text, IReadOnlyList<SiteFigure> Figures);
