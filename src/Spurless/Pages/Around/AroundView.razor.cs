using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Spurless.Drawing.Maps;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Reports.Registers;
using Spurless.Sites.Documents;
using Spurless.Sites.Matching;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Surveys;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Around;

/// <summary>What transmits round a site: from a register, from a sweep, taken over with a click.</summary>
public partial class AroundView
{
    private const int Most = 200;
    private const int DefaultRadiusKm = 25;
    private static readonly int[] Radii = [5, 10, 25, 50, 100];

    private SiteDocument? _site;
    private NearAnswer? _near;
    private AroundScene? _scene;
    private SurveyAnswer? _survey;
    private MatchAnswer? _match;
    private IReadOnlyList<string> _problems = [];
    private string? _says;
    private bool _busy;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>The register's name within the folder.</summary>
    [SupplyParameterFromQuery(Name = "register")]
    public string? Asked { get; set; }

    /// <summary>How far to look, in kilometres.</summary>
    [SupplyParameterFromQuery(Name = "km")]
    public string? Kilometres { get; set; }

    /// <summary>The chosen transmitter.</summary>
    [SupplyParameterFromQuery(Name = "pick")]
    public string? Picked { get; set; }

    /// <summary>The intake that is asked for, <c>register</c> or <c>sweep</c>: it stands first, and so does what came of it.</summary>
    [SupplyParameterFromQuery(Name = "intake")]
    public string? Intake { get; set; }

    private bool FromSweep => Intake == "sweep";

    private int RadiusKm => AddressNumber.Of(Kilometres) is { } km && Radii.Contains(km) ? km : DefaultRadiusKm;

    private string? Register => Databases().Contains(Asked ?? "") ? Asked : Databases().FirstOrDefault();

    private string Answer
    {
        get
        {
            if (_near is not { } near)
            {
                return Register is null
                    ? $"What transmits round {_site!.Site} is not known here yet: "
                        + $"drop a sweep or your regulator’s files on this page."
                    : $"{_site!.Site} has no place yet: write ‘place:’ with latitude and longitude into the site file.";
            }

            int there = near.Emitters.Count(static e => e.InSite);
            string strongest = near.Emitters.FirstOrDefault(static e => e is { InSite: false, LevelDbm: not null }) is { } first
                ? $" The strongest that does not is {first.Name}, about {Figures.Db(first.LevelDbm!.Value, Typography.Fine)} dBm."
                : "";
            return $"{StudyWords.Capital(Figures.CountInWords(near.Emitters.Count))} licensed "
                + $"transmitters stand within {RadiusKm} km of {near.Site}; " +
                $"{Figures.CountInWords(there)} of them stand in the site file.{strongest}";
        }
    }

    /// <inheritdoc/>
    protected override void OnParametersSet() => Look();

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Look();

    private List<string> Databases() =>
        [.. Directory.EnumerateFiles(Folder.Paths.Root, "*.db").Select(static p => Path.GetFileName(p)).Order(StringComparer.Ordinal)];

    private void Look()
    {
        LoadedSite? loaded = Folder.Site(File)?.Site;
        _site = loaded?.Document;
        (_near, _scene, _match) = (null, null, null);
        if (_site is null)
        {
            return;
        }

        Tab.Site = File;
        if (Register is { } register && _site.Place is not null)
        {
            DiagnosticBag bag = new();
            NearQuestion question = new()
            {
                Database = Path.Combine(Folder.Paths.Root, register),
                RadiusM = RadiusKm * 1000.0,
                Networks = loaded!.Networks,
                Terrain = loaded.Terrain,
            };
            _near = NearService.Run(_site, question, bag);
            _problems = [.. bag.InOrder().Select(static d => $"{Path.GetFileName(d.File)}: {d.What}; {d.Remedy}")];
        }

        if (_near is { } near)
        {
            _match = _survey is { } survey ? MatchService.Run(MatchService.OfSurvey(survey.Emitters), near) : null;
            _scene = new AroundScene(
                [
                    .. near.Emitters.Take(Most).Select(e => new AroundMark(
                        e.Name, ServiceOfRecord.Of(e.Record), e.BearingDegrees, e.DistanceM, e.LevelDbm, e.InSite, e.Name == Picked)),
                ],
                420);
        }
    }

    /// <summary>What a line of the sweep may be, by the register; null without one.</summary>
    private EmitterMatch? MatchOf(SurveyedEmitter emitter) =>
        _match?.Matches.FirstOrDefault(m => ReferenceEquals(m.Measured.Line, emitter));

    private static SiteAddition AsLicence(EmitterMatch match, SurveyedEmitter emitter) => NearService.Addition(
        match.Candidates[0].Licensed, new MeasuredFigures(emitter.LevelDbm, emitter.Line.SigmaDb, emitter.Line.OnShare));

    private void ChooseSite(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("around", (string)e.Value!));

    private void ChooseRegister(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("register", (string?)e.Value), replace: true);

    private void ChooseRadius(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("km", (string?)e.Value), replace: true);

    private void Pick(string name) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("pick", name == Picked ? null : name), replace: true);

    private void TakeOver(IReadOnlyList<SiteAddition> additions)
    {
        string what = additions.Count == 1
            ? additions[0].Name + " taken over"
            : FormattableString.Invariant($"{additions.Count} emitters taken over");
        FieldOutcome outcome = Folder.Edit(File, what, text =>
        {
            DiagnosticBag bag = new();
            SiteReading reading = SiteReader.Read(text, File, Folder.Beside(File));
            return reading.Document is { } site
                && SiteAdditions.TryAdd(text, File, site, additions, AdditionWords.Of, out string? edited, out _, bag)
                ? (edited, null)
                : (
                    null,
                    bag.InOrder()
                        .Select(static d => d.What + "; " + d.Remedy)
                        .FirstOrDefault() ?? "the site file has errors; correct them first");
        });
        _says = outcome.Ok ? what : null;
        _problems = outcome.Problem is { } problem ? [problem] : [];
        Look();
    }

    private async Task TakeAsync(InputFileChangeEventArgs e)
    {
        (_busy, _says, _problems) = (true, null, []);
        StateHasChanged();
        AroundIntake intake = await AroundIntake.TakeAsync(Folder, e, DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date));
        _busy = false;
        _survey = intake.Survey ?? _survey;
        _says = intake.Says;
        Look();
        _problems = [.. _problems, .. intake.Problems];
    }
}
