using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Comparisons;

/// <summary>Answers what differs between two sites.</summary>
public static class ComparisonService
{
    /// <summary>Studies both and compares them.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far each search has come, or null.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    public static Outcome<StudyComparison> Ask(
        ComparisonQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        Outcome<StudyResult> now =
            StudyService.Ask(new StudyQuestion { Site = question.Now, Options = question.Options }, progress, cancellationToken);
        if (now.Answer is null)
        {
            return Without(now, nameof(ComparisonQuestion.Now));
        }

        Outcome<StudyResult> before = StudyService.Ask(
            new StudyQuestion { Site = question.Before, Options = question.Options }, progress, cancellationToken);
        return before.Answer is null ? Without(before, nameof(ComparisonQuestion.Before)) : StudyComparison.Of(before.Answer, now.Answer);
    }

    private static Outcome<StudyComparison> Without(Outcome<StudyResult> study, string which) =>
        study.Refusal is { } refusal ? refusal with { Subject = which } : Outcome.Of<StudyComparison>(study.Faults);
}
