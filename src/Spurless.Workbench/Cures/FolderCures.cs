using System.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Workbench.Cures;

/// <summary>Asks what would make the receivers of an open folder's site quiet, and writes a way out into its files.</summary>
public static class FolderCures
{
    /// <summary>The question: the same as the command's on the same files.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="receiver">Name of the receiver; null for all.</param>
    /// <returns>Null where the file is not there or cannot be studied.</returns>
    public static CureQuestion? Question(OpenFolder folder, string file, string? receiver)
    {
        ArgumentNullException.ThrowIfNull(folder);
        if (folder.Session.Read(file) is not { } text || folder.SiteOf(text).Site is not { } site)
        {
            return null;
        }

        StudyOptions options = new();
        return new CureQuestion
        {
            Site = site,
            Source = SourceFile.OfText(file, text.Text, folder.Beside(file)),
            Receiver = receiver,
            Options = options,
            Filters = FolderEvidence.Question(folder, file, site, options).Filters,
        };
    }

    /// <summary>Writes a way out into the site file, with the files that go with it; Undo takes it back.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="question">What was asked.</param>
    /// <param name="cure">The way out.</param>
    /// <returns>Why it was not written: 'what; what to do instead'; null where it was.</returns>
    public static string? Keep(OpenFolder folder, string file, CureQuestion question, Cure cure)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(cure);
        string asked = question.Source.Text;
        if (folder.Session.Read(file)?.Text != asked)
        {
            return "the site file has changed since this list was made; the list is being made anew";
        }

        foreach ((string path, string text) in cure.Files.OrderBy(static f => f.Key, StringComparer.Ordinal))
        {
            string name = NamesInFolder.Beside(file) + path;
            if (folder.Session.Read(name) is { } there)
            {
                if (there.Text != text)
                {
                    return $"'{name}' is there and holds something else; give it another name";
                }
            }
            else if (FolderIntake.Take(folder, name, Encoding.UTF8.GetBytes(text)) is { } why)
            {
                return why;
            }
        }

        return folder.Edit(file, "way out kept", now => now == asked
            ? (cure.Text, null)
            : (null, "the site file has changed since this list was made; look at the new one")).Problem;
    }
}
