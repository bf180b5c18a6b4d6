using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>Finds path models by name, and chooses one by geometry.</summary>
public static class PathModels
{
    /// <summary>The models that a single name chooses.</summary>
    public static IReadOnlyList<IPathModel> Named { get; } =
        [FreeSpace.Model, PlaneEarth.Model, OkumuraHata.Urban, OkumuraHata.Suburban, OkumuraHata.Open];

    /// <summary>Reads <c>free space</c>, <c>plane earth</c>, <c>hata urban</c>, <c>hata suburban</c> or <c>hata open</c>.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The model, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out IPathModel value, out string problem)
    {
        string clean = UnitTable.Normalise(text ?? "");
        foreach (IPathModel model in Named)
        {
            if (model.Name == clean)
            {
                value = model;
                problem = "";
                return true;
            }
        }

        value = FreeSpace.Model;
        problem =
            $"{UnitTable.Quoted(text)} is no path; write one of "
                + $"{string.Join(", ", Named.Select(static m => m.Name))}, or {{ same structure: {{ vertical: 6 m, horizontal: 0 m }} }}";
        return false;
    }

    /// <summary>One sigma of a level in free space where nothing of the ground is known, in dB (common practice).</summary>
    public const double GroundUnknownSigmaDb = 10;

    /// <summary>Predicts by the model that the user named, else by the one that fits: plane earth where both heights and both grounds are
    /// known and the distance lies beyond its break point, free space otherwise. Without the grounds it says that it is the most it can be,
    /// with a sigma of <see cref="GroundUnknownSigmaDb"/>.</summary>
    /// <param name="named">The user's choice, or null.</param>
    /// <param name="geometry">Where the antennas stand.</param>
    /// <returns>The prediction, which says how it was chosen.</returns>
    public static PathResult Predict(IPathModel? named, PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (named is not null)
        {
            return named.Predict(geometry) with { Choice = named.Choice };
        }

        if (!geometry.GroundIsKnown)
        {
            PathResult free = FreeSpace.Model.Predict(geometry);
            bool heights = geometry is { TransmitterHeightM: > 0, ReceiverHeightM: > 0 };
            return free with
            {
                Choice = heights ? PathChoice.GroundsNotKnown : PathChoice.HeightsAndGroundsNotKnown,
                Remarks = [.. free.Remarks, new PathRemark.GroundNotKnown(heights)],
                SigmaDb = GroundUnknownSigmaDb,
            };
        }

        (double h1, double h2) = geometry.OverReflectingGround!.Value;
        bool beyond = geometry is { DistanceM: { } distance, FrequencyHz: > 0 } && geometry.Impossible() is null
            && distance >= PlaneEarth.BreakPointM(h1, h2, geometry.FrequencyHz);
        PathResult result = (beyond ? (IPathModel)PlaneEarth.Model : FreeSpace.Model).Predict(geometry);
        return result with { Choice = beyond ? PathChoice.EndsKnown : PathChoice.WithinBreakPoint };
    }
}
