using System.Globalization;

namespace Spurless.Sites.Studies;

/// <summary>There are more products than a list is made of. The message says what to do.</summary>
public sealed class TooManyProductsException : Exception
{
    /// <summary>Longest list that is made.</summary>
    public const int Limit = 2_000_000;

    /// <summary>By the forecast, before anything is listed.</summary>
    internal TooManyProductsException(string receiver, double expected)
        : base(string.Create(
            CultureInfo.InvariantCulture,
            $"about {LongList.AboutNumber(expected)} products can land on {receiver} by a forecast, and no list is made of more than {Limit:N0}; write --top N for the strongest N, or a higher --floor"))
    {
    }

    internal TooManyProductsException(string receiver)
        : base(string.Create(
            CultureInfo.InvariantCulture, $"more than {Limit:N0} products can land on {receiver}; write --top N for the strongest N, or a higher --floor"))
    {
    }
}
