using System.Globalization;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Desk;

namespace Spurless.Reports.Tests.Bench;

/// <summary>The bench's pictures of the demo's filter with the needs of the demo's site; figures of docs/checks.md 9.</summary>
public sealed class BenchPictureTests
{
    private static readonly CircuitBench Filter = Open("filters/three-tank.circuit.yaml");

    private static readonly Lazy<SiteNeeds> Needs = new(
        static () => SiteNeeds.Of(SiteLoader.Load(DemoSites.PathOf("quernmoss.site.yaml"), out _)!, 0, new StudyOptions()));

    [Fact]
    public void Answer_of_the_demo_tells_loss_needs_and_whether_to_transmit()
    {
        BenchPicture picture = Picture(DeskSettings.None);
        StressResult stress =
            StressAnalysis.TryRun(CircuitSolver.Create(Filter.Circuit), new StressRequest(50, 145.65e6, StressLoad.Matched), out _)!;
        Assert.Equal(
            "Passes 145.0500\u00A0MHz with 2.9\u00A0dB loss and meets all eleven of the site\u2019s needs. Do not transmit through it.",
            BenchWords.Answer(picture, stress));
        Assert.Equal(33.7, picture.Needs.Single(static n => n.Need.Name == "waterworks base").HasDb, 0.1);
    }

    [Fact]
    public void Answer_with_a_part_far_off_says_which_need_is_missed_and_by_how_much()
    {
        // All three tanks 6 pF less: the pass-band lies over 150 MHz, where the culprits are.
        DeskSettings moved = new[] { ("C2", 30.0), ("C4", 33.0), ("C6", 30.0) }.Aggregate(
            DeskSettings.None, static (s, v) => s.With(Filter.Items.Single(i => i.Name == v.Item1), v.Item2));
        BenchPicture picture = Picture(moved);
        NeedKept worst = picture.Needs.MaxBy(static n => n.ShortDb)!;
        Assert.Contains(
            string.Create(CultureInfo.InvariantCulture, $"{worst.Need.Name}, it is {worst.ShortDb:0.0}\u00A0dB short."),
            BenchWords.Answer(picture, null),
            StringComparison.Ordinal);
        Assert.Contains(picture.Needs, static n => !n.Kept);
    }

    [Fact]
    public void Of_keeps_its_axes_and_follows_the_network_within_a_twentieth_of_a_decibel()
    {
        BenchPicture before = Picture(DeskSettings.None);
        CircuitTwoPort network = Filter.With(DeskSettings.None).Network!;
        foreach (double f in (double[])[50.85e6, 94.2e6, 141.217e6, 145.05e6, 148.831e6, 153.35e6, 171.55e6, 466.1e6])
        {
            Assert.Equal(-network.At(f).InsertionLossDb, before.Wide.Quantity(f), 0.05);
        }

        DeskSettings moved = DeskSettings.None.With(Filter.Items.Single(static i => i.Name == "C3"), 3);
        BenchPicture after = Picture(moved);
        Assert.Equal(
            (before.Wide.FromHz, before.Wide.ToHz, before.Wide.Low, before.Close.FromHz),
            (after.Wide.FromHz, after.Wide.ToHz, after.Wide.Low, after.Close.FromHz));
        Assert.NotEqual(before.Wide.Quantity(145.05e6), after.Wide.Quantity(145.05e6), 0.05);
    }

    [Theory]
    [InlineData(358)]
    [InlineData(816)]
    public void Pictures_no_text_meets_another_at_either_width(double width)
    {
        BenchPicture picture = Picture(DeskSettings.None);
        Scene[] scenes =
        [
            ResponsePlotScene.Draw(picture.Wide, width, 214),
            ResponsePlotScene.Draw(picture.Close, width, 170),
            ResponsePlotScene.Draw(picture.ReturnLoss, width, 120),
            picture.Smith(Math.Min(392, width), 50),
        ];
        foreach (Scene scene in scenes)
        {
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
        }
    }

    [Fact]
    public void Csv_has_801_points_and_a_row_for_each_need()
    {
        string[] lines = Picture(DeskSettings.None).Csv().TrimEnd('\n').Split('\n');
        Assert.Equal(1 + 801 + 11, lines.Length);
        Assert.Equal("part,letter,emitter,frequency_hz,s21_db,s11_db,measured_s21_db,needed_db", lines[0]);
        Assert.All(lines, static l => Assert.Equal(7, l.Count(static c => c == ',')));
    }

    private static BenchPicture Picture(DeskSettings settings)
    {
        BenchFrame frame = BenchFrame.Of(Filter.With(DeskSettings.None).Network!, Filter.Circuit.Name, Needs.Value, null, null)!;
        return BenchPicture.Of(frame, Filter.With(settings).Network!)!;
    }

    private static CircuitBench Open(string file) =>
        CircuitBench.Open(
            File.ReadAllText(DemoSites.PathOf(file)), file, new SiteFolder(DemoSites.PathOf(file)), out IReadOnlyList<Diagnostic> _)!;
}
