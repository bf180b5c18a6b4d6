namespace Spurless.Bench;

/// <summary>One figure to reach: what is measured, against which goal, and how.</summary>
/// <param name="Subject">Heading it stands under, such as 'Product search'.</param>
/// <param name="Name">What is measured.</param>
/// <param name="Goal">The goal in words, or 'guide' where none binds.</param>
/// <param name="Measure">Does the measurement. In quick mode it should take few seconds.</param>
public sealed record BenchRow(string Subject, string Name, string Goal, Func<BenchContext, BenchResult> Measure);

/// <summary>What a row's measurement may use.</summary>
/// <param name="Quick">Whether to be quick.</param>
/// <param name="Log">Where to say what is being done.</param>
public sealed record BenchContext(bool Quick, TextWriter Log);

/// <summary>What came out.</summary>
/// <param name="Measured">Ours, with its unit.</param>
/// <param name="Baseline">What it is compared with, from the same run; empty without one.</param>
/// <param name="Ratio">Ratio or exponent; empty where there is none.</param>
/// <param name="Met">Whether the goal is met; null for a guide.</param>
/// <param name="Note">What belongs beside it: counts, ns a vector.</param>
public sealed record BenchResult(string Measured, string Baseline, string Ratio, bool? Met, string Note);
