namespace Spurless.Radio.Quantities;

/// <summary>A dimension of a part, such as a coil's diameter: a length whose messages propose millimetres.</summary>
public static class PartDimension
{
    private static readonly UnitTable _units = Length.Units("a length", "mm", "6 mm");

    /// <summary>Reads <c>6 mm</c>, <c>0.25 in</c> or any other length above 0.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The length, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Length value, out string problem)
    {
        if (!Length.TryParse(text, _units, out value, out problem))
        {
            return false;
        }

        if (value.Metres > 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is not above 0; write a length like 6 mm";
        value = default;
        return false;
    }
}
