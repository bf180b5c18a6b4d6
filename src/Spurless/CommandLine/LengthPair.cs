using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>Two lengths with a comma between them, the smaller first.</summary>
/// <param name="InnerM">The smaller in metres, above 0.</param>
/// <param name="OuterM">The greater in metres.</param>
internal readonly record struct LengthPair(double InnerM, double OuterM)
{
    /// <summary>Reads the pair.</summary>
    public static bool TryParse(string text, out LengthPair value, out string problem)
    {
        value = default;
        string[] both = text.Split(',', StringSplitOptions.TrimEntries);
        if (both.Length != 2)
        {
            problem = $"'{text.Trim()}' is not two diameters; write the inner and the outer one like \"10 mm,36 mm\"";
            return false;
        }

        if (!PartDimension.TryParse(both[0], out Length inner, out problem)
            || !PartDimension.TryParse(both[1], out Length outer, out problem))
        {
            return false;
        }

        value = new LengthPair(inner.Metres, outer.Metres);
        problem = $"'{text.Trim()}': the first is not above 0 and below the second; write the inner diameter first";
        return inner.Metres > 0 && outer.Metres > inner.Metres;
    }
}
