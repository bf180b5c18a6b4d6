using System.Globalization;
using Microsoft.AspNetCore.Components.Forms;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Register.Importing;
using Spurless.Sites.Surveys;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Around;

/// <summary>What became of files that were dropped on the page: a survey, or an import.</summary>
/// <param name="Survey">Emitters of the sweeps; null without any.</param>
/// <param name="Database">The database that register files went into; null without any.</param>
/// <param name="Says">What is to be said.</param>
/// <param name="Problems">What went wrong, a sentence each.</param>
internal sealed record AroundIntake(SurveyAnswer? Survey, string? Database, string? Says, IReadOnlyList<string> Problems)
{
    /// <summary>The largest file that is taken by dropping; larger ones are for the command.</summary>
    public const long LargestFile = 200_000_000;

    /// <summary>Name of the database that dropped register files go into.</summary>
    public const string DatabaseName = "register.db";

    /// <summary>Takes files: sweeps and SigMF recordings are surveyed, all others are imported as one register.</summary>
    public static async Task<AroundIntake> TakeAsync(OpenFolder folder, InputFileChangeEventArgs e, DateOnly today)
    {
        string place = Directory.CreateTempSubdirectory("spurless-").FullName;
        try
        {
            List<string> files = [];
            List<string> problems = [];
            foreach (IBrowserFile file in e.GetMultipleFiles(FolderIntake.MostAtOnce))
            {
                if (file.Size > LargestFile)
                {
                    problems.Add(
                        $"{file.Name} is larger than 200 MB; import it with 'spurless register import {file.Name} --into {DatabaseName}'");
                    continue;
                }

                string path = Path.Combine(place, Path.GetFileName(file.Name));
                await using FileStream to = File.Create(path);
                if (await file.CopyAsync(LargestFile, to) is { } problem)
                {
                    problems.Add(problem);
                }
                else
                {
                    files.Add(path);
                }
            }

            return await Task.Run(() => Sort(folder, files, problems, today));
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    private static AroundIntake Sort(OpenFolder folder, List<string> files, List<string> problems, DateOnly today)
    {
        List<string> sweeps = [.. files.Where(IsSweep)];
        List<string> registers =
        [
            .. files.Except(sweeps).Where(static f => !f.EndsWith(".sigmf-data", StringComparison.OrdinalIgnoreCase)),
        ];
        SurveyAnswer? survey = null;
        string? database = null;
        string? says = null;
        if (sweeps.Count > 0)
        {
            DiagnosticBag bag = new();
            survey = SurveyService.Run(new SurveyQuestion { Sweeps = sweeps }, bag);
            problems.AddRange(bag.InOrder().Select(static d => $"{Path.GetFileName(d.File)}:{d.Line}:{d.Column}: {d.What}; {d.Remedy}"));
        }

        if (registers.Count > 0)
        {
            string path = Path.Combine(folder.Paths.Root, DatabaseName);
            ImportOutcome outcome = RegisterImport.Run(new ImportQuestion { Files = registers, Database = path, AsOf = today });
            problems.AddRange(outcome.Diagnostics.Select(static d => $"{Path.GetFileName(d.File)}: {d.What}; {d.Remedy}"));
            if (outcome.Answer is { } answer)
            {
                database = DatabaseName;
                says = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{answer.Accepted} of {answer.Read} records of "
                        + $"{string.Join(", ", answer.Registers)} were imported into {DatabaseName}");
            }
        }

        return new AroundIntake(survey, database, says, problems);
    }

    private static bool IsSweep(string path)
    {
        if (path.EndsWith(".sigmf-meta", StringComparison.OrdinalIgnoreCase))
        {
            return true;
        }

        if (!path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
        {
            return false;
        }

        using StreamReader reader = new(path);
        string? line = reader.ReadLine();
        while (line is not null && line.StartsWith('#'))
        {
            line = reader.ReadLine();
        }

        return line is not null
            && (line.StartsWith("frequency_hz", StringComparison.Ordinal) || line.StartsWith("time,", StringComparison.Ordinal));
    }
}
