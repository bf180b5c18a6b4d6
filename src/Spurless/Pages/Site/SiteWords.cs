using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Site;

/// <summary>The sentence of the site page.</summary>
internal static class SiteWords
{
    /// <summary>What the file holds, and whether anything is wrong with it.</summary>
    public static string Answer(FolderSite site, SiteFields fields)
    {
        int errors = site.Errors.Count();
        int warnings = site.Findings.Count(static f => f.Severity == Severity.Warning);
        string wrong = errors switch
        {
            0 when warnings == 0 => "nothing is wrong with the file.",
            0 => $"{Count(warnings, "warning")}, and nothing is wrong with the file.",
            1 => "one thing is wrong, and it is marked where it stands.",
            _ => $"{Figures.CountInWords(errors)} things are wrong, each marked where it stands.",
        };
        if (fields.Root is null)
        {
            return StudyWords.Capital(wrong);
        }

        int emitters = site.Site?.Document.Emitters.Count ?? fields.Count("emitters");
        string name = fields.Value("site") is { Length: > 0 } given ? given : site.File.Name;
        return $"{name}: {Count(fields.Count("receivers"), "receiver")} and {Count(emitters, "emitter")}; {wrong}";
    }

    private static string Count(int count, string of) => $"{Figures.CountInWords(count)} {of}{(count == 1 ? "" : "s")}";

    /// <summary>Emitters that stand on one frequency: it may be a slip, or a channel in common.</summary>
    public static IEnumerable<string> Twice(SiteFields fields) => Enumerable.Range(0, fields.Count("emitters"))
        .Select(i => (Name: fields.Value($"emitters[{i}].name") ?? $"emitter {i + 1}", Frequency: fields.Value($"emitters[{i}].frequency")))
        .Where(static e => e.Frequency is not null && Radio.Quantities.Frequency.TryParse(e.Frequency, out _, out _))
        .GroupBy(static e => Radio.Quantities.Frequency.TryParse(e.Frequency!, out Radio.Quantities.Frequency f, out _) ? f.Hertz : 0)
        .Where(static g => g.Count() > 1)
        .Select(static g => $"{string.Join(" and ", g.Select(static e => e.Name))} stand on one frequency, {g.First().Frequency}: they "
            + $"share a channel, or one of them is a slip.");
}
