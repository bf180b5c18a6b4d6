using System.Globalization;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Studies;

/// <summary>There are more products than a list is made of. The message says what to do.</summary>
public sealed class TooManyProductsException : Exception
{
    /// <summary>Longest list that is made.</summary>
    public const int Limit = 2_000_000;

    private const string Fewer = "write --top N for the strongest N, or a higher --floor";

    /// <summary>By the forecast, before anything is listed.</summary>
    internal TooManyProductsException(string receiver, double expected)
        : this(new Refusal(
            string.Create(
                CultureInfo.InvariantCulture,
                $"about {LongList.AboutNumber(expected)} mixtures can land on {receiver} by a "
                    + $"forecast, and no list is made of more than {Limit:N0}"),
            Fewer))
    {
    }

    internal TooManyProductsException(string receiver)
        : this(new Refusal(string.Create(CultureInfo.InvariantCulture, $"more than {Limit:N0} mixtures can land on {receiver}"), Fewer))
    {
    }

    private TooManyProductsException(Refusal refusal)
        : base(refusal.ToString()) => Refusal = refusal;

    /// <summary>The message in its two parts.</summary>
    public Refusal Refusal { get; }
}
