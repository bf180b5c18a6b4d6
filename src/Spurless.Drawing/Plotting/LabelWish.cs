namespace Spurless.Drawing.Plotting;

/// <summary>A label that wants a place.</summary>
/// <param name="Ways">By preference.</param>
/// <param name="Missing">What it costs to leave it out; more than any of its ways.</param>
internal sealed record LabelWish(IReadOnlyList<LabelWay> Ways, double Missing);
