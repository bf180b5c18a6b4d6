using System.Globalization;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Registers;

/// <summary>Where an emitter of a site file comes from, for the comment beside its name.</summary>
public static class AdditionWords
{
    /// <summary>The comment.</summary>
    public static string Of(AdditionOrigin origin) => origin switch
    {
        AdditionOrigin.Survey survey => Survey(survey),
        AdditionOrigin.Licensed licensed => Licensed(licensed),
        _ => throw new ArgumentOutOfRangeException(nameof(origin)),
    };

    private static string Survey(AdditionOrigin.Survey origin)
    {
        string raster = origin.RasterHz is { } hertz
            ? string.Create(CultureInfo.InvariantCulture, $", put on the {hertz / 1000.0:0.###} kHz raster")
            : "";
        string narrow = origin.IsNarrow ? ", narrower than could be seen" : "";
        string level = origin.HasLevel ? "" : ", its level not known";
        string may = origin.MayBe.Count > 0
            ? "; it may be " + string.Join(" or ", origin.MayBe.Select(static m => $"{m.Name}, licence {m.Licence}"))
            : "";
        return "measured by a survey" + raster + narrow + level + may;
    }

    private static string Licensed(AdditionOrigin.Licensed origin)
    {
        string licence = origin.Licence.Length > 0 ? ", licence " + origin.Licence : "";
        string heard = origin.Heard switch
        {
            HeardInSurvey.Heard => ", heard in a survey",
            HeardInSurvey.Measured => ", level measured by a survey",
            _ => "",
        };
        string width = origin.AssumedWidthHz is { } hertz
            ? string.Create(CultureInfo.InvariantCulture, $"; its bandwidth is not in the register, {hertz / 1000.0:0.###} kHz is assumed")
            : "";
        return $"from the register {origin.Register}{licence}{heard}{width}";
    }
}
