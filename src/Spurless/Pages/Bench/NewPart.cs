using Spurless.Workbench.Bench;

namespace Spurless.Pages.Bench;

/// <summary>A part that was asked for.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Form">Its kind.</param>
/// <param name="From">Its first node.</param>
/// <param name="To">Its second node.</param>
/// <param name="Values">What was typed.</param>
public sealed record NewPart(string Name, PartForm Form, string From, string To, IReadOnlyList<(PartKey Key, string Typed)> Values);
