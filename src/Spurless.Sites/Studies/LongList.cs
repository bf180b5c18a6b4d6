using System.Globalization;
using Spurless.Mixing.Forecast;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>A list that is coming and that is longer than anybody reads, by a forecast made before the search.</summary>
/// <param name="Receiver">Name of the receiver.</param>
/// <param name="Expected">Expected number of products.</param>
/// <param name="StandardError">Standard error of the forecast, in products.</param>
public sealed record LongList(string Receiver, double Expected, double StandardError)
{
    /// <summary>From here on a list is called long: nobody reads it.</summary>
    public const int From = 100_000;

    /// <summary>A number to the two digits that a forecast has.</summary>
    /// <param name="number">At least 0.</param>
    public static string AboutNumber(double number)
    {
        const double Spelt = 1e15; // beyond, a double has not all digits of a whole number
        if (number >= Spelt)
        {
            int power = (int)Math.Floor(Math.Log10(number));
            return string.Create(CultureInfo.InvariantCulture, $"{number / Math.Pow(10, power):0.0} x 10^{power}");
        }

        double step = Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(Math.Max(1, number))) - 1));
        return (Math.Round(number / step) * step).ToString("N0", CultureInfo.InvariantCulture);
    }
}

/// <summary>Looks ahead, where a search has so many vectors to go through that a list of its products may be long.</summary>
internal static class LookAhead
{
    /// <summary>
    /// Vectors from which a forecast is worth its some ten milliseconds: under this a search and its list take less than a second.
    /// </summary>
    private const double FromVectors = 1e9;

    /// <summary>A list is refused by its forecast only where that is so many times the longest...</summary>
    private const double RefusedFrom = 4;

    /// <summary>...and so many standard errors over it: what would have been listed must not be refused by an unlucky sample.</summary>
    private const double RefusedErrors = 6;

    /// <summary>
    /// The forecast of the lists, after the same exact levels that decide what is listed; null where no list can be long.
    /// </summary>
    public static ListForecast? Make(
        SearchProblem problem, IReadOnlyList<ProductScorer> scorers, int channels, CancellationToken cancellationToken)
    {
        double vectors = VectorCount.Canonical(problem.Emitters.Length, problem.MinOrder, problem.MaxOrder, problem.MaxSignals);
        return vectors < FromVectors
            ? null
            : ListForecast.Of(
                problem with { Receivers = problem.Receivers[..channels] },
                (in p) => scorers[p.Receiver].Reaches(scorers[p.Receiver].Score(p)),
                cancellationToken);
    }

    /// <summary>Refuses a hopeless list, and tells of long ones.</summary>
    /// <exception cref="TooManyProductsException">A list would be longer than is made, beyond doubt.</exception>
    public static void Judge(ListForecast forecast, IReadOnlyList<ReceiverSetup> receivers, int channels, StudyOptions options)
    {
        for (int r = 0; r < channels; r++)
        {
            if (forecast.Expected(r) > RefusedFrom * options.LongestList
                && forecast.Expected(r) - (RefusedErrors * forecast.StandardError(r)) > options.LongestList)
            {
                throw new TooManyProductsException(receivers[r].Name, forecast.Expected(r));
            }
        }

        for (int r = 0; r < channels; r++)
        {
            if (forecast.Expected(r) >= LongList.From)
            {
                options.LongLists?.Report(new LongList(receivers[r].Name, forecast.Expected(r), forecast.StandardError(r)));
            }
        }
    }
}
