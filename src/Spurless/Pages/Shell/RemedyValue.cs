using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;

namespace Spurless.Pages.Shell;

/// <summary>A remedy that is a value, which can be written by one click: 'write 161.35 MHz'.</summary>
internal static partial class RemedyValue
{
    /// <summary>The value; null where the remedy is more than one.</summary>
    public static string? Of(Diagnostic finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Match match = Value().Match(finding.Remedy);
        return finding.Severity == Severity.Error && match.Success ? match.Groups[1].Value : null;
    }

    [GeneratedRegex(@"^write ([-+\u2212]?[0-9][0-9.]*(?: ?[A-Za-z\u00B5\u03A9%/]+(?: at [0-9.]+ [kMG]?Hz)?)?)$",
        RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Value();
}
