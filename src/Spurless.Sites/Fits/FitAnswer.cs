using Spurless.Fit;

namespace Spurless.Sites.Fits;

/// <summary>The values of a traced circuit, and how sure each is.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Result">What was found; the best so far where the work was stopped.</param>
public sealed record FitAnswer(FitQuestion Question, FitResult Result);
