using System.Text;
using CsCheck;
using Spurless.Reports.Studies;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>What the desk computes without writing is, to the last digit of the JSON, what a study of the written files gives.</summary>
public sealed class StudyDeskTests
{
    private static readonly StudyOptions Options = new();

    [Fact]
    public void Study_of_any_settings_equals_the_study_of_the_files_that_keep_writes()
    {
        DeskFiles files = new();
        StudyDesk desk = Open(DeskFiles.Site, files);
        DeskItem[] items = [.. desk.Items];
        Gen<(int Item, int Step)> one = Gen.Select(Gen.Int[0, items.Length - 1], Gen.Int[0, 40]);
        one.Array[0, 5].Sample(
            changes =>
            {
                DeskSettings settings = DeskSettings.None;
                foreach ((int index, int step) in changes)
                {
                    DeskItem item = items[index];
                    settings = settings.With(
                        item, item.IsSwitch ? step % 2 : item.Snapped(item.Low + ((item.High - item.Low) * (step + 1) / 41)));
                }

                IReadOnlyList<KeptFile> kept = desk.Keep(settings, out string? problem);
                Assert.Null(problem);
                Assert.Equal(desk.Written(settings), kept.Select(static k => k.Path));
                DeskFiles written = new();
                string site = DeskFiles.Site;
                foreach (KeptFile file in kept)
                {
                    if (file.Path.Length == 0)
                    {
                        site = file.Text;
                    }
                    else
                    {
                        written[file.Path] = file.Text;
                    }
                }

                LoadedSite? loaded = SiteLoader.Load(site, "desk.site.yaml", written, out var diagnostics);
                Assert.True(loaded is not null, string.Join('\n', diagnostics) + "\n" + site);
                Assert.Equal(Json(StudyService.Run(loaded, Options)), Json(desk.Study(settings, Options)));
                Assert.All(
                    ["# the one that is disturbed", "# measured", "# on the mast"],
                    (string comment) => Assert.Contains(comment, site, StringComparison.Ordinal));
            },
            iter: 60);
    }

    [Fact]
    public async Task StudyOne_beside_others_equals_what_it_is_alone()
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        DeskItem[] items = [.. desk.Items.Where(static i => !i.IsSwitch)];
        DeskSettings[] settings =
        [
            .. Enumerable.Range(0, 24).Select(k => DeskSettings.None.With(
                items[k % items.Length], items[k % items.Length].Snapped(items[k % items.Length].FileValue * (1 + 0.01 * k)))),
        ];
        ReceiverFindings[] beside = await Task.WhenAll(settings.Select(s => Task.Run(() => desk.StudyOneAsync(0, s, Options))));
        for (int k = 0; k < settings.Length; k++)
        {
            ReceiverFindings alone = await Open(DeskFiles.Site, new DeskFiles()).StudyOneAsync(0, settings[k], Options);
            Assert.Equal(
                alone.Products.Select(static p => (p.Row, p.OverNoiseDb)), beside[k].Products.Select(static p => (p.Row, p.OverNoiseDb)));
            Assert.Equal(alone.SumOverNoiseDb, beside[k].SumOverNoiseDb);
        }
    }

    [Fact]
    public async Task StudyOne_that_waits_for_others_stops_when_told()
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        using CancellationTokenSource stop = new();
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => desk.StudyOneAsync(0, DeskSettings.None, Options, null, stop.Token));
        Assert.NotNull(await desk.StudyOneAsync(0, DeskSettings.None, Options));
    }

    [Fact]
    public async Task StudyOne_equals_the_whole_study_but_for_the_chain_without_filters()
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        DeskSettings settings = desk.Items
            .Where(static i => !i.IsSwitch)
            .Take(3)
            .Aggregate(DeskSettings.None, static (s, i) => s.With(i, i.Snapped(i.FileValue * 1.1)));
        StudyResult whole = desk.Study(settings, Options);
        for (int r = 0; r < whole.Receivers.Count; r++)
        {
            ReceiverFindings one = await desk.StudyOneAsync(r, settings, Options);
            ReceiverFindings less = whole.Receivers[r] with
            {
                WithoutFilter = null,
                WantedLossDb = null,
            };

            // What one emitter more would add is said of the one receiver too, and the same.
            Assert.NotNull(one.Limits!.More);
            Assert.Equal(whole.Receivers[r].Limits!.More, one.Limits.More);
            Assert.Equal(Json(whole with { Receivers = [less] }), Json(whole with { Receivers = [one] }));
        }
    }

    [Fact]
    public void Keep_of_one_part_changes_its_value_in_the_circuits_file_and_nothing_else()
    {
        DeskFiles files = new();
        StudyDesk desk = Open(DeskFiles.Site, files);
        DeskItem c3 = desk.Items.Single(static i => i.Id == "part.filters/parts.circuit.yaml.C3");
        Assert.Equal((1.6, "pF", 0.01), (c3.FileValue, c3.Unit, Math.Round(c3.Step, 9)));
        KeptFile kept = Assert.Single(desk.Keep(DeskSettings.None.With(c3, 1.45), out _));
        Assert.Equal("filters/parts.circuit.yaml", kept.Path);
        Assert.Equal(files["filters/parts.circuit.yaml"].Replace("1.6 pF", "1.45 pF", StringComparison.Ordinal), kept.Text);
    }

    [Fact]
    public void Keep_puts_an_offered_filter_behind_the_feedline_and_a_pad_before_the_receiver()
    {
        const string Site = """
            spurless: 1
            site: plain (invented)
            receivers:
              - name: input
                frequency: 145.050 MHz
                channel: 12.5 kHz
                noise_figure: 6 dB
                iip3: -2 dBm
                chain:
                  - feedline: { loss: 1.2 dB at 145 MHz }   # the long one
            emitters:
              - { name: one, frequency: 153.350 MHz, emission: 11K2F3E, level: -24.5 dBm }
            """;
        StudyDesk desk = Open(Site, new DeskFiles());
        DeskItem filter = desk.Items.Single(static i => i.Id == "0.add.filters/parts.circuit.yaml");
        DeskItem pad = desk.Items.Single(static i => i.Id == "0.add.attenuator");
        Assert.DoesNotContain(desk.Items, static i => i.Id.Contains("broken", StringComparison.Ordinal));
        KeptFile kept = Assert.Single(desk.Keep(DeskSettings.None.With(filter, 1).With(pad, 3), out _));
        Assert.Equal(
            Site.Replace(
                "# the long one\n",
                "# the long one\n      - circuit: filters/parts.circuit.yaml\n      - attenuator: 3 dB\n",
                StringComparison.Ordinal),
            kept.Text);
    }

    [Fact]
    public void Stages_run_from_the_antenna_to_the_receiver_and_then_to_the_transmitters()
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        Assert.Equal(
            [
                DeskStageKind.Feedline, DeskStageKind.Filter, DeskStageKind.Filter, DeskStageKind.Amplifier, DeskStageKind.Attenuator,
                DeskStageKind.Feedline,
                DeskStageKind.Receiver, DeskStageKind.Transmitter, DeskStageKind.Transmitter,
            ],
            desk.Receivers[0].Select(static s => s.Kind));
        Assert.Equal(
            ["spare trap", "parts"], desk.Receivers[0].Where(static s => s.Kind == DeskStageKind.Filter).Select(static s => s.Name));
        Assert.All(desk.Items, static i => Assert.InRange(i.FileValue, i.Low, i.High));
        Assert.All(desk.Items, static i => Assert.Equal(i.FileValue, i.Snapped(i.FileValue)));
        Assert.Equal(desk.Items.Count, desk.Items.Select(static i => i.Id).Distinct().Count());
    }

    [Fact]
    public void Settings_as_text_read_back_and_hold_nothing_that_is_as_in_the_file()
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        DeskItem item = desk.Items.First(static i => !i.IsSwitch);
        DeskSettings settings = desk.Items.Aggregate(DeskSettings.None, static (s, i) => s.With(i, i.IsSwitch ? 1 - i.FileValue : i.High));
        Assert.Equal(settings, DeskSettings.Parse(settings.ToString()));
        Assert.True(DeskSettings.None.With(item, item.High).With(item, item.FileValue).IsEmpty);
        Assert.True(DeskSettings.Parse("nonsense;=4;x=abc;;").IsEmpty);
        Assert.True(DeskSettings.Parse("gone.item=4").Known(desk.Items).IsEmpty);
    }

    [Theory]
    [InlineData("1e-320")]
    [InlineData("-1")]
    [InlineData("0")]
    public void Known_leaves_out_a_value_that_no_file_may_hold(string value)
    {
        StudyDesk desk = Open(DeskFiles.Site, new DeskFiles());
        DeskItem part = desk.Items.First(static i => i.Id.EndsWith(".C1", StringComparison.Ordinal));

        DeskSettings known = DeskSettings.Parse($"{part.Id}={value};gone=1").Known(desk.Items);

        Assert.True(known.IsEmpty);
        Assert.NotNull(desk.With(known));
        Assert.Empty(desk.Keep(known, out string? problem));
        Assert.Null(problem);
    }

    [Theory]
    [InlineData("1.45 pF", 1.45, true)]
    [InlineData("1.45", 1.45, true)]
    [InlineData(" 2.000pF ", 2, true)]
    [InlineData("1450 fF", 1.45, true)]
    [InlineData("0.0015 nF", 1.5, true)]
    [InlineData("-1 pF", 0, false)]
    [InlineData("1,45 pF", 0, false)]
    [InlineData("1.45 nH", 0, false)]
    [InlineData("", 0, false)]
    public void TryRead_takes_numbers_of_the_items_unit_only(string text, double expected, bool good)
    {
        DeskItem c3 = Open(DeskFiles.Site, new DeskFiles()).Items.Single(static i => i.Id == "part.filters/parts.circuit.yaml.C3");
        Assert.Equal(good, c3.TryRead(text, out double value, out string problem));
        Assert.Equal(good, problem.Length == 0);
        if (good)
        {
            Assert.Equal(expected, value);
        }
        else
        {
            Assert.Contains("; write ", problem, StringComparison.Ordinal);
        }
    }

    private static StudyDesk Open(string site, DeskFiles files)
    {
        StudyDesk? desk = StudyDesk.Open(site, "desk.site.yaml", files, DeskFiles.Offered, out var diagnostics);
        Assert.True(desk is not null, string.Join('\n', diagnostics));
        return desk;
    }

    /// <summary>The JSON without the checksums of the files, which do differ.</summary>
    private static string Json(StudyResult study)
    {
        using MemoryStream stream = new();
        StudyJson.Write(study with { Inputs = [] }, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
