using System.Globalization;
using Spurless.Circuits.Response;
using Spurless.Drawing.Words;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Folder;

/// <summary>The sentences of the folder page.</summary>
internal static class FolderWords
{
    /// <summary>What the folder's sites come to.</summary>
    public static string Answer(IReadOnlyList<FileReading> files)
    {
        List<FileReading> sites = [.. files.Where(static f => f.File.Kind == FileKind.Site)];
        int open = files.Count(static f => f.Stage is ReadingStage.Waiting or ReadingStage.Working);
        if (open > 0 && sites.All(static s => s.Study is null && s.Errors == 0))
        {
            return string.Create(
                CultureInfo.InvariantCulture, $"Reading the folder: {files.Count - open} of {files.Count} files are done.");
        }

        List<FileReading> harmed = [.. sites.Where(static s => Harmful(s) > 0)];
        int faulty = files.Count(static f => f.Errors > 0);
        string says = sites.Count == 1
            ? sites[0].Study is { } only
                ? StudyWords.Answer(only.Receivers.MaxBy(static r => r.Harmful)!, Typography.Fine)
                : $"There is no study of {sites[0].File.Name} yet."
            : harmed.Count == 0 ? $"Nothing lands over the noise on any of the {Figures.CountInWords(sites.Count)} sites here."
            : $"Mixtures land over the noise on {Figures.CountInWords(harmed.Count)} of the "
                + $"{Figures.CountInWords(sites.Count)} sites here; most of them on {harmed.MaxBy(Harmful)!.File.Name}.";
        string wrong = faulty switch
        {
            0 => "",
            1 => $" {files.First(static f => f.Errors > 0).File.Name} has errors.",
            _ => $" {StudyWords.Capital(Figures.CountInWords(faulty))} files have errors.",
        };
        return says + wrong;
    }

    /// <summary>What a file is and holds.</summary>
    public static string Kind(FileReading reading)
    {
        string kind = FileKinds.Name(reading.File.Kind);
        return reading.Holds.Length == 0 ? kind : $"{kind}, {reading.Holds}";
    }

    /// <summary>Harmful mixtures on all receivers of a site.</summary>
    public static int Harmful(FileReading reading) => reading.Study?.Receivers.Sum(static r => r.Harmful) ?? 0;

    /// <summary>Marginal ones.</summary>
    public static int Marginal(FileReading reading) => reading.Study?.Receivers.Sum(static r => r.Marginal) ?? 0;

    /// <summary>Loss and place of a pass-band.</summary>
    public static (string Loss, string Place) Band(Passband band) => (
        $"{Figures.Db(band.LossDb, Typography.Fine)} dB loss",
        $"at {Figures.Megahertz((long)Math.Round(band.CentreHz ?? band.PeakHz))} MHz");
}
