using Spurless.Mixing.Search;

namespace Spurless.Sites.Mixes;

/// <summary>The sums and differences that land on a frequency.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Mixtures">By order, then distance, then the order of the carriers.</param>
public sealed record MixAnswer(MixQuestion Question, IReadOnlyList<CarrierMixture> Mixtures);
