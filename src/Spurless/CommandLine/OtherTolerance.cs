using Spurless.Circuits.Documents;
using Spurless.Circuits.Parts;

namespace Spurless.CommandLine;

/// <summary>A tolerance as typed, in the words of the circuit file.</summary>
/// <param name="Tolerance">The tolerance.</param>
/// <param name="Text">As typed.</param>
internal readonly record struct OtherTolerance(PartTolerance Tolerance, string Text)
{
    /// <summary>Reads a tolerance.</summary>
    public static bool TryParse(string text, out OtherTolerance value, out string problem)
    {
        bool read = ToleranceText.TryParse(text.Trim(), out PartTolerance tolerance, out problem);
        value = new OtherTolerance(tolerance, text.Trim());
        return read;
    }
}
