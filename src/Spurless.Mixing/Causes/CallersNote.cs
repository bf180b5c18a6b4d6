namespace Spurless.Mixing.Causes;

/// <summary>
/// What a caller's own model assumed: a path, an antenna, a coupling. The search carries it and knows nothing of it; the caller derives
/// his notes from it and whoever prints them makes the words. Equal where the figures are.
/// </summary>
public abstract record CallersNote;
