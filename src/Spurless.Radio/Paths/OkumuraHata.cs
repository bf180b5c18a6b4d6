using System.Globalization;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>The surroundings for which Okumura and Hata measured and fitted.</summary>
public enum HataSurroundings
{
    /// <summary>A small or medium city.</summary>
    Urban,

    /// <summary>Suburban.</summary>
    Suburban,

    /// <summary>Open country.</summary>
    Open,
}

/// <summary>
/// Okumura-Hata (M. Hata, IEEE Trans. VT-29, 1980; ITU-R P.529; the coefficients were seen quoted in several public copies), a fit to
/// measurements between a base station and a mobile: 150 to 1500 MHz, 1 to 20 km, base 30 to 200 m, mobile 1 to 10 m. A value up to half
/// as much again outside is computed and marked; further out it is refused (the mobile's height term, for one, grows without sense).
/// Heights are <see cref="PathGeometry.OverReflectingGround"/>. The higher antenna counts as the base. Median; real places scatter by some
/// 6 to 8 dB (common practice). Never less than free space.
/// </summary>
public sealed class OkumuraHata : IPathModel
{
    /// <summary>How far outside its range, as a factor, a value is still computed. Ours.</summary>
    private const double Margin = 1.5;

    private readonly HataSurroundings _surroundings;

    private OkumuraHata(HataSurroundings surroundings, string name) => (_surroundings, Name) = (surroundings, name);

    /// <summary>A small or medium city.</summary>
    public static OkumuraHata Urban { get; } = new(HataSurroundings.Urban, "hata urban");

    /// <summary>Suburban.</summary>
    public static OkumuraHata Suburban { get; } = new(HataSurroundings.Suburban, "hata suburban");

    /// <summary>Open country.</summary>
    public static OkumuraHata Open { get; } = new(HataSurroundings.Open, "hata open");

    /// <inheritdoc/>
    public string Name { get; }

    /// <summary>Median basic transmission loss.</summary>
    /// <param name="surroundings">What the mobile is surrounded by.</param>
    /// <param name="frequencyHz">Frequency in hertz, 150 to 1500 MHz.</param>
    /// <param name="baseHeightM">Height of the base antenna in metres, 30 to 200.</param>
    /// <param name="mobileHeightM">Height of the mobile antenna in metres, 1 to 10.</param>
    /// <param name="distanceM">Distance in metres, 1,000 to 20,000.</param>
    /// <returns>
    /// Loss in dB: 69.55 + 26.16 lg f - 13.82 lg hb - a(hm) + (44.9 - 6.55 lg hb) lg d with f in MHz, d in km and a(hm) = (1.1 lg f - 0.7)
    /// hm - (1.56 lg f - 0.8), less 2 lg^2(f / 28) + 5.4 suburban, less 4.78 lg^2 f - 18.33 lg f + 40.94 in the open. The range is not
    /// checked here. At 900 MHz, 30 m, 1.5 m and 5 km 151.024 dB.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number above 0.</exception>
    public static double LossDb(
        HataSurroundings surroundings, double frequencyHz, double baseHeightM, double mobileHeightM, double distanceM)
    {
        double f = Math.Log10(QuantityText.AboveZero(frequencyHz, nameof(frequencyHz)) / 1e6);
        double hb = Math.Log10(QuantityText.AboveZero(baseHeightM, nameof(baseHeightM)));
        double d = Math.Log10(QuantityText.AboveZero(distanceM, nameof(distanceM)) / 1000);
        double a = (1.1 * f - 0.7) * QuantityText.AboveZero(mobileHeightM, nameof(mobileHeightM)) - (1.56 * f - 0.8);
        double urban = 69.55 + 26.16 * f - 13.82 * hb - a + (44.9 - 6.55 * hb) * d;
        double over28 = f - Math.Log10(28);
        return surroundings switch
        {
            HataSurroundings.Suburban => urban - 2 * over28 * over28 - 5.4,
            HataSurroundings.Open => urban - 4.78 * f * f + 18.33 * f - 40.94,
            _ => urban,
        };
    }

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (FreeSpace.Refusal(geometry) is { } refused)
        {
            return PathResult.None(Name, refused);
        }

        if (geometry.OverReflectingGround is not var (h1, h2))
        {
            return PathResult.None(Name, $"{Name} needs the heights of both antennas; give height: 20 m with each antenna");
        }

        double distance = geometry.DistanceM!.Value;
        double high = Math.Max(h1, h2);
        double low = Math.Min(h1, h2);
        List<PathRemark> remarks = [];
        foreach ((PathFigure figure, double value, double from, double to) in ((PathFigure, double, double, double)[])
        [
            (PathFigure.Frequency, geometry.FrequencyHz, 150e6, 1500e6),
            (PathFigure.Distance, distance, 1000, 20_000),
            (PathFigure.HigherAntenna, high, 30, 200),
            (PathFigure.LowerAntenna, low, 1, 10),
        ])
        {
            if (value >= from && value <= to)
            {
                continue;
            }

            if (value < from / Margin || value > to * Margin)
            {
                return PathResult.None(Name, TooFarOut(figure, value, from, to));
            }

            remarks.Add(new PathRemark.OutsideFit(Name, figure, value, from, to));
        }

        double loss = LossDb(_surroundings, geometry.FrequencyHz, high, low, distance);
        double free = FreeSpace.LossDb(distance, geometry.FrequencyHz);
        if (loss < free)
        {
            remarks.Add(new PathRemark.LessThanFreeSpace(Name));
            loss = free;
        }

        return PathResult.Basic(Name, new PathBasis.ByHata(Name, distance, high, low), geometry, loss, remarks);
    }

    /// <summary>The refusal of a value from which no sense comes.</summary>
    private string TooFarOut(PathFigure figure, double value, double from, double to)
    {
        (string what, string unit, double per) = figure switch
        {
            PathFigure.Frequency => ("frequency", "MHz", 1e6),
            PathFigure.Distance => ("distance", "km", 1e3),
            PathFigure.HigherAntenna => ("height of the higher antenna", "m", 1),
            _ => ("height of the lower antenna", "m", 1.0),
        };
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Name}: {what} {value / per:0.###} {unit} is outside the model's {from / per:0.###} to {to / per:0.###} {unit}; "
                + $"take another path, or give the measured level");
    }
}
