namespace Spurless.Fuzz;

/// <summary>The program did something that it must never do. What else leaves a reader as an exception counts the same.</summary>
/// <param name="what">What it did.</param>
internal sealed class Violation(string what) : Exception(what);
