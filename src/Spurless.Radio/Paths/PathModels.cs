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
        problem = $"{UnitTable.Quoted(text)} is no path; write one of {string.Join(", ", Named.Select(static m => m.Name))}, or {{ same structure: {{ vertical: 6 m, horizontal: 0 m }} }}";
        return false;
    }

    /// <summary>Predicts by the model that the user named, else by the one that fits: plane earth where both heights are known and the distance lies
    /// beyond its break point, free space otherwise.</summary>
    /// <param name="named">The user's choice, or null.</param>
    /// <param name="geometry">Where the antennas stand.</param>
    /// <returns>The prediction, which says how it was chosen.</returns>
    public static PathResult Predict(IPathModel? named, PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (named is not null)
        {
            PathResult given = named.Predict(geometry);
            return given with { How = given.How + ", as given" };
        }

        bool beyond = geometry is { DistanceM: { } distance, TransmitterHeightM: > 0, ReceiverHeightM: > 0, FrequencyHz: > 0 }
            && double.IsFinite(geometry.FrequencyHz)
            && distance >= PlaneEarth.BreakPointM(geometry.TransmitterHeightM.Value, geometry.ReceiverHeightM.Value, geometry.FrequencyHz);
        IPathModel chosen = beyond ? PlaneEarth.Model : FreeSpace.Model;
        PathResult result = chosen.Predict(geometry);
        string why = beyond
            ? ", chosen because both heights are known"
            : geometry is { TransmitterHeightM: > 0, ReceiverHeightM: > 0 }
                ? ", chosen because it is nearer than the break point of plane earth"
                : ", chosen because the heights of both antennas are not known";
        return result with { How = result.How + why };
    }
}
