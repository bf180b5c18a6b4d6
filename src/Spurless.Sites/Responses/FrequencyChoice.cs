using Spurless.Circuits.Response;

namespace Spurless.Sites.Responses;

/// <summary>The frequencies at which somebody wants to look at a network: single ones, or evenly spread from one to another.</summary>
public sealed record FrequencyChoice
{
    /// <summary>Points of a spread where nothing is said.</summary>
    public const int UsualPoints = 201;

    private readonly double[] _hertz;

    private FrequencyChoice(double[] hertz) => _hertz = hertz;

    /// <summary>In hertz.</summary>
    public IReadOnlyList<double> Hertz => _hertz;

    /// <summary>Single frequencies.</summary>
    /// <param name="hertz">In hertz, above 0.</param>
    public static FrequencyChoice At(IEnumerable<double> hertz) => new([.. hertz]);

    /// <summary>Evenly spread frequencies.</summary>
    /// <param name="fromHz">The lowest in hertz, above 0.</param>
    /// <param name="toHz">The highest in hertz, above the lowest.</param>
    /// <param name="points">How many, at least 2.</param>
    public static FrequencyChoice Between(double fromHz, double toHz, int points = UsualPoints) =>
        new(FrequencyGrid.Linear(fromHz, toHz, points));
}
