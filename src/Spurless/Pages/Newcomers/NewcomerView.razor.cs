using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Pages.Shell;
using Spurless.Reports.Newcomers;
using Spurless.Sites;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Newcomers;

namespace Spurless.Pages.Newcomers;

/// <summary>A newcomer: whom he would hurt, who him, and on what conditions he may join; the sheet for the site's owner.</summary>
public sealed partial class NewcomerView
{
    private const int MostNew = 8;

    private FolderSite? _there;
    private AskedNewcomer? _asked;
    private NewcomerAnswer? _answer;
    private NewcomerReceiver? _shown;
    private StudyPictureModel? _model;
    private IReadOnlyList<Diagnostic> _findings = [];
    private IReadOnlyList<string> _open = [];
    private string? _problem;
    private double _fraction;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>The newcomer's file's name within the folder; nothing where none is chosen.</summary>
    [SupplyParameterFromQuery(Name = "new")]
    public string? New { get; set; }

    /// <summary>Name of the receiver whose picture is shown; the one that is hurt most where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? Receiver { get; set; }

    private string Fraction => _fraction.ToString("0.###", CultureInfo.InvariantCulture);

    private string Sheet => NewcomerSheet.AddressOf(File, New!);

    private string Says => _answer is { } answer ? NewcomerWords.Answer(answer)
        : string.IsNullOrEmpty(New) ? "Who asks to join this site? Choose the newcomer’s site file, or drop it on this page."
        : _asked is null ? $"There is no file ‘{New}’ in this folder: choose another, or drop it again."
        : _findings.Any(static f => f.Severity == Severity.Error)
            ? $"‘{New}’ cannot be weighed before the mistakes are corrected. Each leads to its cell."
        : "Studying what is not there without the newcomer.";

    /// <inheritdoc/>
    protected override void OnParametersSet() => Begin();

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Begin();

    // The one whose arithmetic is drawn in.
    private static int? Worst(StudyPictureModel model) =>
        model.Findings.FirstOrDefault(static f => f.Either.OverNoiseDb is not null)?.Number;

    private static IEnumerable<string> NewOn(NewcomerReceiver receiver)
    {
        foreach (var product in receiver.Findings.Products.Take(MostNew))
        {
            string level = product.OverNoiseDb is { } over ? $"{Figures.SignedDb(over, Typography.Fine)} dB over noise" : "level not known";
            yield return $"{StudyWords.Mixture(product, Typography.Fine)} MHz, {level}, made "
                + $"{StudyWords.MadeWhere(product, receiver.Findings.Name)}.";
        }

        if (receiver.Findings.Products.Count > MostNew)
        {
            yield return $"{Figures.Count(receiver.Findings.Products.Count - MostNew, Typography.Fine)} weaker mixtures more.";
        }

        foreach (NewCause cause in receiver.Causes.Take(MostNew))
        {
            yield return Typography.Fine.Signed(NewcomerWords.Says(receiver, cause));
        }
    }

    /// <summary>Reads both files, and asks anew where one says something else than the answer rests on.</summary>
    private void Begin()
    {
        _there = Folder.Site(File);
        if (_there is not null)
        {
            Tab.Site = File;
        }

        AskedNewcomer? asked = _there is null || string.IsNullOrEmpty(New) || New == File ? null : FolderNewcomers.Read(Folder, File, New);
        bool same = asked is not null && _asked is { } before && !Stopped && _answer is not null
            && before.SiteText == asked.SiteText && before.NewcomerText == asked.NewcomerText;
        if (same)
        {
            Show();
            return;
        }

        (_asked, _findings, _answer) = (asked, asked?.Findings ?? [], null);
        if (asked?.Sites is { } sites && Live)
        {
            _ = InvokeAsync(() => AskAsync(sites));
        }
        else
        {
            LetGo();
            Working = asked?.Sites is not null;
        }
    }

    private Task AskAsync(NewcomerSites sites)
    {
        _fraction = 0;
        Progress<SearchProgress> progress = new(p =>
        {
            _fraction = p.Fraction;
            StateHasChanged();
        });
        return AskAsync(token => NewcomerService.Ask(new NewcomerQuestion { Sites = sites }, progress, token), Take);
    }

    private Task Take(Outcome<NewcomerAnswer> outcome)
    {
        _answer = outcome.Answer;
        _problem = outcome.Answer is null ? outcome.Problem : null;
        _open = outcome.Answer is { } answer ? [.. NewcomerWords.NotKnown(answer).Select(Typography.Fine.Signed)] : [];
        Show();
        return Task.CompletedTask;
    }

    private void Show()
    {
        if (_answer is { } answer)
        {
            _shown = answer.Receivers.FirstOrDefault(r => r.Findings.Name == Receiver)
                ?? answer.Receivers.MaxBy(static r => r.WorstOverNoiseDb) ?? answer.Receivers[0];
            _model = StudyPictureModel.Of(_shown.Findings, answer.Question.Options);
        }
    }

    private void Choose(NewcomerReceiver receiver) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("receiver", receiver.Findings.Name), replace: true);

    private void ChooseNewcomer(ChangeEventArgs e) => Navigation.NavigateTo(
        Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            ["new"] = e.Value is string { Length: > 0 } name ? name : null,
            ["receiver"] = null,
        }),
        replace: true);

    private async Task TakeAsync(InputFileChangeEventArgs e)
    {
        string name = NamesInFolder.Beside(File) + Path.GetFileName(e.File.Name);
        if (FileKinds.Of(name, []) != FileKind.Site)
        {
            _problem = $"'{e.File.Name}' is no site file; name it *.site.yaml";
            return;
        }

        _problem = FolderIntake.Refusal(Folder, name, e.File.Size);
        if (_problem is null)
        {
            using MemoryStream bytes = new();
            _problem = await e.File.CopyAsync(FolderSession.LargestFile, bytes) ?? FolderIntake.Take(Folder, name, bytes.ToArray());
        }

        if (_problem is null)
        {
            Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("new", name), replace: true);
        }
    }
}
