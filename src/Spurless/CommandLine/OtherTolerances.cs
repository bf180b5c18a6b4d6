using Spurless.Circuits.Parts;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Tolerances;

namespace Spurless.CommandLine;

/// <summary>Reads a tolerance as typed, in the words of the circuit file.</summary>
internal static class OtherTolerances
{
    /// <summary>Reads a tolerance.</summary>
    public static bool TryParse(string text, out OtherTolerance value, out string problem)
    {
        bool read = ToleranceText.TryParse(text.Trim(), out PartTolerance tolerance, out problem);
        value = new OtherTolerance(tolerance, text.Trim());
        return read;
    }
}
