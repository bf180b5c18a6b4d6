using Bunit;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Pages.Study;
using Spurless.Reports.Pictures;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Workbench.Desk;

namespace Spurless.Pages.Tests.Study;

/// <summary>The study page's parts as markup: found as a user finds them, by role, label and words.</summary>
public sealed class StudyPageTests : BunitContext
{
    private static readonly StudyOptions Options = new();

    private readonly StudyDesk _desk = Open();

    [Fact]
    public void List_parts_by_outcome_and_says_where_a_mixture_is_made()
    {
        StudyPictureModel model = Model(DeskSettings.None);
        IRenderedComponent<MixtureList> list = List(model, FindingGrouping.Outcome);
        NumberedFinding made = model.Findings.First(static f => f.Either.Mechanism == Mechanism.Transmitter && f.Now == Verdict.Harmful);
        Assert.Contains(list.FindAll("h3"), static h => h.TextContent.StartsWith("Still on the channel", StringComparison.Ordinal));
        string row = list.Find($"#finding-{made.Number}").TextContent;
        Assert.Contains($"made in the transmitter of the {made.Either.MadeIn}: no filter at your receiver removes it", row,
            StringComparison.Ordinal);
        Assert.Contains("opens squelch without the filter, opens squelch (likely) with it", row, StringComparison.Ordinal);
        Assert.Equal(
            model.Findings.Select(static f => f.Number).Order(),
            list.FindAll("button[data-finding]")
                .Select(static b => int.Parse(b.GetAttribute("data-finding")!, System.Globalization.CultureInfo.InvariantCulture)).Order());
    }

    [Fact]
    public void List_parted_by_cure_puts_each_mixture_with_who_can_end_it()
    {
        StudyPictureModel model = Model(DeskSettings.None);
        IReadOnlyList<FindingGroup> groups = FindingView.Groups(model, FindingGrouping.Cure);
        foreach (FindingGroup group in groups.Where(static g => !g.Folded))
        {
            Assert.All(group.Findings, f => Assert.Equal(
                f.Either.Mechanism == Mechanism.Transmitter ? $"Cured at the transmitter of the {f.Either.MadeIn}"
                    : "Cured at your receiver", group.Heading));
        }

        Assert.Equal(model.Findings.Count, groups.Sum(static g => g.Findings.Count));
        Assert.Equal(model.Receiver.OtherCauses.Count, groups.Sum(static g => g.Causes.Count));
    }

    [Fact]
    public void Picked_and_opened_mixture_shows_a_sum_that_adds_up_as_printed()
    {
        StudyPictureModel model = Model(DeskSettings.None);
        NumberedFinding worst = model.Findings.First(static f => f.Either.Mechanism == Mechanism.Receiver && f.OverNoiseNowDb is not null);
        IRenderedComponent<MixtureList> list = List(model, FindingGrouping.Outcome, worst.Number);
        AngleSharp.Dom.IElement button = list.Find($"#finding-{worst.Number}");
        Assert.Equal("true", button.GetAttribute("aria-expanded"));
        decimal[] cells = [.. list.FindAll(".why tbody tr").Select(static r => r.LastElementChild!.TextContent)
            .Where(static t => t.Length > 0)
            .Select(static t => decimal.Parse(
                t.Replace('\u2212', '-').Replace("\u202F", "", StringComparison.Ordinal),
                System.Globalization.CultureInfo.InvariantCulture))];
        int total = list.FindAll(".why tbody tr").ToList()
            .FindIndex(static r => r.TextContent.StartsWith("in the channel", StringComparison.Ordinal));
        Assert.Equal(cells[total], cells[..total].Sum());
        Assert.Contains("Made in", list.Find(".why .prose").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Sum_of_a_transmitters_mixture_keeps_each_rows_meaning_when_an_isolator_is_put_in()
    {
        DeskItem isolator = _desk.Items.Single(static i => i.Id == "isolator.scanner");
        StudyPictureModel model = Model(DeskSettings.None.With(isolator, 25));
        NumberedFinding made = model.Findings.First(static f =>
            f.Either.Mechanism == Mechanism.Transmitter && f.Either.MadeIn == "scanner" && f.After is not null);
        string[][] rows = [.. List(model, FindingGrouping.Outcome, made.Number).FindAll(".why tbody tr")
            .Select(static r => r.Children.Select(static c => c.TextContent).ToArray())];
        string[] turn = rows.Single(static r => r[0].StartsWith("turn-round loss", StringComparison.Ordinal));
        Assert.Equal(["\u221212.0", "\u221212.0"], turn[1..]);
        string[] added = rows.Single(static r => r[0].Contains("isolator", StringComparison.Ordinal));
        Assert.Equal("", added[1]);
        Assert.Equal("\u221225.0", added[2]);
    }

    [Fact]
    public void Numbers_stay_while_the_chain_changes_and_new_mixtures_take_the_next_ones()
    {
        Dictionary<ProductRow, int> numbers = [];
        DeskItem iip3 = _desk.Items.Single(static i => i.Id == "0.iip3");
        DeskItem filter = _desk.Items.Single(static i => i.Id == "0.chain.1");
        IReadOnlyList<NumberedFinding> first =
            NumberedFinding.Of(One(_desk, 0, DeskSettings.None.With(iip3, 25), Options), numbers, int.MaxValue);
        IReadOnlyList<NumberedFinding> second =
            NumberedFinding.Of(One(_desk, 0, DeskSettings.None.With(iip3, -20).With(filter, 0), Options), numbers, int.MaxValue);
        Dictionary<string, int> was = first.ToDictionary(Name, static f => f.Number);
        Assert.NotEmpty(was);
        foreach (NumberedFinding f in second.Where(f => was.ContainsKey(Name(f))))
        {
            Assert.Equal(was[Name(f)], f.Number);
        }

        Assert.Equal(second.Count, second.Select(static f => f.Number).Distinct().Count());
        Assert.Contains(second, f => f.Number > was.Count);

        static string Name(NumberedFinding f) => StudyWords.Names(f.Either, Typography.Plain) + f.Either.Mechanism;
    }

    [Fact]
    public void Mixture_that_sank_under_the_floor_keeps_its_exact_level_when_the_intercept_moves_too()
    {
        // Told by the lever's law, held against the study without a floor: the same mixture, found and computed in full.
        StudyDesk desk = Open(
            DeskFiles.Site.Replace(
            "      - amplifier: { gain: 12 dB, noise_figure: 1.5 dB, iip2: 25 dBm, iip3: 5 dBm }\n", "", StringComparison.Ordinal));
        DeskItem iip3 = desk.Items.Single(static i => i.Id == "0.iip3");
        DeskSettings settings = DeskSettings.None.With(iip3, 15);
        ReceiverFindings before = One(desk, 0, desk.WithoutFilters(0), Options);
        ReceiverFindings now = One(desk, 0, settings, Options);
        ReceiverFindings full = One(desk, 0, settings, Options with { FloorDbm = double.NegativeInfinity });
        Dictionary<string, ProductFinding> found = full.Products.Where(static p => p.Mechanism == Mechanism.Receiver)
            .ToDictionary(static p => StudyWords.Names(p, Typography.Plain));
        NumberedFinding[] sunk =
            [.. NumberedFinding.Of(now with { WithoutFilter = before })
            .Where(static f => f.After is null && f.Before!.Order == 3 && f.InChannelNowDbm is not null)];
        Assert.NotEmpty(sunk);
        Assert.All(sunk, f =>
            Assert.Equal(found[StudyWords.Names(f.Before!, Typography.Plain)].InChannelLevelDbm!.Value, f.InChannelNowDbm!.Value, 1e-4));
    }

    [Fact]
    public void Chain_has_a_label_that_states_its_effect_on_every_control()
    {
        IRenderedComponent<ChainControls> chain = Chain(DeskSettings.None, static (_, _) => { });
        Assert.All(chain.FindAll("input, select"), static e => Assert.False(string.IsNullOrWhiteSpace(e.GetAttribute("aria-label"))));
        Assert.Empty(chain.FindAll("input[aria-label='Put spare trap into the chain']"));
        chain.FindAll("button").Single(static b => b.TextContent == "Put another filter in").Click();
        Assert.Single(chain.FindAll("input[aria-label='Put spare trap into the chain']"));
        Assert.Contains("each dB takes 3 dB off a third-order mixture",
            chain.Find("input[type=range][aria-label^=Attenuator]").GetAttribute("aria-label"), StringComparison.Ordinal);
    }

    [Fact]
    public void Chain_tells_each_step_of_a_slider_and_when_it_is_let_go()
    {
        List<(string Id, double Value)> moves = [];
        int settled = 0;
        IRenderedComponent<ChainControls> chain = Chain(DeskSettings.None, (item, value) => moves.Add((item.Id, value)), () => settled++);
        AngleSharp.Dom.IElement slider = chain.Find("input[type=range][aria-label^=Attenuator]");
        slider.Input("3");
        chain.Find("input[type=range][aria-label^=Attenuator]").Input("4");
        chain.Find("input[type=range][aria-label^=Attenuator]").Change("4");
        Assert.Equal([("0.chain.3.attenuator", 3.0), ("0.chain.3.attenuator", 4.0)], moves);
        Assert.Equal(1, settled);
    }

    [Fact]
    public void Typed_value_that_cannot_be_is_said_at_its_place_and_moves_nothing()
    {
        List<double> moves = [];
        IRenderedComponent<ChainControls> chain = Chain(DeskSettings.None, (_, value) => moves.Add(value));
        chain.Find("input.typed[aria-label^=Attenuator]").Change("three");
        Assert.Empty(moves);
        Assert.Contains("'three' is no value here; write one such as 2 dB", chain.Find(".fault[role=alert]").TextContent,
            StringComparison.Ordinal);
        chain.Find("input.typed[aria-label^=Attenuator]").Change("3 dB");
        Assert.Equal([3.0], moves);
        Assert.Empty(chain.FindAll(".fault"));
    }

    [Fact]
    public void Notch_stands_where_the_files_value_is()
    {
        DeskItem pad = Item("0.chain.3.attenuator");
        IRenderedComponent<ChainControls> chain = Chain(DeskSettings.None.With(pad, 12), static (_, _) => { });
        AngleSharp.Dom.IElement stage = chain.Find("input[type=range][aria-label^=Attenuator]").ParentElement!;
        Assert.Equal("10%", stage.QuerySelector(".notch svg")!.GetAttribute("x"));
        Assert.Equal("12", stage.QuerySelector("input")!.GetAttribute("value"));
        Assert.Equal("2", stage.QuerySelector("input")!.GetAttribute("data-file"));
    }

    [Fact]
    public void Ledger_shows_before_and_now_with_the_words_of_what_changed()
    {
        DeskItem iip3 = Item("0.iip3");
        Assert.Equal(ComparisonWords.Filter, StudyShown.Words(_desk.Receivers[0], DeskSettings.None));
        Assert.Equal(ComparisonWords.FilterAndMore, StudyShown.Words(_desk.Receivers[0], DeskSettings.None.With(iip3, 4)));
        Assert.Equal(ComparisonWords.Changes,
            StudyShown.Words(_desk.Receivers[0], DeskSettings.None.With(iip3, 4).With(Item("0.chain.1"), 0)));
        Assert.Null(StudyShown.Words(_desk.Receivers[0], DeskSettings.None.With(Item("0.chain.1"), 0)));
        StudyPictureModel model = Model(DeskSettings.None);
        IRenderedComponent<DeskLedger> ledger = Render<DeskLedger>(p => p.Add(static l => l.Model, model));
        Assert.Equal(["without the filter", "with it"], ledger.FindAll("tbody th").Select(static h => h.TextContent.Trim()));
        Assert.Equal(
            [model.Receiver.WithoutFilter!.Harmful, model.Receiver.Harmful],
            ledger.FindAll("tbody tr")
                .Select(static r => int.Parse(r.QuerySelector("td")!.TextContent, System.Globalization.CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void Picked_carrier_leaves_only_what_it_takes_part_in_and_is_drawn_out()
    {
        StudyPictureModel model = Model(DeskSettings.None) with { PickedCarrier = 5 };
        Assert.All(FindingView.Groups(model, FindingGrouping.Outcome).SelectMany(static g => g.Findings), static f =>
            Assert.Contains(f.Either.Terms, static t => t.Emitter == 5));
        IRenderedComponent<StudyPicture> picture = Render<StudyPicture>(p =>
            p.Add(static s => s.Model, model).Add(static s => s.Id, "t").Add(static s => s.Width, 812.0));
        Assert.NotEmpty(picture.FindAll(".stem.picked"));
        List<int> picked = [];
        IRenderedComponent<CarrierTable> table = Render<CarrierTable>(p =>
            p.Add(static t => t.Model, model).Add(static t => t.OnPick, picked.Add));
        table.Find("tr.sel button").Click();
        Assert.Equal([5], picked);
    }

    [Fact]
    public void Groups_keep_a_mixtures_place_while_a_slider_moves()
    {
        StudyPictureModel first = Model(DeskSettings.None);
        IReadOnlyDictionary<int, string> placed = FindingView.Places(FindingView.Groups(first, FindingGrouping.Outcome));
        StudyPictureModel moved = Model(DeskSettings.None.With(Item("0.iip3"), 25));
        IReadOnlyDictionary<int, string> kept = FindingView.Places(FindingView.Groups(moved, FindingGrouping.Outcome, placed));
        Assert.All(kept.Where(k => placed.ContainsKey(k.Key)), k => Assert.Equal(placed[k.Key], k.Value));
        Assert.NotEqual(FindingView.Places(FindingView.Groups(moved, FindingGrouping.Outcome)).Where(k => placed.ContainsKey(k.Key)),
            kept.Where(k => placed.ContainsKey(k.Key)));
    }

    [Fact]
    public async Task Picture_as_a_file_is_whole_by_itself_and_its_data_hold_what_it_shows()
    {
        StudyPictureModel model = Model(DeskSettings.None);
        string svg = await PictureFile.SvgAsync(model, 816, 1);
        System.Xml.Linq.XDocument drawing = System.Xml.Linq.XDocument.Parse(svg);
        Assert.Equal("http://www.w3.org/2000/svg", drawing.Root!.Name.NamespaceName);
        Assert.DoesNotContain("var(", svg, StringComparison.Ordinal);
        string[] rows = PictureFile.Csv(model).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(1 + model.Carriers.Count + model.Findings.Count + 801, rows.Length);
        Assert.All(rows, r =>
            Assert.Equal(11, System.Text.RegularExpressions.Regex.Replace(r, "\"[^\"]*\"", "").Count(static c => c == ',')));
    }

    private static StudyDesk Open(string site = DeskFiles.Site) =>
        StudyDesk.Open(site, "desk.site.yaml", new DeskFiles(), DeskFiles.Offered, out _)
            ?? throw new InvalidOperationException("the site has errors");

    private static ReceiverFindings One(StudyDesk desk, int receiver, DeskSettings settings, StudyOptions options) =>
        desk.StudyOneAsync(receiver, settings, options).GetAwaiter().GetResult();

    private DeskItem Item(string id) => _desk.Items.Single(i => i.Id == id);

    private StudyPictureModel Model(DeskSettings settings, Dictionary<ProductRow, int>? numbers = null)
    {
        ReceiverFindings before = One(_desk, 0, _desk.WithoutFilters(0), Options);
        numbers ??= [];
        StudyShown.Number(before, numbers);
        ComparisonWords? words = StudyShown.Words(_desk.Receivers[0], settings);
        return StudyShown.Of(One(_desk, 0, settings, Options), words is null ? null
            : before, words ?? ComparisonWords.Filter, Options, numbers, null);
    }

    private IRenderedComponent<MixtureList> List(StudyPictureModel model, FindingGrouping grouping, int? picked = null) =>
        Render<MixtureList>(p => p
        .Add(static l => l.Model, model)
        .Add(static l => l.Groups, FindingView.Groups(model, grouping))
        .Add(static l => l.Selected, picked)
        .Add(static l => l.Open, picked is not null));

    private IRenderedComponent<ChainControls> Chain(DeskSettings settings, Action<DeskItem, double> moves, Action? settled = null) =>
        Render<ChainControls>(p => p
        .Add(static c => c.Stages, _desk.Receivers[0])
        .Add(static c => c.Settings, settings)
        .Add(static c => c.Moves, moves)
        .Add(static c => c.Moved, settled ?? (static () => { })));
}
