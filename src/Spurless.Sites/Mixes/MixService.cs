using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Mixes;

/// <summary>Answers which sums and differences land on a frequency.</summary>
public static class MixService
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public static Outcome<MixAnswer> Ask(
        MixQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        CarrierMixtures? found = CarrierArithmetic.Find(
            question.FrequencyHz, question.WithinHz, question.CarriersHz, question.Orders, question.Signals, progress, cancellationToken);
        return found is not null ? new MixAnswer(question, found.Mixtures) : new Refusal(
            FormattableString.Invariant($"more than {ProductList.DefaultLimit} mixtures land there"),
            "ask for lower orders, fewer signals or a smaller channel");
    }
}
