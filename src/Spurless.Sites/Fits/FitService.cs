using Spurless.Files.Diagnostics;
using Spurless.Fit;

namespace Spurless.Sites.Fits;

/// <summary>Answers what the values of a traced circuit are.</summary>
public static class FitService
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Hears the share done and the nearest to the sweep so far, or null.</param>
    /// <param name="cancellationToken">Ends the work early; the answer is then the best so far, and says so.</param>
    public static Outcome<FitAnswer> Ask(
        FitQuestion question, IProgress<FitProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        FitResult? result = CircuitFit.TryRun(
            question.Circuit, question.Sweep, question.Options, out Refusal? refusal, progress, cancellationToken);
        return result is null ? refusal! : new FitAnswer(question, result);
    }
}
