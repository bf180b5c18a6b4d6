using Spurless.Circuits.Parts;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>Tolerances as they are written: <c>5 %</c>, <c>5 % normal</c>, <c>E24</c>.</summary>
public static class ToleranceText
{
    /// <summary>Reads a tolerance.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The tolerance, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out PartTolerance value, out string problem) =>
        PartShapes.TryTolerance(text, out value, out problem);
}
