namespace Spurless.Mixing.Search;

/// <summary>Takes products as they are found, one at a time, in no particular order.</summary>
public interface IProductSink
{
    /// <summary>Takes a product.</summary>
    /// <param name="product">The product.</param>
    /// <returns>False to stop the search.</returns>
    bool Add(in ProductRecord product);
}

/// <summary>
/// A sink whose wants become stricter as it fills (a list of the strongest): the search leaves out what it no longer wants.
/// </summary>
public interface IRisingSink : IProductSink
{
    /// <summary>Products of this receiver whose known level is under this are of no interest any more; never falls.</summary>
    /// <remarks>Asked from several threads, also while another one adds.</remarks>
    /// <param name="receiver">Index into <see cref="SearchProblem.Receivers"/>.</param>
    /// <returns>Micro-dBm; <see cref="long.MinValue"/> while everything is wanted. Products of unknown level are always given.</returns>
    long WantedFromMicroDbm(int receiver);
}

/// <summary>How far a search has come.</summary>
/// <param name="Fraction">Part of the work done, 0 to 1, by the number of vectors: proportional to time as nearly as is known
/// beforehand.</param>
/// <param name="Found">Products found so far.</param>
public readonly record struct SearchProgress(double Fraction, long Found)
{
    /// <summary>Time that is still to come if the rest goes as the beginning did.</summary>
    /// <param name="elapsed">Time since the start.</param>
    /// <returns>The remaining time, or null as long as less than a thousandth is done.</returns>
    public TimeSpan? Remaining(TimeSpan elapsed) => Fraction < 0.001 ? null : elapsed * ((1 - Math.Min(1, Fraction)) / Fraction);
}

/// <summary>How a search ended.</summary>
/// <param name="Complete">False where the sink stopped it.</param>
/// <param name="Found">Products given to the sink.</param>
public readonly record struct SearchOutcome(bool Complete, long Found);

/// <summary>Finds every product of a problem, each exactly once; what that means stands at <see cref="SearchProblem"/>.</summary>
public interface IProductSearch
{
    /// <summary>Searches.</summary>
    /// <param name="problem">What to search.</param>
    /// <param name="sink">Gets the products, from one thread at a time.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>Whether it was completed, and how many products there were.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    /// <exception cref="ArgumentException">The problem is malformed (a bug of the caller).</exception>
    SearchOutcome Run(
        SearchProblem problem,
        IProductSink sink,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default);
}
