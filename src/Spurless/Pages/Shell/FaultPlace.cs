using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Shell;

/// <summary>Where a mistake is, in words, and the address of the cell that it is about.</summary>
/// <param name="Words">The cell by its row and column, or the line of the file: 'haulage base, frequency'.</param>
/// <param name="Address">The page with the cell or the line; null where no page shows it.</param>
internal sealed partial record FaultPlace(string Words, string? Address)
{
    /// <summary>The place of a finding.</summary>
    public static FaultPlace Of(OpenFolder folder, Diagnostic finding)
    {
        if (finding.Line > 0 && folder.FilesOf(FileKind.Circuit).Any(f => f.Name == finding.File))
        {
            return new FaultPlace(
                string.Create(CultureInfo.InvariantCulture, $"{finding.File}, line {finding.Line}"),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{PageLinks.AddressOf("build", finding.File)}?text=yes&line={finding.Line}&column={finding.Column}"));
        }

        if (!folder.FilesOf(FileKind.Site).Any(f => f.Name == finding.File) || folder.Site(finding.File) is not { } site)
        {
            return new FaultPlace(
                finding.Line > 0 ? string.Create(CultureInfo.InvariantCulture, $"{finding.File}, line {finding.Line}") : finding.File,
                null);
        }

        SiteFields fields = SiteFields.Of(site);
        string field = fields.Root is null ? "" : fields.FieldOf(finding);
        string address = PageLinks.AddressOf("site", finding.File);
        return field.Length > 0
            ? new FaultPlace(Called(fields, field), $"{address}?at={Uri.EscapeDataString(field)}")
            : new FaultPlace(
                string.Create(CultureInfo.InvariantCulture, $"line {finding.Line}"),
                string.Create(CultureInfo.InvariantCulture, $"{address}?text=yes&line={finding.Line}&column={finding.Column}"));
    }

    // receivers[0].chain[1].attenuator reads 'repeater input, chain 2, attenuator'.
    private static string Called(SiteFields fields, string field)
    {
        Match entry = Entry().Match(field);
        string words = entry.Success
            ? (fields.Value(entry.Value + ".name") ?? $"{entry.Groups[1].Value} {Number(entry.Groups[2].Value)}")
                + field[entry.Length..].Replace(".", ", ", StringComparison.Ordinal)
            : field.Replace(".", ", ", StringComparison.Ordinal);
        return Index().Replace(words, static m => " " + Number(m.Groups[1].Value)).Replace('_', ' ');
    }

    private static string Number(string index) =>
        (int.Parse(index, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(receiver|emitter)s\[(\d+)\]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Entry();

    [GeneratedRegex(@"\[(\d+)\]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Index();
}
