using Spurless.Circuits.Parts;

namespace Spurless.Sites.Tolerances;

/// <summary>A tolerance for all parts that state none.</summary>
/// <param name="Tolerance">The tolerance.</param>
/// <param name="Text">As it was written.</param>
public readonly record struct OtherTolerance(PartTolerance Tolerance, string Text);
