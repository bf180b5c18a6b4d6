using System.Globalization;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Tells of a list that is coming and that is longer than anybody reads.</summary>
public static class LongListText
{
    /// <summary>What to tell before the search.</summary>
    /// <param name="list">The forecast.</param>
    public static string Says(LongList list) => string.Create(
        CultureInfo.InvariantCulture,
        $"about {LongList.AboutNumber(list.Expected)} mixtures are coming on {list.Receiver} (a forecast, "
            + $"good to some {Math.Max(10, 10 * Math.Ceiling(20 * list.StandardError / list.Expected)):0} %); ")
        + "--top N keeps the strongest N, a higher --floor leaves weak ones out";
}
